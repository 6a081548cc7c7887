package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.anatomy.GlassTable;
import limbqueue.triage.finding.CreatinineClearance;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.grade.WifiTable;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The rules against the tables of the sources that they name, row for row. */
class PublishedRulesTest {

    private static final List<String> RISK = List.of("VL", "L", "M", "H");
    private static final Set<String> SEEN =
            Set.of("confirmed", "secondary", "memory", "common practice", "aha-abi-2012", "tasc-2007");

    /** Every point of the table of Mehran and others, and a litre of contrast. */
    private static final int HIGHEST_TOTAL = 41;

    /** Every file but the tables of numbers holds a referral and what is expected of it. */
    private static final List<String> SITUATIONS = List.of(
            "acc-aha-2024",
            "acr-contrast",
            "af-2023",
            "aha-abi-2012",
            "aha-acc-2016",
            "common-practice",
            "common-practice.plan",
            "esc-2017",
            "esvs-ali-2020",
            "fda-metformin-2016",
            "fda-sglt2-2020",
            "fhir-r4",
            "fontaine-1954",
            "gvg-2019",
            "gvg-2019.glass",
            "idsa-2012",
            "lee-1999",
            "mehran-2004",
            "nice-ng19",
            "rutherford-1997",
            "sir-2019",
            "sir-2019.holding",
            "svs-paa-2022",
            "tasc-2007",
            "vs-qif-2019",
            "wifi-2014");

    private static final List<String> NUMBERS = List.of(
            "ckd-epi-2021", "cockcroft-1976", "mehran-2004.risks", "tiers", "wifi-2014.benefit", "wifi-2014.stages");

    @Test
    void everyFileIsRead() throws IOException {
        var read = new TreeSet<>(SITUATIONS);
        read.addAll(NUMBERS);
        try (Stream<Path> files = Files.list(Table.PUBLISHED)) {
            assertThat(files.map(file -> file.getFileName().toString().replaceFirst("\\.csv$", "")))
                    .containsExactlyInAnyOrderElementsOf(read);
        }
    }

    static Stream<Table.Row> situations() {
        return SITUATIONS.stream().flatMap(source -> Table.published(source, 5).stream());
    }

    @ParameterizedTest
    @MethodSource("situations")
    void whatIsPrintedHolds(Table.Row row) {
        assertThat(SEEN).contains(row.cell(1));
        Expectation.check(Facts.of(row.cell(3)), row.cell(4), row.place() + ": " + row.cell(2));
    }

    @Test
    void theTableOfGlassHasAll25CellsAndRises() {
        assertThat(Table.published("gvg-2019.glass", 5).stream()
                        .filter(row -> row.cell(0).equals("GLASS, table of stages"))
                        .map(row -> row.cell(2).substring(0, row.cell(2).indexOf(':'))))
                .hasSize(25)
                .doesNotHaveDuplicates();
        for (var above = 0; above <= 4; above++) {
            for (var below = 0; below <= 4; below++) {
                assertThat(GlassTable.stage(above, below))
                        .isGreaterThanOrEqualTo(GlassTable.stage(Math.max(0, above - 1), below))
                        .isGreaterThanOrEqualTo(GlassTable.stage(above, Math.max(0, below - 1)));
            }
        }
    }

    static Stream<Table.Row> stages() {
        return Table.published("wifi-2014.stages", 8).stream();
    }

    @ParameterizedTest
    @MethodSource("stages")
    void theStageIsTheRiskOfAmputationAsPrinted(Table.Row row) {
        for (var infection = 0; infection <= 3; infection++) {
            assertThat(WifiTable.stage(number(row, 2), number(row, 3), infection))
                    .as(row.place() + ", fI " + infection)
                    .isEqualTo(RISK.indexOf(row.cell(4 + infection)) + 1);
        }
    }

    static Stream<Table.Row> benefits() {
        return Table.published("wifi-2014.benefit", 8).stream();
    }

    @ParameterizedTest
    @MethodSource("benefits")
    void theBenefitIsAsPrinted(Table.Row row) {
        for (var infection = 0; infection <= 3; infection++) {
            assertThat(WifiTable.benefit(number(row, 2), number(row, 3), infection))
                    .as(row.place() + ", fI " + infection)
                    .isEqualTo(Benefit.values()[RISK.indexOf(row.cell(4 + infection))]);
        }
    }

