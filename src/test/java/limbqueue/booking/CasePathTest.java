package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limbqueue.booking.CasePath.Known;
import limbqueue.booking.CasePath.NotQueued;
import limbqueue.booking.CasePath.Outcome;
import limbqueue.booking.CasePath.Waits;
import limbqueue.document.DocumentFormat;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** The paths of the demo referrals, whose stories say what each of them still has before it (demo-referrals/README.md). */
class CasePathTest {

    private static final LocalDate AS_OF = LocalDate.of(2026, 3, 2);
    private static final Path DEMO = Path.of("demo-referrals");

    private static String text(String name) throws IOException {
        return Files.readString(DEMO.resolve(name + ".referral.json"));
    }

    private static ReferralDocument document(String json) {
        var reading = DocumentFormat.parse(json, AS_OF);
        assertThat(reading.problems()).isEmpty();
        return reading.document();
    }

    private static Outcome path(String json, Known known) {
        return CasePath.of(
                "R", document(json), Policy.standard(), AS_OF, LeadDays.usual(), CasePath.usualMinutes(), known);
    }

    private static WaitingCase waiting(String name) throws IOException {
        return ((Waits) path(text(name), Known.NOTHING)).waiting();
    }

    private static Step step(WaitingCase waiting, StepKind kind) {
        return waiting.steps().stream()
                .filter(step -> step.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static Session on(LocalDate day, SessionKind kind) {
        return new Session("S", kind, day.atTime(8, 0), day.atTime(12, 0), 240, "P", "O", Set.of(), false);
    }

    private static List<String> inTheWay(WaitingCase waiting, StepKind kind, LocalDate day) {
        return step(waiting, kind).barred().stream()
                .filter(bar -> bar.bars(on(day, kind.session())))
                .map(Barred::why)
                .toList();
    }

    @Test
    void theSameDayIsNeverAPlaceInAQueue() throws IOException {
        assertThat(path(text("10-acute-cold-leg"), Known.NOTHING)).isInstanceOfSatisfying(NotQueued.class, not -> {
            assertThat(not.tier()).isEqualTo(Tier.SAME_DAY);
            assertThat(not.why()).startsWith("To hospital today");
        });
    }

    @Test
    void adviceNeedsALetterAndNoSession() throws IOException {
        assertThat(path(text("01-mild-claudication"), Known.NOTHING))
                .isInstanceOfSatisfying(
                        NotQueued.class, not -> assertThat(not.why()).startsWith("Advice only"));
    }

    @Test
    void stepsComeInTheOrderOfThePathAndOnlyThoseThatAreNeeded() throws IOException {
        for (var name :
                List.of("07-heel-ulcer", "05-rest-pain", "21-stent-closed-again", "33-failed-attempt-elsewhere")) {
            var kinds = waiting(name).steps().stream().map(Step::kind).toList();
            assertThat(kinds)
                    .isSorted()
                    .endsWith(StepKind.CLINIC, StepKind.PROCEDURE)
                    .doesNotHaveDuplicates();
        }
        assertThat(waiting("07-heel-ulcer").tier()).isEqualTo(Tier.WITHIN_5_DAYS);
    }

    @Test
    void aStepThatHasBeenTakenIsNotTakenAgain() throws IOException {
        var known = new Known(Set.of(), Set.of(), Map.of(), Set.of(StepKind.PRESSURES_AND_DUPLEX, StepKind.CLINIC));
        assertThat(path(text("05-rest-pain"), known))
                .isInstanceOfSatisfying(
                        Waits.class,
                        waits -> assertThat(waits.waiting().steps())
                                .extracting(Step::kind)
                                .doesNotContain(StepKind.PRESSURES_AND_DUPLEX, StepKind.CLINIC)
                                .contains(StepKind.PROCEDURE));
    }

    @Test
    void aHeldResultCarriesAStepUntilItsLastDayAndANewOneFromTheDayItCanBeIn() {
        // Creatinine of 2026-02-03 counts 30 days, until 2026-03-05; with blood tests taking 7 days a new one is in on
        // 2026-03-09.
        var lead = new LeadDays(0, 7, 0, 0, 0, 0);
        var json = """
                {"received": "2026-02-20", "patient": {"born": "1950-01-01", "sex": "male"},
                 "legs": {"left": {"restPain": {"present": true, "sinceDays": 30}, "pressures": {"toe": 20}}},
                 "labs": [{"test": "creatinine", "value": 80, "unit": "umol/L", "taken": "2026-02-03"},
                          {"test": "haemoglobin", "value": 140, "unit": "g/L", "taken": "2026-03-01"},
                          {"test": "platelets", "value": 250, "unit": "10*9/L", "taken": "2026-03-01"},
                          {"test": "potassium", "value": 4.2, "unit": "mmol/L", "taken": "2026-03-01"}]}
                """;
        var outcome = CasePath.of(
                "R", document(json), Policy.standard(), AS_OF, lead, CasePath.usualMinutes(), Known.NOTHING);
        var waiting = ((Waits) outcome).waiting();
        assertThat(inTheWay(waiting, StepKind.PROCEDURE, LocalDate.of(2026, 3, 5)))
                .isEmpty();
        assertThat(inTheWay(waiting, StepKind.PROCEDURE, LocalDate.of(2026, 3, 6)))
                .containsExactly("kidney function is in on 2026-03-09 at the soonest");
        assertThat(inTheWay(waiting, StepKind.PROCEDURE, LocalDate.of(2026, 3, 8)))
                .isNotEmpty();
        assertThat(inTheWay(waiting, StepKind.PROCEDURE, LocalDate.of(2026, 3, 9)))
                .isEmpty();
    }

    @Test
    void nobodyComesWhileAwayNorAfterLeavingTheArea() {
        var json = """
                {"received": "2026-03-01", "patient": {"unavailable": [{"from": "2026-03-10", "to": "2026-03-12"}],
                 "leavesArea": "2026-04-01", "returnsToArea": "2026-05-01"},
                 "legs": {"left": {"restPain": {"present": true, "sinceDays": 30}, "pressures": {"toe": 20}}}}
                """;
        var waiting = ((Waits) path(json, Known.NOTHING)).waiting();
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 3, 9))).isEmpty();
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 3, 10)))
                .containsExactly("the patient cannot come");
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 3, 12)))
                .containsExactly("the patient cannot come");
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 3, 13)))
                .isEmpty();
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 4, 1)))
                .containsExactly("the patient has left the area");
        assertThat(inTheWay(waiting, StepKind.CLINIC, LocalDate.of(2026, 5, 1))).isEmpty();
    }

    @Test
    void aDrugIsLeftOutBeforeTheProcedureFromTheEveningOfThePlanningDayOn() throws IOException {
        var waiting = waiting("27-on-blood-thinners");
        assertThat(step(waiting, StepKind.PROCEDURE).barred()).anySatisfy(bar -> {
            assertThat(bar.why()).contains("apixaban is held for");
            assertThat(bar.until()).isAfter(AS_OF.plusDays(2).atStartOfDay());
        });
    }

    @Test
    void exerciseComesBeforeAnElectiveProcedureForClaudication() throws IOException {
        assertThat(step(waiting("22-only-leg"), StepKind.PROCEDURE).barred()).anySatisfy(bar -> {
            assertThat(bar.why()).startsWith("supervised exercise comes first");
            assertThat(bar.until()).isEqualTo(AS_OF.plusWeeks(12).atStartOfDay());
        });
    }

    @Test
    void anArmOrACoveredStentInThePlanIsNeededOfTheSession() throws IOException {
        assertThat(step(waiting("21-stent-closed-again"), StepKind.PROCEDURE).needs())
                .contains(Capability.ARM_ACCESS, Capability.COVERED_STENT_STOCK);
        assertThat(step(waiting("21-stent-closed-again"), StepKind.CLINIC).needs())
                .isEmpty();
    }

    @Test
    void leftAndRightExchangedLeadToTheSamePath() throws IOException {
        var compared = 0;
        try (var files = Files.newDirectoryStream(DEMO, "*.referral.json")) {
            for (var file : files) {
                var json = Files.readString(file);
                if (json.contains("leftInternalMammaryGraft")) {
                    // A graft that only the left arm feeds.
                    continue;
                }
                var exchanged =
                        json.replace("left", "\0").replace("right", "left").replace("\0", "right");
                assertThat(path(exchanged, Known.NOTHING)).as("%s", file).isEqualTo(path(json, Known.NOTHING));
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(25);
    }

    @Test
    void twoReferralsOfOnePatientAreKnownToBe() {
        var named =
                "{\"received\": \"2026-03-01\", \"patient\": {\"given\": \"A\", \"family\": \"B\", \"born\": \"1950-01-01\"},"
                        + " \"legs\": {\"left\": {\"restPain\": {\"present\": true, \"sinceDays\": 30}, \"pressures\": {\"toe\": 20}}}}";
        var one = (Waits) path(named, Known.NOTHING);
        var other = (Waits) path(named.replace("\"left\"", "\"right\""), Known.NOTHING);
        var another = (Waits) path(named.replace("1950", "1951"), Known.NOTHING);
        assertThat(one.waiting().patient()).isEqualTo(other.waiting().patient());
        assertThat(one.waiting().patient()).isNotEqualTo(another.waiting().patient());
    }
}
