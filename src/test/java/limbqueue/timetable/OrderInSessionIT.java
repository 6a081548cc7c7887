package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.ProcedureBooking;
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
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.test.context.event.ApplicationEvents;
import org.springframework.test.context.event.RecordApplicationEvents;

/** Who comes before whom within a session, on a database. All people and rooms in it are invented. */
@OnPostgres
@RecordApplicationEvents
class OrderInSessionIT {

    private static final AtomicInteger NUMBER = new AtomicInteger();
    private static final LocalTime EIGHT = LocalTime.of(8, 0);

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private SessionOrder order;

    @Autowired
    private DayLists lists;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Preparation preparation;

    @Autowired
    private Letters letters;

    @Autowired
    private ApplicationEvents events;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;
    private LocalDate day;
    private String room;

    @BeforeEach
    void aRoom() {
        staff = new Staff(actingAs);
        day = office(referrals::today).plusDays(12);
        room = "Room " + NUMBER.incrementAndGet();
    }

    /** A clinic of rest pain takes 27 minutes as expected, so three of them begin at 08:00, 08:27 and 08:54. */
    @Test
    void aCaseChangesPlacesWithTheOneBeforeItAndTheListOfTheDayFollows() {
        var session = clinicOf("Avery", "Brook", "Calder");
        assertThat(namesAndTimes()).containsExactly("Avery, Enid 08:00", "Brook, Enid 08:27", "Calder, Enid 08:54");

        assertThat(move(session, 2, true))
                .isEqualTo(new Done(
                        List.of("Calder, Enid is expected at 08:27 now.", "Brook, Enid is expected at 08:54 now.")));
        assertThat(namesAndTimes()).containsExactly("Avery, Enid 08:00", "Calder, Enid 08:27", "Brook, Enid 08:54");

        assertThat(move(session, 0, false)).isInstanceOf(Done.class);
        assertThat(namesAndTimes()).containsExactly("Calder, Enid 08:00", "Avery, Enid 08:27", "Brook, Enid 08:54");
        assertThat(filled(session).patients())
                .extracting(Placed::position)
                .isSorted()
                .doesNotHaveDuplicates();
    }

    @Test
    void theFirstGoesNoEarlierAndTheLastNoLater() {
        var session = clinicOf("Avery", "Brook");
        assertThat(move(session, 0, true)).isEqualTo(new Refused("Avery, Enid is the first one already."));
        assertThat(move(session, 1, false)).isEqualTo(new Refused("Brook, Enid is the last one already."));
    }

    @Test
    void whoHasBeenToldOfATimeIsToldAnewAndAPersonSaysYesToThat() {
        var session = clinicOf("Avery", "Brook");
        var first = filled(session).patients().getFirst();
        assertThat(office(() -> appointments.told(first.id(), first.version()))).isInstanceOf(Done.class);
        var second = filled(session).patients().getLast();

        assertThat(office(() -> order.move(second.id(), second.version(), true, false)))
                .isEqualTo(new AsksFirst(
                        List.of("Avery, Enid has been told of 08:00 and must be told anew: it would be 08:27.")));
        assertThat(namesAndTimes()).as("nothing moved").containsExactly("Avery, Enid 08:00", "Brook, Enid 08:27");

        assertThat(office(() -> order.move(second.id(), second.version(), true, true)))
                .isInstanceOf(Done.class);
        assertThat(filled(session).patients()).extracting(Placed::told).containsExactly(false, false);
        assertThat(moved()).contains(new AppointmentMoved(first.referralId(), StepKind.CLINIC));

        tell(session, 1);
        assertThat(text(first.referralId())).contains("at 08:25.");
    }

    @Test
    void aBookedProcedureFollowsToItsNewTime() {
        var session = session(SessionKind.PROCEDURE_ROOM, EIGHT, LocalTime.of(16, 0));
        var one = approved("Avery");
        var other = approved("Brook");
        place(one, StepKind.PROCEDURE, session);
        place(other, StepKind.PROCEDURE, session);
        var first = filled(session).patients().getFirst();
        assertThat(office(() -> appointments.told(first.id(), first.version()))).isInstanceOf(Done.class);
        assertThat(starts(one)).contains(day.atTime(8, 0).toString());

        var last = filled(session).patients().getLast();
        assertThat(office(() -> order.move(last.id(), last.version(), true, true)))
                .isInstanceOf(Done.class);

        assertThat(starts(one))
                .contains(filled(session)
                        .startsFor(filled(session).patients().getLast())
                        .toString());
        assertThat(starts(other)).as("it had no date before").isEmpty();
    }

