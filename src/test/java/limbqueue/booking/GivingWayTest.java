package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.booking.Replan.Cause;
import limbqueue.booking.Replan.Moved;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** Who gives way to whom, and what is said of it, in situations that a person can judge at a glance (common practice, no source). */
class GivingWayTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private final List<Session> sessions = new ArrayList<>();
    private final List<WaitingCase> cases = new ArrayList<>();
    private final Map<String, Map<StepKind, String>> kept = new HashMap<>();

    private void session(String id, SessionKind kind, int day, int minutes) {
        var start = TODAY.plusDays(day).atTime(8, 0);
        sessions.add(new Session(
                id, kind, start, start.plusMinutes(minutes), minutes, "Room " + id, "Dr Imre", Set.of(), false));
    }

    private static Step step(StepKind kind, int minutes, Optional<String> told) {
        return new Step(kind, new StepMinutes(minutes, minutes), Set.of(), List.of(), 0, Optional.empty(), told);
    }

    private void waits(String reference, Tier tier, int target, Step... steps) {
        cases.add(new WaitingCase(reference, "P" + reference, tier, TODAY.plusDays(target), Arrays.asList(steps)));
    }

    /** A procedure of so many minutes that is kept in a session, of which the patient has been told or not. */
    private void keeps(String reference, Tier tier, int target, int minutes, String session, boolean told) {
        waits(
                reference,
                tier,
                target,
                step(StepKind.PROCEDURE, minutes, told ? Optional.of(session) : Optional.empty()));
        kept.put(reference, Map.of(StepKind.PROCEDURE, session));
    }

    private Replan after(Disruption disruption) {
        return Replanner.replan(
                new Waiting(TODAY, TODAY.plusDays(30), sessions, cases),
                new KeptPlaces(kept),
                disruption,
                Search.of(1, 2_000));
    }

    private static Moved move(Replan replan, String reference) {
        return replan.moves().stream()
                .filter(move -> move.reference().equals(reference))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theLeastUrgentGivesWayToAnEmergency() {
        session("A", SessionKind.PROCEDURE_ROOM, 0, 180);
        session("B", SessionKind.PROCEDURE_ROOM, 9, 180);
        keeps("urgent", Tier.WITHIN_5_DAYS, 3, 60, "A", false);
        keeps("soon", Tier.WITHIN_14_DAYS, 8, 60, "A", false);
        keeps("later", Tier.WITHIN_18_WEEKS, 8, 60, "A", false);
        var replan = after(new Emergency("E", 60, Set.of()));
        assertThat(replan.moves()).extracting(Moved::reference).containsExactly("E", "later");
        assertThat(move(replan, "E").to()).contains("A");
        assertThat(move(replan, "E").cause()).isEqualTo(Cause.EMERGENCY);
        assertThat(move(replan, "later").to()).contains("B");
        assertThat(move(replan, "later").cause()).isEqualTo(Cause.GIVES_WAY);
        assertThat(move(replan, "later").why())
                .startsWith(
                        "Gives way to E (same day), as A has no room for both. Nobody who stays in it is less urgent.");
    }

    @Test
    void whoHasNotBeenToldGivesWayBeforeWhoHasAndThatIsSaid() {
        session("A", SessionKind.PROCEDURE_ROOM, 0, 120);
        session("B", SessionKind.PROCEDURE_ROOM, 9, 180);
        keeps("untold", Tier.WITHIN_6_WEEKS, 20, 60, "A", false);
        keeps("told", Tier.WITHIN_18_WEEKS, 100, 60, "A", true);
        var replan = after(new Emergency("E", 60, Set.of()));
        assertThat(replan.moves()).extracting(Moved::reference).containsExactly("E", "untold");
        assertThat(move(replan, "untold").why())
                .contains("Less urgent and stays, having been told of it: told (within 18 weeks).");
    }

    @Test
    void onePatientWhoIsLongEnoughGivesWayAndNotTwoShortOnes() {
        session("A", SessionKind.PROCEDURE_ROOM, 0, 150);
        session("B", SessionKind.PROCEDURE_ROOM, 9, 180);
        keeps("long", Tier.WITHIN_6_WEEKS, 20, 90, "A", true);
        keeps("short1", Tier.WITHIN_18_WEEKS, 100, 30, "A", true);
        keeps("short2", Tier.WITHIN_18_WEEKS, 100, 30, "A", true);
        var replan = after(new Emergency("E", 90, Set.of()));
        assertThat(replan.moves()).extracting(Moved::reference).containsExactly("E", "long");
        assertThat(move(replan, "long").told()).isTrue();
        assertThat(move(replan, "long").why())
                .contains(
                        "Less urgent and stays, being too short to make room enough: short1 (within 18 weeks), short2");
    }

    @Test
    void twoGiveWayWhereOneIsNotEnough() {
        session("A", SessionKind.PROCEDURE_ROOM, 0, 120);
        session("B", SessionKind.PROCEDURE_ROOM, 9, 180);
        keeps("one", Tier.WITHIN_6_WEEKS, 20, 60, "A", true);
        keeps("other", Tier.WITHIN_18_WEEKS, 100, 60, "A", true);
        var replan = after(new Emergency("E", 100, Set.of()));
        assertThat(replan.moves()).extracting(Moved::reference).containsExactly("E", "one", "other");
        assertThat(replan.levels().get(ReplanLevel.TOLD_PATIENTS.ordinal()).points())
                .isEqualTo(2);
    }

    @Test
    void anEmergencyThatNoSessionOfTodayCanTakeIsToldSoAndMovesNobody() {
        session("A", SessionKind.PROCEDURE_ROOM, 0, 120);
        session("B", SessionKind.PROCEDURE_ROOM, 1, 400);
        keeps("one", Tier.WITHIN_6_WEEKS, 20, 60, "A", true);
        var replan = after(new Emergency("E", 180, Set.of()));
        assertThat(replan.moves()).isEmpty();
        assertThat(replan.levels().getFirst().points()).isOne();
        assertThat(replan.without())
                .singleElement()
                .satisfies(without -> assertThat(without.why())
                        .contains("an emergency does not wait for another day")
                        .contains("it is expected to take 180 minutes, and the session has 120"));
    }

    @Test
    void everybodyInASessionWhoseOperatorIsIllHasAnotherPlaceAndTheReason() {
        session("A", SessionKind.PROCEDURE_ROOM, 1, 120);
        session("B", SessionKind.PROCEDURE_ROOM, 9, 180);
        keeps("one", Tier.WITHIN_6_WEEKS, 20, 60, "A", true);
        keeps("other", Tier.WITHIN_18_WEEKS, 100, 60, "B", true);
        var from = TODAY.atStartOfDay();
        var replan = after(new OperatorAway(" dr imre", from, from.plusDays(3), "Dr Imre is ill."));
        assertThat(replan.closed()).singleElement().satisfies(session -> {
            assertThat(session.id()).isEqualTo("A");
            assertThat(session.closedFor()).contains("Dr Imre is ill");
        });
        assertThat(replan.moves()).singleElement().satisfies(move -> {
            assertThat(move.reference()).isEqualTo("one");
            assertThat(move.cause()).isEqualTo(Cause.LOST_ITS_PLACE);
            assertThat(move.to()).contains("B");
            assertThat(move.why()).startsWith("Its session is closed: Dr Imre is ill.");
        });
    }

    @Test
    void whoLosesTheClinicLosesTheProcedureBehindItOnlyIfThatComesTooSoon() {
        session("C1", SessionKind.CLINIC, 1, 60);
        session("C2", SessionKind.CLINIC, 3, 60);
        session("A", SessionKind.PROCEDURE_ROOM, 2, 60);
        session("B", SessionKind.PROCEDURE_ROOM, 5, 60);
        waits(
                "early",
                Tier.WITHIN_6_WEEKS,
                20,
                step(StepKind.CLINIC, 30, Optional.of("C1")),
                step(StepKind.PROCEDURE, 30, Optional.of("A")));
        kept.put("early", Map.of(StepKind.CLINIC, "C1", StepKind.PROCEDURE, "A"));
        waits(
                "late",
                Tier.WITHIN_6_WEEKS,
                20,
                step(StepKind.CLINIC, 30, Optional.of("C1")),
                step(StepKind.PROCEDURE, 30, Optional.of("B")));
        kept.put("late", Map.of(StepKind.CLINIC, "C1", StepKind.PROCEDURE, "B"));
        var replan = after(
                new PlaceDown("Room C1", TODAY.atStartOfDay(), TODAY.plusDays(2).atStartOfDay(), "a leak"));
        assertThat(replan.moves())
                .extracting(Moved::reference, Moved::step, Moved::cause)
                .containsExactly(
                        tuple("early", StepKind.CLINIC, Cause.LOST_ITS_PLACE),
                        tuple("early", StepKind.PROCEDURE, Cause.FOLLOWS),
                        tuple("late", StepKind.CLINIC, Cause.LOST_ITS_PLACE));
        assertThat(replan.moves().get(1).why()).startsWith("Its clinic moves to 2026-03-05.");
    }

    @Test
    void aPlaceThatAPatientGivesUpGoesToTheMostUrgentWhoHasNone() {
        session("A", SessionKind.PROCEDURE_ROOM, 2, 60);
        session("B", SessionKind.PROCEDURE_ROOM, 12, 60);
        keeps("cancels", Tier.WITHIN_18_WEEKS, 100, 60, "A", true);
        waits("soon", Tier.WITHIN_14_DAYS, 10, step(StepKind.PROCEDURE, 60, Optional.empty()));
        waits("later", Tier.WITHIN_6_WEEKS, 25, step(StepKind.PROCEDURE, 60, Optional.empty()));
        var replan = after(new PatientCancels(
                "cancels", TODAY.atStartOfDay(), TODAY.plusDays(14).atStartOfDay()));
        assertThat(move(replan, "soon").to()).contains("A");
        assertThat(move(replan, "soon").cause()).isEqualTo(Cause.HAD_NO_PLACE);
        assertThat(move(replan, "cancels").to()).isEmpty();
        assertThat(move(replan, "cancels").why()).startsWith("It cannot stay: the patient cannot come. No place: ");
    }

    @Test
    void whatAPersonHasPutWhereThePlannerNeverWouldStaysThere() {
        session("A", SessionKind.PROCEDURE_ROOM, 1, 60);
        session("B", SessionKind.PROCEDURE_ROOM, 5, 60);
        session("C", SessionKind.PROCEDURE_ROOM, 9, 60);
        // Overfull, and one of them before its clinic, which has no place.
        keeps("one", Tier.WITHIN_6_WEEKS, 20, 60, "A", false);
        waits(
                "other",
                Tier.WITHIN_6_WEEKS,
                20,
                step(StepKind.CLINIC, 30, Optional.empty()),
                step(StepKind.PROCEDURE, 30, Optional.empty()));
        kept.put("other", Map.of(StepKind.PROCEDURE, "A"));
        keeps("hit", Tier.WITHIN_6_WEEKS, 20, 60, "B", false);
        var replan = after(
                new PlaceDown("Room B", TODAY.atStartOfDay(), TODAY.plusDays(8).atStartOfDay(), "a leak"));
        assertThat(replan.moves()).extracting(Moved::reference).containsExactly("hit");
        assertThat(replan.levels().getFirst().points()).isZero();
    }
}
