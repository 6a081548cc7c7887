package limbqueue.triage.workup;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Optional;
import limbqueue.triage.finding.BleedingClass;
import limbqueue.triage.finding.Span;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The column of low bleeding risk of the table of drugs (sir-2019; value from memory, its aspirin, clopidogrel and heparins
 * seen in a copy), which no sheath that is planned today reaches. The column of high risk: {@code sir-2019.holding.csv}.
 */
class HoldingTableTest {

    private static HoldingTable.Row row(String drug, BleedingClass bleeding, Optional<Span> clearance) {
        return HoldingTable.of(drug, bleeding, clearance, RuleBook.shipped().on(LocalDate.of(2026, 3, 2)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "aspirin",
                "clopidogrel",
                "ticagrelor",
                "prasugrel",
                "cilostazol",
                "heparin",
                "enoxaparin",
                "fondaparinux",
                "apixaban",
                "rivaroxaban",
                "edoxaban",
                "dabigatran"
            })
    void beforeAProcedureOfLowRiskADrugIsTakenOn(String drug) {
        assertThat(row(drug, BleedingClass.LOW, Optional.empty())).isEqualTo(new HoldingTable.Continue());
    }

    /** Printed: low risk, INR up to 3; but arterial access wants an INR under 1.8 or 2.2. */
    @Test
    void warfarinIsLeftToThePrescriberSinceAnArteryIsPunctured() {
        assertThat(row("warfarin", BleedingClass.LOW, Optional.empty()))
                .isInstanceOfSatisfying(
                        HoldingTable.None.class, none -> assertThat(none.why()).contains("INR of 3"));
    }

    @ParameterizedTest
    @CsvSource({"LOW,phenprocoumon", "HIGH,phenprocoumon", "LOW,dalteparin", "HIGH,argatroban", "HIGH,dipyridamole"})
    void otherDrugsHaveNoRow(BleedingClass bleeding, String drug) {
        assertThat(row(drug, bleeding, Optional.empty()))
                .isEqualTo(new HoldingTable.None("the table has no row for it"));
    }

    /** Printed for high risk: aspirin 3 to 5 days, clopidogrel 5, ticagrelor 5, prasugrel 7; cilostazol goes on. */
    @ParameterizedTest
    @CsvSource({"aspirin,3,5,24", "clopidogrel,5,5,6", "ticagrelor,5,5,24", "prasugrel,7,7,24"})
    void antiplateletsBeforeAProcedureOfHighRisk(String drug, int fewest, int most, int restart) {
        assertThat(row(drug, BleedingClass.HIGH, Optional.empty()))
                .isInstanceOfSatisfying(HoldingTable.HoldFor.class, held -> {
                    assertThat(held.hold()).isEqualTo(Hold.days(fewest, most));
                    assertThat(held.restartHours()).isEqualTo(restart);
                    assertThat(held.restart()).isNotBlank();
                });
        assertThat(row("cilostazol", BleedingClass.HIGH, Optional.empty())).isEqualTo(new HoldingTable.Continue());
    }

    @Test
    void aClearanceOnBothSidesOfTheLimitLeavesBothRowsPossible() {
        assertThat(hold("apixaban", new Span(49.9, 50))).isEqualTo("4 to 6 doses left out");
        assertThat(hold("apixaban", new Span(50, 70))).isEqualTo("4 doses left out");
        assertThat(hold("apixaban", new Span(20, 49.9))).isEqualTo("6 doses left out");
        assertThat(hold("dabigatran", new Span(40, 60))).isEqualTo("4 to 8 doses left out");
    }

    private static String hold(String drug, Span clearance) {
        return ((HoldingTable.HoldFor) row(drug, BleedingClass.HIGH, Optional.of(clearance)))
                .hold()
                .words();
    }

    /** A dose every 12 hours, at 8 and 20: with 4 left out before 14:00 on the 20th the last is that of 8:00 on the 18th. */
    @Test
    void theLastDoseIsSoManyIntervalsEarlier() {
        var procedure = LocalDateTime.of(2026, 3, 20, 14, 0);
        assertThat(Hold.doses(4, 2).lastDose(procedure)).isEqualTo(LocalDateTime.of(2026, 3, 18, 14, 0));
        assertThat(Hold.doses(2, 1).lastDose(procedure)).isEqualTo(LocalDateTime.of(2026, 3, 18, 14, 0));
        assertThat(Hold.days(3, 5).lastDose(procedure)).isEqualTo(LocalDateTime.of(2026, 3, 15, 14, 0));
        assertThat(Hold.hours(4, 6).lastDose(procedure)).isEqualTo(LocalDateTime.of(2026, 3, 20, 8, 0));
    }

    @ParameterizedTest
    @CsvSource({
        "apixaban,true",
        "dabigatran,true",
        "rivaroxaban,true",
        "fondaparinux,true",
        "edoxaban,false",
        "warfarin,false"
    })
    void someDrugsGoByTheKidneys(String drug, boolean asks) {
        assertThat(HoldingTable.asksClearance(drug)).isEqualTo(asks);
    }

    /** Six months before 31 August is the last of February; what was taken then is too old on 31 August. */
    @Test
    void aResultTakenOnTheEarliestDayStillCounts() {
        var august = LocalDate.of(2026, 8, 31);
        assertThat(Validity.months(6).earliest(august)).isEqualTo(LocalDate.of(2026, 3, 1));
        assertThat(Validity.months(6).earliest(LocalDate.of(2026, 3, 16))).isEqualTo(LocalDate.of(2025, 9, 16));
        assertThat(Validity.days(30).earliest(august)).isEqualTo(LocalDate.of(2026, 8, 1));
        assertThat(Validity.days(1).words()).isEqualTo("1 day");
        assertThat(Validity.days(7).words()).isEqualTo("7 days");
        assertThat(Validity.months(1).words()).isEqualTo("1 month");
        assertThat(Validity.months(6).words()).isEqualTo("6 months");
    }
}