    @Test
    void whoHasBeenToldAndStandsBehindOneWhoIsTakenOutIsNamedFirstAndWrittenToWhenToldAnew() {
        var session = clinicOf("Avery", "Brook", "Calder");
        var brook = tell(session, 1);
        var avery = filled(session).patients().getFirst();

        assertThat(office(() -> appointments.takeOut(avery.id(), avery.version(), false)))
                .isEqualTo(new AsksFirst(
                        List.of("Brook, Enid has been told of 08:27 and must be told anew: it would be 08:00.")));
        assertThat(namesAndTimes()).containsExactly("Avery, Enid 08:00", "Brook, Enid 08:27", "Calder, Enid 08:54");
        assertThat(moved()).doesNotContain(new AppointmentMoved(brook, StepKind.CLINIC));

        assertThat(office(() -> appointments.takeOut(avery.id(), avery.version(), true)))
                .isEqualTo(new Done(List.of("Brook, Enid is expected at 08:00 now.")));
        assertThat(namesAndTimes()).containsExactly("Brook, Enid 08:00", "Calder, Enid 08:27");
        assertThat(filled(session).patients()).extracting(Placed::told).containsExactly(false, false);
        assertThat(moved()).containsOnlyOnce(new AppointmentMoved(brook, StepKind.CLINIC));

        tell(session, 0);
        assertThat(text(brook)).contains("08:00", room);
    }

