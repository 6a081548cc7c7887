package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whole referrals, each with the sentence of the reference from which a person derived what is expected. */
class VignettesTest {

    static List<Table.Row> vignettes() {
        return Table.read(Path.of("src/test/resources/limbqueue/triage/vignettes.txt"), 3);
    }

    @ParameterizedTest
    @MethodSource("vignettes")
    void theRuleHoldsForTheWholeReferral(Table.Row row) {
        Expectation.check(Facts.of(row.cell(1)), row.cell(2), row.place() + ": " + row.cell(0));
    }

    @Test
    void thereAreAtLeastThirty() {
        assertThat(vignettes()).hasSizeGreaterThanOrEqualTo(30);
    }
}