    /** Clinical sources 5.4: stage 1 in 6 cells, 2 in 10, 3 in 16, 4 in 32; and never a lower stage for a higher grade. */
    @Test
    void theTableOfStagesHasAll64CellsAndRises() {
        var count = new int[5];
        for (var wound = 0; wound <= 3; wound++) {
            for (var ischaemia = 0; ischaemia <= 3; ischaemia++) {
                for (var infection = 0; infection <= 3; infection++) {
                    var stage = WifiTable.stage(wound, ischaemia, infection);
                    count[stage]++;
                    assertThat(stage)
                            .isGreaterThanOrEqualTo(WifiTable.stage(Math.max(0, wound - 1), ischaemia, infection));
                    assertThat(stage)
                            .isGreaterThanOrEqualTo(WifiTable.stage(wound, Math.max(0, ischaemia - 1), infection));
                    assertThat(stage)
                            .isGreaterThanOrEqualTo(WifiTable.stage(wound, ischaemia, Math.max(0, infection - 1)));
                }
            }
        }
        assertThat(count).containsExactly(0, 6, 10, 16, 32);
        assertThat(stages()).hasSize(16);
        assertThat(benefits()).hasSize(16);
    }

    static Stream<Table.Row> workedValues() {
        return Table.published("ckd-epi-2021", 6).stream();
    }

    @ParameterizedTest
    @MethodSource("workedValues")
    void theKidneyFunctionIsTheWorkedValue(Table.Row row) {
        assertThat(KidneyFunction.ckdEpi2021(
                        Double.parseDouble(row.cell(4)),
                        number(row, 3),
                        row.cell(2).equals("female")))
                .isCloseTo(Double.parseDouble(row.cell(5)), offset(0.01));
    }

    static Stream<Table.Row> clearances() {
        return Table.published("cockcroft-1976", 8).stream();
    }

    @ParameterizedTest
    @MethodSource("clearances")
    void theCreatinineClearanceIsTheWorkedValue(Table.Row row) {
        assertThat(SEEN).contains(row.cell(1));
        assertThat(CreatinineClearance.cockcroftGault(
                        number(row, 3),
                        number(row, 4),
                        Double.parseDouble(row.cell(5)),
                        row.cell(2).equals("female")))
                .isCloseTo(Double.parseDouble(row.cell(6)), offset(Double.parseDouble(row.cell(7))));
    }

    static Stream<Table.Row> risks() {
        return Table.published("mehran-2004.risks", 7).stream();
    }

    @ParameterizedTest
    @MethodSource("risks")
    void theRiskOfEveryTotalIsAsPrinted(Table.Row row) {
        assertThat(SEEN).contains(row.cell(1));
        var limits = RuleBook.shipped().on(Facts.TODAY);
        var last = row.cell(3).equals("-") ? HIGHEST_TOTAL : number(row, 3);
        for (var points = number(row, 2); points <= last; points++) {
            var risk = MehranScore.Risk.of(points, limits);
            assertThat(risk.name()).as(row.place() + ", " + points).isEqualTo(row.cell(6));
            assertThat(risk.nephropathy()).isEqualTo(Double.parseDouble(row.cell(4)));
            assertThat(risk.dialysis()).isEqualTo(Double.parseDouble(row.cell(5)));
        }
    }

    @Test
    void theGroupsOfRiskLeaveNoGap() {
        var next = 0;
        for (var row : risks().toList()) {
            assertThat(number(row, 2)).isEqualTo(next);
            next = row.cell(3).equals("-") ? -1 : number(row, 3) + 1;
        }
        assertThat(next).isEqualTo(-1);
    }

    static Stream<Table.Row> tiers() {
        return Table.published("tiers", 5).stream();
    }

    @ParameterizedTest
    @MethodSource("tiers")
    void theDaysOfATierAreAsPrinted(Table.Row row) {
        assertThat(SEEN).contains(row.cell(1));
        var day = LocalDate.of(2026, 1, 1);
        assertThat(Policy.standard().targetDate(tier(row.cell(2)), day))
                .isEqualTo(row.cell(3).equals("-") ? Optional.empty() : Optional.of(day.plusDays(number(row, 3))));
    }

    @Test
    void everyTierHasItsRowInOrder() {
        assertThat(tiers().map(row -> tier(row.cell(2)))).containsExactly(Tier.values());
    }

    private static Tier tier(String written) {
        return Tier.valueOf(written.replaceAll("([A-Z]|\\d+)", "_$1").toUpperCase(Locale.ROOT));
    }

    private static int number(Table.Row row, int cell) {
        return Integer.parseInt(row.cell(cell));
    }
}