    @Test
    void whoHasBeenToldAndStandsBehindOneWhoGoesToAnotherSessionIsNamedToo() {
        var session = clinicOf("Avery", "Brook");
        var brook = tell(session, 1);
        var avery = filled(session).patients().getFirst();
        var own = room;
        room = own + " afternoon";
        var other = session(SessionKind.CLINIC, LocalTime.of(13, 0), LocalTime.of(17, 0));

        assertThat(office(() -> appointments.place(avery.referralId(), StepKind.CLINIC, avery.version(), other, false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .contains(
                                        "Brook, Enid has been told of 08:27 and must be told anew: it would be 08:00."));
        assertThat(office(() -> appointments.place(avery.referralId(), StepKind.CLINIC, avery.version(), other, true)))
                .isEqualTo(new Done(List.of("Brook, Enid is expected at 08:00 now.")));
        assertThat(moved()).containsOnlyOnce(new AppointmentMoved(brook, StepKind.CLINIC));
        room = own;
        assertThat(namesAndTimes()).containsExactly("Brook, Enid 08:00");
    }

    @Test
    void whoeverGoesBehindTheOthersChangesNothingForThem() {
        var session = clinicOf("Avery", "Brook");
        var avery = tell(session, 0);
        tell(session, 1);
        assertThat(office(() -> appointments.place(approved("Calder"), StepKind.CLINIC, 0, session, true)))
                .isEqualTo(new Done(List.of()));
        var last = filled(session).patients().getLast();
        assertThat(office(() -> appointments.takeOut(last.id(), last.version(), false)))
                .isEqualTo(new Done(List.of()));
        assertThat(filled(session).patients()).extracting(Placed::told).containsExactly(true, true);
        assertThat(moved()).doesNotContain(new AppointmentMoved(avery, StepKind.CLINIC));
    }

    @Test
    void aBookedProcedureFollowsWhenTheOneBeforeItIsTakenOut() {
        var session = session(SessionKind.PROCEDURE_ROOM, EIGHT, LocalTime.of(16, 0));
        place(approved("Avery"), StepKind.PROCEDURE, session);
        place(approved("Brook"), StepKind.PROCEDURE, session);
        var brook = tell(session, 1);
        assertThat(starts(brook))
                .isPresent()
                .isNotEqualTo(Optional.of(day.atTime(8, 0).toString()));

        var first = filled(session).patients().getFirst();
        assertThat(office(() -> appointments.takeOut(first.id(), first.version(), false)))
                .isInstanceOf(AsksFirst.class);
        assertThat(office(() -> appointments.takeOut(first.id(), first.version(), true)))
                .isEqualTo(new Done(List.of("Brook, Enid is expected at 08:00 now.")));
        assertThat(starts(brook)).contains(day.atTime(8, 0).toString());
        assertThat(moved()).containsOnlyOnce(new AppointmentMoved(brook, StepKind.PROCEDURE));
    }

    /** @return the referral of whoever is there */
    private long tell(long session, int at) {
        var placed = filled(session).patients().get(at);
        assertThat(office(() -> appointments.told(placed.id(), placed.version())))
                .isEqualTo(new Done(List.of()));
        return placed.referralId();
    }

    private List<AppointmentMoved> moved() {
        return events.stream(AppointmentMoved.class).toList();
    }

    /** What the patient was written to last. */
    private String text(long referral) {
        return office(() -> letters.about(referral)).stream()
                .filter(letter -> letter.kind().toPatient())
                .map(Letter::text)
                .findFirst()
                .orElse("no letter");
    }

    @Test
    void twoPeopleWhoMoveTheSameCaseAtOnceMoveItOnce() throws Exception {
        var session = clinicOf("Avery", "Brook", "Calder");
        var last = filled(session).patients().getLast();
        var together = new CyclicBarrier(2);
        Callable<TimetableOutcome> moving = () -> {
            together.await();
            return office(() -> order.move(last.id(), last.version(), true, false));
        };
        try (var people = Executors.newFixedThreadPool(2)) {
            var outcomes = people.invokeAll(List.of(moving, moving)).stream()
                    .map(future -> future.resultNow())
                    .toList();
            assertThat(outcomes).hasAtLeastOneElementOfType(Done.class).contains(new Overtaken());
        }
        assertThat(namesAndTimes()).containsExactly("Avery, Enid 08:00", "Calder, Enid 08:27", "Brook, Enid 08:54");
    }

    @Test
    void aClosedSessionKeepsItsOrderAndOnlyTheOfficeChangesOne() {
        var session = clinicOf("Avery", "Brook");
        var last = filled(session).patients().getLast();
        assertThatThrownBy(() -> staff.as("physician", () -> order.move(last.id(), last.version(), true, false)))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("manager", () -> order.move(last.id(), last.version(), true, false)))
                .isInstanceOf(AccessDeniedException.class);
        assertThat(office(() -> order.move(last.id(), last.version() + 1, true, false)))
                .isEqualTo(new Overtaken());
        assertThat(office(() -> order.move(Long.MAX_VALUE, 1, true, false))).isEqualTo(new Overtaken());

        var kept = filled(session).kept();
        assertThat(office(() -> sessions.close(kept.id(), kept.version(), "The room is painted.", true)))
                .isInstanceOf(Done.class);
        assertThat(move(session, 1, true)).isEqualTo(new Refused("It is closed: The room is painted."));
    }

    @Test
    void noTwoHaveTheSamePlaceAndEveryPlaceIsRemembered() {
        var session = clinicOf("Avery", "Brook");
        var last = filled(session).patients().getLast();
        assertThatThrownBy(() -> jdbc.sql("update appointment set version = version + 1, position = 1 where id = :id")
                        .param("id", last.id())
                        .update())
                .isInstanceOf(DataIntegrityViolationException.class)
                .hasMessageContaining("appointment_one_a_position");

        assertThat(move(session, 1, true)).isInstanceOf(Done.class);
        assertThat(jdbc.sql("select position from appointment_step where appointment = :id order by version")
                        .param("id", last.id())
                        .query(Integer.class)
                        .list())
                .containsExactly(2, 1);
    }

    private TimetableOutcome move(long session, int at, boolean earlier) {
        var placed = filled(session).patients().get(at);
        return office(() -> order.move(placed.id(), placed.version(), earlier, false));
    }

    private List<String> namesAndTimes() {
        return office(() -> lists.of(day)).sessions().stream()
                .filter(list -> list.session().kept().session().place().equals(room))
                .flatMap(list -> list.lines().stream())
                .map(line -> line.placed().who() + " " + line.at())
                .toList();
    }

    private Optional<String> starts(long referral) {
        return office(() -> preparation.get(referral))
                .booking()
                .map(ProcedureBooking::starts)
                .map(Object::toString);
    }

    private long clinicOf(String... families) {
        var session = session(SessionKind.CLINIC, EIGHT, LocalTime.NOON);
        for (var family : families) {
            place(approved(family), StepKind.CLINIC, session);
        }
        return session;
    }

    private void place(long referral, StepKind step, long session) {
        assertThat(office(() -> appointments.place(referral, step, 0, session, true)))
                .isInstanceOf(Done.class);
    }

    private FilledSession filled(long session) {
        return office(() -> sessions.week(day)).sessions().stream()
                .filter(one -> one.kept().id() == session)
                .findFirst()
                .orElseThrow();
    }

    private long session(SessionKind kind, LocalTime start, LocalTime end) {
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                kind, day, start, end, room, room + " operator", Set.of(Capability.ARM_ACCESS)),
                        Optional.empty())))
                .isInstanceOf(Done.class);
        return office(() -> sessions.week(day)).on(day).stream()
                .filter(one -> one.kept().session().place().equals(room))
                .findFirst()
                .orElseThrow()
                .kept()
                .id();
    }

    /** A patient with rest pain who came today. */
    private long approved(String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        draft.set("patient.born", "1950-01-%02d".formatted(NUMBER.incrementAndGet() % 28 + 1));
        var queued = office(() -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), new Decision.Approve()));
        return queued.id();
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }
}
