package limbqueue.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import limbqueue.directory.GenericMedicines;
import org.junit.jupiter.api.Test;

/** The list that letters are read by and the list that is offered while typing call a medicine by one name. */
class DrugsAndMedicinesTest {

    @Test
    void whatIsOfferedIsReadUnderTheSameName() {
        assertThat(GenericMedicines.all()).isNotEmpty().allSatisfy(medicine -> {
            assertThat(read(medicine.name())).contains(medicine.name());
            assertThat(medicine.brands())
                    .allSatisfy(brand -> assertThat(read(brand).orElse(medicine.name()))
                            .as(brand)
                            .isEqualTo(medicine.name()));
        });
    }

    private static Optional<String> read(String name) {
        return Drugs.shipped().generic(WordFile.lower(name));
    }
}
