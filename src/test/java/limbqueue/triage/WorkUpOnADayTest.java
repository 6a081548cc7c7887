package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import limbqueue.document.ResultFormat;
import limbqueue.triage.DrugTiming.Action;
import limbqueue.triage.TriageResult.Who;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;

/** What is held, what runs out, and what is due, on the day of the procedure. Validity: the standard policy. */
class WorkUpOnADayTest {

    private static final Facts REST_PAIN = Facts.of("received=2026-03-02 L.restPain.present=true patient.sex=male"
            + " labs[0].test=egfr labs[0].unit=mL/min labs[0].value=80 labs[0].taken=2026-02-20");

    private static ProcedureWorkUp workUp(Facts facts, LocalDateTime at) {
        return Triage.workUpFor(facts.document(), Policy.standard(), RuleBook.shipped(), Facts.TODAY, at);
    }

    private static WorkUpItem item(ProcedureWorkUp workUp, String code) {
        return workUp.items().stream()
                .filter(item -> item.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static LocalDateTime on(int month, int day) {
        return LocalDateTime.of(2026, month, day, 9, 30);
    }

    /** 30 days from 20 February are 22 March. */
    @Test
    void whatIsValidOnTheDayIsNotNeeded() {
        var kidneys = item(workUp(REST_PAIN, on(3, 22)), "kidney-function");
        assertThat(kidneys.needed()).isFalse();
        assertThat(kidneys.expires()).isFalse();
        assertThat(kidneys.validUntil()).contains(LocalDate.of(2026, 3, 22));
        assertThat(kidneys.validFor()).contains("30 days");
        assertThat(kidneys.text()).isEqualTo("Creatinine and eGFR");
        assertThat(kidneys.who()).isEqualTo(Who.LABORATORY);
    }

    @Test
    void whatRunsOutBeforeTheDaySaysSoAndFromWhenANewOneCounts() {
        var kidneys = item(workUp(REST_PAIN, on(3, 23)), "kidney-function");
        assertThat(kidneys.needed()).isTrue();
        assertThat(kidneys.expires()).isTrue();
        assertThat(kidneys.text())
                .isEqualTo(
                        "Creatinine and eGFR. The one held counts until 2026-03-22 and runs out before the procedure of"
                                + " 2026-03-23: a new one from 2026-02-21 on still counts then");
    }

    @Test
    void withoutABookedProcedureTheTargetDateIsTheDay() {
        var kidneys = REST_PAIN.with("labs[0].taken", "2026-02-10").triage().workUp().stream()
                .filter(item -> item.code().equals("kidney-function"))
                .findFirst()
                .orElseThrow();
        assertThat(kidneys.text())
                .isEqualTo(
                        "Creatinine and eGFR. The one held counts until 2026-03-12 and runs out before the target date,"
                                + " 2026-03-16: a new one from 2026-02-14 on still counts then");
    }

    @Test
    void whatHasRunOutSaysSo() {
        var kidneys = item(workUp(REST_PAIN.with("labs[0].taken", "2026-01-01"), on(3, 23)), "kidney-function");
        assertThat(kidneys.needed()).isTrue();
        assertThat(kidneys.expires()).isFalse();
        assertThat(kidneys.text()).isEqualTo("Creatinine and eGFR. The one held counted until 2026-01-31");
    }

    @Test
    void whatRunsOutTodayStillExpiresOnlyTomorrow() {
        var kidneys = item(workUp(REST_PAIN.with("labs[0].taken", "2026-01-31"), on(3, 23)), "kidney-function");
        assertThat(kidneys.validUntil()).contains(Facts.TODAY);
        assertThat(kidneys.expires()).isTrue();
    }

    @Test
    void theResultPrintsWhoHowLongAndWhatWaits() {
        assertThat(ResultFormat.write(REST_PAIN.triage()))
                .contains("{\"code\":\"kidney-function\",\"text\":\"Creatinine and eGFR\"")
                .contains(
                        "\"needed\":false,\"validUntil\":\"2026-03-22\",\"source\":\"common-practice\",\"who\":\"laboratory\","
                                + "\"validFor\":\"30 days\",\"expires\":false,\"unlocks\":[\"procedure\"],\"calculations\":[{\"what\":\"eGFR\","
                                + "\"value\":\"80 mL/min per 1.73 m2\",\"source\":\"ckd-epi-2021\"}");
    }

    /** 7 days below an eGFR of 45. */
    @Test
    void lowKidneyFunctionIsRepeatedSooner() {
        var low = REST_PAIN.with("labs[0].value", 44).with("labs[0].taken", "2026-03-01");
        assertThat(item(workUp(low, on(3, 8)), "kidney-function").needed()).isFalse();
        assertThat(item(workUp(low, on(3, 9)), "kidney-function").needed()).isTrue();
        assertThat(item(workUp(low, on(3, 9)), "kidney-function").validFor()).contains("7 days");
    }

    @Test
    void anInrCountsForADay() {
        var warfarin = REST_PAIN
                .with("medicines[0].name", "warfarin")
                .with("labs[1].test", "inr")
                .with("labs[1].value", 1.2)
                .with("labs[1].taken", "2026-03-02");
        assertThat(item(workUp(warfarin, on(3, 3)), "inr").needed()).isFalse();
        assertThat(item(workUp(warfarin, on(3, 4)), "inr").expires()).isTrue();
        assertThat(item(workUp(warfarin, on(3, 4)), "inr").validFor()).contains("1 day");
    }

    /** Without a booked time the target date counts: 14 days for rest pain. */
    @Test
    void withoutABookedDayTheTargetDateCounts() {
        var result = REST_PAIN.with("labs[0].taken", "2026-02-13").triage();
        assertThat(result.urgency().targetDate()).contains(LocalDate.of(2026, 3, 16));
        assertThat(result.workUp().stream().filter(item -> item.code().equals("kidney-function")))
                .singleElement()
                .satisfies(item -> assertThat(item.expires()).isTrue());
    }

    @Test
    void aDayThatHasPassedCountsAsToday() {
        assertThat(item(workUp(REST_PAIN.with("labs[0].taken", "2026-01-30"), on(2, 10)), "kidney-function")
                        .needed())
                .isTrue();
    }

    @Test
    void aBookedProcedureIsPreparedEvenWhereOnlyAdviceWasProposed() {
        var mild = Facts.of("L.claudication.present=true L.claudication.limitsLife=false medicines[0].name=apixaban"
                + " L.claudication.distanceMetres=300 L.claudication.course=stable L.abi=0.8");
        assertThat(mild.triage().workUp().stream().map(WorkUpItem::code)).doesNotContain("kidney-function", "duplex");
        var booked = workUp(mild, on(4, 1));
        assertThat(booked.items().stream().map(WorkUpItem::code))
                .contains("kidney-function", "duplex", "consent-risks");
        assertThat(booked.drugs())
                .singleElement()
                .satisfies(drug -> assertThat(drug.drug()).isEqualTo("apixaban"));
        assertThat(booked.procedureAt()).isEqualTo(on(4, 1));
    }

    @Test
    void nothingWaitsForAnItemThatIsNotOnTheList() {
        assertThat(item(workUp(REST_PAIN, on(3, 20)), "kidney-function").unlocks())
                .containsExactly("procedure");
        var inflow = REST_PAIN.with("L.pulses.femoral", "weak").with("medicines[0].name", "metformin");
        assertThat(item(workUp(inflow, on(3, 20)), "kidney-function").unlocks())
                .containsExactly("cta-or-mra", "metformin", "procedure");
        assertThat(item(workUp(inflow, on(3, 20)), "duplex").unlocks()).containsExactly("cta-or-mra", "access-plan");
    }

    @Test
    void theTimesOfADrugAreInItsSentence() {
        var apixaban = REST_PAIN.with("medicines[0].name", "Apixaban");
        var drug = workUp(apixaban, on(3, 20)).drugs().getFirst();
        assertThat(drug.medicine()).isEqualTo("medicines[0].name");
        assertThat(drug.action()).isEqualTo(Action.HOLD);
        assertThat(drug.source()).isEqualTo("sir-2019");
        assertThat(drug.text())
                .startsWith(
                        "Proposed: 4 to 6 doses left out before the procedure, last dose at the latest 2026-03-17 09:30;"
                                + " again 24 hours after, not before 2026-03-21 09:30. A guideline on atrial fibrillation prints 2"
                                + " full days without it.")
                .endsWith("The prescriber decides.");
        assertThat(apixaban.triage().workUp().stream()
                        .filter(item -> item.code().equals("anticoagulant"))
                        .flatMap(item -> item.calculations().stream())
                        .map(line -> line.what() + ": " + line.value()))
                .first()
                .asString()
                .startsWith("apixaban: Proposed: 4 to 6 doses left out before the procedure; again 24 hours after. A");
    }

    /** The policy chooses between the drug label and the contrast manual; both are told. */
    @Test
    void metforminGoesByTheTextThatThePolicyNames() {
        var facts = REST_PAIN.with("medicines[0].name", "metformin");
        var standard = Policy.standard();
        var manual = new Policy("manual", standard.days(), standard.validity(), Policy.Metformin.CONTRAST_MANUAL);
        assertThat(metformin(facts, standard).text())
                .startsWith(
                        "Proposed by the drug label: none from the procedure of 2026-03-20 09:30 on, again after 48"
                                + " hours, not before 2026-03-22 09:30 if the kidneys are as before; the contrast manual lets it");
        assertThat(metformin(facts, manual).action()).isEqualTo(Action.CONTINUE);
        assertThat(metformin(facts, manual).text()).contains("the drug label would hold it for 48 hours");
        for (var worse :
                new Facts[] {facts.with("labs[0].value", 29), facts.without("labs[0].value"), injured(facts)}) {
            assertThat(metformin(worse, manual).action()).isEqualTo(Action.HOLD);
            assertThat(metformin(worse, manual).text())
                    .startsWith("Proposed by the contrast manual:")
                    .contains("the drug label says the same");
            assertThat(metformin(worse, standard).text()).contains("the contrast manual says the same");
        }
    }

    private static Facts injured(Facts facts) {
        return facts.with("labs[1].test", "creatinine")
                .with("labs[1].unit", "mg/dL")
                .with("labs[1].value", 0.8)
                .with("labs[1].taken", "2026-02-18")
                .with("labs[2].test", "creatinine")
                .with("labs[2].unit", "mg/dL")
                .with("labs[2].value", 1.2)
                .with("labs[2].taken", "2026-02-19");
    }

    private static DrugTiming metformin(Facts facts, Policy policy) {
        return Triage.workUpFor(facts.document(), policy, RuleBook.shipped(), Facts.TODAY, on(3, 20))
                .drugs()
                .getFirst();
    }
}
