package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.Plan.CasePlan;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** What a person is told of places that cannot be, and of nights in which clocks are changed. */
class PlanReasonsTest {

    private static final LocalDate AS_OF = LocalDate.of(2026, 3, 2);
    private static final ZoneId VIENNA = ZoneId.of("Europe/Vienna");
    private static final Search SEARCH = Search.of(1, 200);

    private static Session room(String id, LocalDate day, int minutes, Capability... has) {
        var start = day.atTime(8, 0);
        return new Session(
                id,
                SessionKind.PROCEDURE_ROOM,
                start,
                start.plusMinutes(minutes),
                minutes,
                "Room",
                "Dr Imre",
                Set.of(has),
                false);
    }

    private static WaitingCase procedure(String reference, int minutes, List<Barred> barred, Capability... needs) {
        return new WaitingCase(
                reference,
                "P" + reference,
                Tier.WITHIN_6_WEEKS,
                AS_OF.plusDays(20),
                List.of(new Step(
                        StepKind.PROCEDURE,
                        new StepMinutes(minutes, minutes),
                        Set.of(needs),
                        barred,
                        0,
                        Optional.empty(),
                        Optional.empty())));
    }

    private static CasePlan only(List<Session> sessions, WaitingCase one) {
        return Planner.plan(Waiting.untilTheLastSession(AS_OF, sessions, List.of(one)), SEARCH)
                .cases()
                .getFirst();
    }

    private static String whyNot(List<Session> sessions, WaitingCase one) {
        var plan = only(sessions, one);
        assertThat(plan.placed()).isFalse();
        assertThat(plan.on()).isEmpty();
        return plan.why();
    }

    @Test
    void aCaseThatNeedsWhatNoSessionHasIsToldWhatIsLacking() {
        assertThat(whyNot(
                        List.of(
                                room("A", AS_OF.plusDays(1), 240, Capability.TRANSLATOR),
                                room("B", AS_OF.plusDays(2), 240)),
                        procedure("1", 60, List.of(), Capability.ARM_ACCESS, Capability.TRANSLATOR)))
                .isEqualTo("Not placed: procedure. " + PlanRule.SUITABLE_SESSION.sentence()
                        + " No session can ever take it, whatever else is planned: 1 session: it lacks a set-up for access"
                        + " from the arm; 1 session: it lacks a set-up for access from the arm and a translator.");
    }

    @Test
    void aCaseThatIsLongerThanEverySessionIsToldByHowMuch() {
        assertThat(whyNot(List.of(room("A", AS_OF.plusDays(1), 60)), procedure("1", 90, List.of())))
                .isEqualTo("Not placed: procedure. " + PlanRule.ROOM_IN_THE_SESSION.sentence()
                        + " No session can ever take it, whatever else is planned: 1 session: it is expected to take 90 minutes,"
                        + " and the session has 60.");
    }

    @Test
    void aCaseThatCannotBeWhileThereAreSessionsIsToldWhatKeepsItFromThem() {
        var away = List.of(Barred.days(AS_OF, AS_OF.plusDays(9), "the patient cannot come"));
        assertThat(whyNot(
                        List.of(room("A", AS_OF.plusDays(1), 90), room("B", AS_OF.plusDays(2), 90)),
                        procedure("1", 60, away)))
                .isEqualTo(
                        "Not placed: procedure. " + PlanRule.OPEN_GATE.sentence()
                                + " No session can ever take it, whatever else is planned: 2 sessions: the patient cannot come.");
    }

    @Test
    void whereThereIsNoSessionOfTheKindOneIsAskedFor() {
        assertThat(whyNot(List.of(), procedure("1", 60, List.of())))
                .isEqualTo("Not placed: procedure. " + PlanRule.SUITABLE_SESSION.sentence()
                        + " There is no session of the procedure room from 2026-03-02 on. Add one.");
    }

    @Test
    void aSessionThatIsClosedOrOverIsToldToBe() {
        assertThat(whyNot(
                        List.of(
                                room("A", AS_OF.plusDays(1), 90).closedFor("Easter Monday"),
                                room("B", AS_OF.plusDays(3), 90).closedFor("Easter Monday")),
                        procedure("1", 60, List.of())))
                .endsWith("whatever else is planned: 2 sessions: it is closed: Easter Monday.");
        assertThat(whyNot(List.of(room("A", AS_OF.minusDays(1), 90)), procedure("1", 60, List.of())))
                .endsWith("There is no session of the procedure room from 2026-03-02 on. Add one.");
    }

    @Test
    void aSessionThatIsFullIsToldWithWhomAndHowMuchWouldHaveToBecomeFree() {
        var sessions = List.of(room("A", AS_OF.plusDays(1), 100), room("B", AS_OF.plusDays(8), 100));
        var plan = Planner.plan(
                Waiting.untilTheLastSession(
                        AS_OF, sessions, List.of(procedure("1", 70, List.of()), procedure("2", 70, List.of()))),
                SEARCH);
        assertThat(plan.cases())
                .filteredOn(one -> one.steps().getFirst().session().equals(Optional.of("B")))
                .singleElement()
                .satisfies(one -> assertThat(one.forEarlier())
                        .singleElement()
                        .asString()
                        .matches(
                                "A on 2026-03-03: full: 70 of 100 minutes are held by [12] \\(within 6 weeks, by 2026-03-22\\);"
                                        + " 40 more would have to become free"));
    }

    /** Clocks go from 02:00 to 03:00 on 2026-03-29 in the European Union (Directive 2000/84/EC). */
    @Test
    void inANightInWhichClocksAreChangedPatientsAreExpectedByTheClock() {
        var night = LocalDate.of(2026, 3, 29);
        var time = (SessionTime.Possible) SessionTime.of(night, LocalTime.of(1, 0), LocalTime.of(6, 0), VIENNA);
        var session = new Session(
                "N",
                SessionKind.PROCEDURE_ROOM,
                time.start(),
                time.end(),
                time.minutes(),
                "Room",
                "Dr Imre",
                Set.of(),
                false);
        var waiting = Waiting.untilTheLastSession(
                AS_OF,
                VIENNA,
                List.of(session),
                List.of(procedure("1", 90, List.of()), procedure("2", 90, List.of()), procedure("3", 90, List.of())));
        var plan = Planner.plan(waiting, SEARCH);
        // 240 minutes pass from 01:00 to 06:00: two of 90 fit into them and a third does not.
        assertThat(plan.cases()).filteredOn(CasePlan::placed).hasSize(2);
        assertThat(plan.cases().stream().flatMap(one -> one.steps().getFirst().at().stream()))
                .containsExactly(
                        LocalDateTime.of(night, LocalTime.of(1, 0)), LocalDateTime.of(night, LocalTime.of(3, 30)));
    }

    @Test
    void aSearchWithoutTimeOrASessionWithoutTimeIsNone() {
        assertThatThrownBy(() -> Search.of(1, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Search(1, 1, Optional.of(Duration.ZERO)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> room("A", AS_OF, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the session A has no time in it");
    }
}
