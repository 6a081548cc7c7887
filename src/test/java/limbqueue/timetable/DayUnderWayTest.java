package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.CasePath;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.WaitingCase;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** What can still be planned of a day that has begun. */
class DayUnderWayTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final LocalDateTime EIGHT = TODAY.atTime(8, 0);

    private static KeptSession kept(long id, SessionKind kind, LocalDateTime start, int minutes, int emergencies) {
        return new KeptSession(
                id,
                1,
                new Session(
                        "S" + id, kind, start, start.plusMinutes(minutes), minutes, "Room", "Dr Imre", Set.of(), false),
                Optional.empty(),
                emergencies,
                "Wren",
                Instant.EPOCH);
    }

    private static Step step(StepKind kind, int minutes) {
        return new Step(
                kind, new StepMinutes(minutes, minutes), Set.of(), List.of(), 0, Optional.empty(), Optional.empty());
    }

    private static Paths.QueuedCase queued(long id, Step... steps) {
        return new Paths.QueuedCase(
                id,
                "C" + id,
                "",
                new CasePath.Waits(
                        new WaitingCase("C" + id, "P" + id, Tier.WITHIN_6_WEEKS, TODAY.plusDays(20), List.of(steps))));
    }

    private static Placed placed(long id, StepKind step, long session, int position, int minutes) {
        return new Placed(
                session * 10 + position,
                1,
                id,
                "C" + id,
                "",
                step,
                session,
                position,
                new StepMinutes(minutes, minutes),
                true,
                false,
                "Wren",
                Instant.EPOCH);
    }

    /** A clinic from 8 to 10 with three patients of 30 minutes, the second of whom has a procedure before them. */
    private static WhatIsKept at(LocalDateTime now, int emergencies) {
        var clinic = kept(1, SessionKind.CLINIC, EIGHT, 120, emergencies);
        var room = kept(2, SessionKind.PROCEDURE_ROOM, EIGHT.plusHours(5), 120, 0);
        var first = placed(1, StepKind.CLINIC, 1, 1, 30);
        var second = placed(2, StepKind.CLINIC, 1, 2, 30);
        var third = placed(3, StepKind.CLINIC, 1, 3, 30);
        return new WhatIsKept(
                now,
                ZoneOffset.UTC,
                TODAY.plusDays(30),
                List.of(
                        queued(1, step(StepKind.CLINIC, 30)),
                        queued(2, step(StepKind.CLINIC, 30), step(StepKind.PROCEDURE, 60)),
                        queued(3, step(StepKind.CLINIC, 30))),
                Map.of(1L, clinic, 2L, room),
                List.of(first, second, third),
                Map.of(1L, List.of(first), 2L, List.of(second), 3L, List.of(third)),
                Map.of());
    }

    private static int minutes(DayUnderWay day, String session) {
        return day.sessions().stream()
                .filter(one -> one.id().equals(session))
                .findFirst()
                .map(Session::minutes)
                .orElse(0);
    }

    @Test
    void beforeItBeginsEverythingCanBePlanned() {
        var day = new DayUnderWay(at(EIGHT.minusMinutes(1), 0));
        assertThat(day.waiting()).hasSize(3);
        assertThat(minutes(day, "S1")).isEqualTo(120);
        assertThat(minutes(day, "S2")).isEqualTo(120);
    }

    @Test
    void whoHasBeenCalledInIsPlannedNoMoreAndTheRestFindsTheTimeThatIsLeft() {
        var day = new DayUnderWay(at(EIGHT.plusMinutes(45), 0));
        assertThat(day.waiting()).extracting(WaitingCase::reference).containsExactly("C2", "C3");
        assertThat(day.waiting().getFirst().steps()).singleElement().satisfies(step -> {
            assertThat(step.kind()).isEqualTo(StepKind.PROCEDURE);
            assertThat(step.barred()).singleElement().satisfies(barred -> {
                assertThat(barred.until()).isEqualTo(EIGHT.plusHours(2));
                assertThat(barred.why()).contains("under way");
            });
        });
        // The second is expected to be out at 9 o'clock: an hour is left, of which the third needs half.
        assertThat(minutes(day, "S1")).isEqualTo(60);
    }

    @Test
    void whatAnEmergencyTakesIsLessAndWhatIsOverIsNothing() {
        assertThat(minutes(new DayUnderWay(at(EIGHT.minusMinutes(1), 50)), "S1"))
                .isEqualTo(70);
        assertThat(minutes(new DayUnderWay(at(EIGHT.plusMinutes(45), 50)), "S1"))
                .isEqualTo(10);
        assertThat(minutes(new DayUnderWay(at(EIGHT.plusMinutes(120), 0)), "S1"))
                .isZero();
        assertThat(new DayUnderWay(at(EIGHT.plusMinutes(120), 0)).waiting())
                .extracting(WaitingCase::reference)
                .containsExactly("C2");
    }
}
