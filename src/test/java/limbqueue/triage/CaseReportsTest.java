package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Published cases: the facts that a report gives lead to the class that the same report states. */
class CaseReportsTest {

    private static final String TEACHING = "[teaching]";

    static List<Table.Row> cases() {
        return Table.read(Path.of("src/test/resources/limbqueue/triage/case-reports.txt"), 5);
    }

    static List<Table.Row> casesOfAnatomy() {
        return Table.read(Path.of("src/test/resources/limbqueue/triage/case-reports-anatomy.txt"), 5);
    }

    @ParameterizedTest
    @MethodSource({"cases", "casesOfAnatomy"})
    void theFactsOfTheReportLeadToTheClassItStates(Table.Row row) {
        Expectation.check(Facts.of(row.cell(1)), row.cell(2), row.place() + ": " + row.cell(4) + ", " + row.cell(3));
    }

    @ParameterizedTest
    @MethodSource({"cases", "casesOfAnatomy"})
    void everyCaseSaysWhereItWasReadAndWhatIsStatedThere(Table.Row row) {
        assertThat(row.cell(3))
                .containsPattern("\\b(19|20)\\d\\d\\b|year not shown")
                .containsPattern("https?://\\S+");
        assertThat(Stream.of(row.cell(0), row.cell(1), row.cell(2), row.cell(4)))
                .as(row.place())
                .noneMatch(String::isBlank);
    }

    @Test
    void noReportIsCountedTwice() {
        assertThat(cases().stream().map(row -> row.cell(0))).doesNotHaveDuplicates();
        assertThat(cases().stream().map(row -> row.cell(1) + row.cell(3))).doesNotHaveDuplicates();
    }

    @Test
    void thereAreAtLeastForty() {
        assertThat(cases()).hasSizeGreaterThanOrEqualTo(40);
    }

    @Test
    void atMostEightWereWrittenForTeaching() {
        assertThat(cases().stream().filter(row -> row.cell(3).startsWith(TEACHING)))
                .hasSizeLessThanOrEqualTo(8);
    }
}
