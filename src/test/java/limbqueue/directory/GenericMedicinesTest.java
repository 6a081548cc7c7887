package limbqueue.directory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GenericMedicinesTest {

    /** Trade names of medicines for the vessels, values from memory. */
    private static final Map<String, String> BRANDS = Map.of(
            "Plavix", "clopidogrel",
            "Eliquis", "apixaban",
            "Xarelto", "rivaroxaban",
            "Pradaxa", "dabigatran",
            "Glucophage", "metformin",
            "Lipitor", "atorvastatin",
            "Clexane", "enoxaparin");

    @Test
    void theListHasWhatPatientsWithBlockedLegArteriesTake() {
        assertThat(GenericMedicines.all()).hasSizeGreaterThan(120);
        assertThat(GenericMedicines.all())
                .extracting(GenericMedicine::name)
                .contains("aspirin", "clopidogrel", "warfarin", "apixaban", "cilostazol", "metformin", "insulin")
                .isSortedAccordingTo(String::compareToIgnoreCase);
    }

    @Test
    void aTradeNameLeadsToItsGenericName() {
        BRANDS.forEach((brand, generic) -> assertThat(GenericMedicines.all())
                .filteredOn(medicine -> medicine.brands().contains(brand))
                .extracting(GenericMedicine::name)
                .containsExactly(generic));
    }

    @Test
    void aLineIsAGenericNameAndItsTradeNames() {
        assertThat(GenericMedicines.parse("# said\n\nwarfarin;Coumadin,Marevan\nheparin;\n"))
                .containsExactly(
                        new GenericMedicine("warfarin", List.of("Coumadin", "Marevan")),
                        new GenericMedicine("heparin", List.of()));
    }

    @ParameterizedTest
    @ValueSource(strings = {"warfarin", ";Coumadin", "a;b;c", "a;b,", "a;b\nA;c", "a;b\nc;B", " a;b"})
    void aLineThatIsNotIsRefusedByItsNumber(String text) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> GenericMedicines.parse("# said\n" + text))
                .withMessageMatching("medicines.txt, line [23]: .*");
    }
}
