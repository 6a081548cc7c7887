package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.PlanRule;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** Time held for urgent cases, on a database: kept, chosen for every week, and obeyed. All people in it are invented. */
@OnPostgres
class HeldTimesIT {

    private static final LocalTime EIGHT = LocalTime.of(8, 0);
    private static final AtomicInteger NUMBER = new AtomicInteger();

    @Autowired
    private HeldTimes heldTimes;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Planning planning;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;
    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        staff = new Staff(actingAs);
        today = office(referrals::today);
    }

    @Test
    void aSessionHoldsWhatIsEnteredUntilSomebodyHoldsMoreOrLess() {
        var room = room();
        enter(SessionKind.CT, 9, 4, room, Optional.of(new HeldTime(45, 1)), 0);
        var kept = kept(9, room);
        assertThat(kept.session().held()).isEqualTo(new HeldTime(45, 1));

        assertThat(office(() -> heldTimes.hold(kept.id(), 1, 241, 2, false)))
                .isEqualTo(new Refused("The session has 240 minutes. Hold at most those."));
        assertThat(office(() -> heldTimes.hold(kept.id(), 1, 60, 29, false))).isInstanceOf(Refused.class);
        assertThat(office(() -> heldTimes.hold(kept.id(), 1, -1, 2, false))).isInstanceOf(Refused.class);
        assertThat(office(() -> heldTimes.hold(kept.id(), 7, 60, 2, false))).isEqualTo(new Overtaken());
        assertThat(kept(9, room)).isEqualTo(kept);

        assertThat(office(() -> heldTimes.hold(kept.id(), 1, 240, 0, false))).isEqualTo(new Done(List.of()));
        assertThat(kept(9, room).session().held()).isEqualTo(new HeldTime(240, 0));
        assertThat(kept(9, room).version()).isEqualTo(2);
        assertThat(jdbc.sql("select held_minutes from practice_session_step where session = :id order by version")
                        .param("id", kept.id())
                        .query(Integer.class)
                        .list())
                .containsExactly(45, 240);
        assertThatThrownBy(() -> staff.as("physician", () -> heldTimes.hold(kept.id(), 2, 0, 0, false)))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> jdbc.sql("""
                        update practice_session set version = version + 1, held_minutes = minutes + 1 where id = :id
                        """).param("id", kept.id()).update())
                .isInstanceOf(DataIntegrityViolationException.class)
                .hasMessageContaining("practice_session_holds_what_it_has");
        assertThat(office(() -> sessions.enter(
                        entered(SessionKind.CT, 10, 4, room(), Optional.of(new HeldTime(241, 1))), Optional.empty())))
                .isEqualTo(new Refused("The session has 240 minutes. Hold at most those."));
    }

    @Test
    void laterSessionsLikeItHoldTheSameWhereThatIsAsked() {
        var room = room();
        enter(SessionKind.CT, 9, 4, room, Optional.empty(), 2);
        var second = kept(16, room);

        assertThat(office(() -> heldTimes.hold(second.id(), 1, 30, 3, true)))
                .isEqualTo(new Done(List.of("1 later session holds the same.")));
        assertThat(List.of(9, 16, 23))
                .extracting(day -> kept(day, room).session().held())
                .containsExactly(HeldTime.NONE, new HeldTime(30, 3), new HeldTime(30, 3));
    }

    @Test
    void whatTheManagerChoosesForEveryWeekIsHeldInThoseThatAreThereAndInThoseThatCome() {
        var there = room();
        enter(SessionKind.PROCEDURE_ROOM, 30, 4, there, Optional.empty(), 1);
        assertThat(kept(30, there).session().held()).isEqualTo(HeldTime.NONE);
        var day = today.plusDays(30).getDayOfWeek();
        var minutes = new EnumMap<DayOfWeek, Integer>(Map.of(day, 300));

        assertThatThrownBy(() -> office(() -> heldTimes.choose(minutes, 3))).isInstanceOf(AccessDeniedException.class);
        assertThat(staff.as("manager", () -> heldTimes.choose(Map.of(day, 1441), 3)))
                .isInstanceOf(Refused.class);
        assertThat(staff.as("manager", () -> heldTimes.choose(minutes, 3))).isInstanceOf(Done.class);

        assertThat(staff.as("manager", heldTimes::chosen)).hasValueSatisfying(choice -> {
            assertThat(choice.minutes()).isEqualTo(minutes);
            assertThat(choice.inAWeek()).isEqualTo(300);
            assertThat(choice.releaseDays()).isEqualTo(3);
            assertThat(choice.at()).isBeforeOrEqualTo(Instant.now());
        });
        assertThat(List.of(30, 37))
                .extracting(in -> kept(in, there).session().held())
                .containsOnly(new HeldTime(240, 3));
        var next = room();
        enter(SessionKind.PROCEDURE_ROOM, 30, 4, next, Optional.empty(), 0);
        assertThat(kept(30, next).session().held())
                .as("what the first of the day has no room for")
                .isEqualTo(new HeldTime(60, 3));
        var clinic = room();
        enter(SessionKind.CLINIC, 30, 4, clinic, Optional.empty(), 0);
        assertThat(kept(30, clinic).session().held()).isEqualTo(HeldTime.NONE);
        var byHand = room();
        enter(SessionKind.PROCEDURE_ROOM, 30, 4, byHand, Optional.of(new HeldTime(5, 1)), 0);
        assertThat(kept(30, byHand).session().held()).isEqualTo(new HeldTime(5, 1));

        assertThat(staff.as("manager", () -> heldTimes.choose(Map.of(), 2))).isInstanceOf(Done.class);
        assertThat(List.of(there, next, byHand))
                .extracting(room -> kept(30, room).session().held().minutes())
                .containsOnly(0);
        assertThatThrownBy(() ->
                        jdbc.sql("update held_time_choice set release_days = 1").update())
                .hasMessageContaining("held_time_choice");
    }

    @Test
    void aPlanAndAPersonAreKeptFromHeldTimeUntilItIsReleased() throws InterruptedException {
        var id = approved("Sallow");
        var room = room();
        enter(SessionKind.VASCULAR_LABORATORY, 20, 1, room, Optional.of(new HeldTime(60, 2)), 0);
        var laboratory = kept(20, room);
        enter(SessionKind.CLINIC, 22, 4, room(), Optional.empty(), 0);
        enter(SessionKind.PROCEDURE_ROOM, 24, 8, room(), Optional.empty(), 0);

        assertThat(office(() -> appointments.place(id, StepKind.PRESSURES_AND_DUPLEX, 0, laboratory.id(), false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .contains(
                                        "It would take 41 of the 60 minutes that are held for urgent cases until the end of %s."
                                                .formatted(today.plusDays(18))));
        var proposal = proposal();
        assertThat(proposal.moves())
                .noneMatch(move -> move.referralId() == id && move.to().id() == laboratory.id());
        assertThat(proposal.unplaced())
                .filteredOn(one -> one.referralId() == id)
                .singleElement()
                .satisfies(one -> assertThat(one.why()).contains(PlanRule.TIME_HELD.sentence()));

        assertThat(office(() -> heldTimes.hold(laboratory.id(), 1, 60, 28, false)))
                .isInstanceOf(Done.class);
        assertThat(proposal().moves())
                .as("released 28 days before a session that is 20 days ahead")
                .anyMatch(move -> move.referralId() == id && move.to().id() == laboratory.id());
        assertThat(office(() -> appointments.place(id, StepKind.PRESSURES_AND_DUPLEX, 0, laboratory.id(), false)))
                .isEqualTo(new Done(List.of()));
    }

    private Proposal proposal() throws InterruptedException {
        assertThat(office(planning::start)).isTrue();
        var until = Instant.now().plusSeconds(120);
        while (office(planning::state) instanceof PlanningState.Running
                && Instant.now().isBefore(until)) {
            Thread.sleep(100);
        }
        return ((PlanningState.Proposed) office(planning::state)).proposal();
    }

    private KeptSession kept(int inDays, String room) {
        var day = today.plusDays(inDays);
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(room))
                .findFirst()
                .orElseThrow();
    }

    private void enter(SessionKind kind, int inDays, int hours, String room, Optional<HeldTime> held, int weeksMore) {
        assertThat(office(() -> sessions.enter(
                        entered(kind, inDays, hours, room, held),
                        Optional.of(today.plusDays(inDays).plusWeeks(weeksMore)))))
                .isInstanceOf(Done.class);
    }

    private EnteredSession entered(SessionKind kind, int inDays, int hours, String room, Optional<HeldTime> held) {
        return new EnteredSession(
                kind,
                today.plusDays(inDays),
                EIGHT,
                EIGHT.plusHours(hours),
                room,
                room + " operator",
                Set.of(Capability.values()),
                held);
    }

    private static String room() {
        return "Place " + NUMBER.incrementAndGet();
    }

    /** A patient who is to be treated within 6 weeks. */
    private long approved(String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today.toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        var queued = office(() -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        staff.as(
                "physician",
                () -> referrals.decide(
                        queued.id(),
                        queued.version(),
                        new Decision.Change(Tier.WITHIN_6_WEEKS, Map.of(), "Pain for years, and unchanged.")));
        return queued.id();
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }
}
