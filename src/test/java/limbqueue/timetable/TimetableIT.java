package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
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

/** Sessions, who is in them, and the plan, on a database. All people and rooms in it are invented. */
@OnPostgres
class TimetableIT {

    private static final LocalTime EIGHT = LocalTime.of(8, 0);
    private static final LocalTime NOON = LocalTime.NOON;
    private static final AtomicInteger NUMBER = new AtomicInteger();

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Planning planning;

    @Autowired
    private DayLists lists;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Preparation preparation;

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
    void aSessionOfEveryWeekIsEnteredAtOnceAndSeenInItsWeeks() {
        var room = room();
        var outcome = office(() -> sessions.enter(
                entered(SessionKind.PROCEDURE_ROOM, 9, EIGHT, NOON, room, room + " operator"),
                Optional.of(today.plusDays(9 + 20))));

        assertThat(outcome).isEqualTo(new Done(List.of()));
        for (var week = 0; week < 3; week++) {
            var day = today.plusDays(9).plusWeeks(week);
            assertThat(office(() -> sessions.week(day)).on(day))
                    .filteredOn(one -> one.kept().session().place().equals(room))
                    .singleElement()
                    .satisfies(one -> {
                        assertThat(one.kept().session().minutes()).isEqualTo(240);
                        assertThat(one.kept().session().capabilities()).containsExactly(Capability.ARM_ACCESS);
                        assertThat(one.kept().author()).isEqualTo("Wren Halloway");
                    });
        }
        assertThat(office(() -> sessions.week(today.plusDays(9 + 21))).on(today.plusDays(9 + 21)))
                .noneMatch(one -> one.kept().session().place().equals(room));
    }

    @Test
    void onePlaceAndOneOperatorHaveOneSessionAtATimeAndTheDatabaseHoldsToIt() {
        var room = room();
        var id = session(SessionKind.CLINIC, 12, EIGHT, NOON, room);

        assertThat(office(() -> sessions.enter(
                        entered(
                                SessionKind.CLINIC,
                                12,
                                LocalTime.of(11, 59),
                                LocalTime.of(15, 0),
                                room.toUpperCase(Locale.ROOT),
                                "Dr Orla"),
                        Optional.empty())))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("is taken then: clinic, "));
        assertThat(office(() -> sessions.enter(
                        entered(SessionKind.CT, 5, EIGHT, LocalTime.of(9, 0), room(), room + " operator"),
                        Optional.of(today.plusDays(12)))))
                .as("the second of two weekly ones")
                .isInstanceOf(Refused.class);
        assertThat(office(() -> sessions.week(today.plusDays(5))).on(today.plusDays(5)))
                .as("all or none")
                .noneMatch(one -> one.kept().session().operator().equals(room + " operator"));
        assertThat(office(() -> sessions.enter(
                        entered(SessionKind.CLINIC, 12, NOON, LocalTime.of(15, 0), room, room + " operator"),
                        Optional.empty())))
                .as("one after the other")
                .isInstanceOf(Done.class);
        assertThatThrownBy(() -> insertBeside(id))
                .isInstanceOf(DataIntegrityViolationException.class)
                .hasMessageContaining("practice_session_one_a_place");

        assertThat(office(() -> sessions.close(id, 1, "Holiday.", false))).isEqualTo(new Done(List.of()));
        assertThat(office(() -> sessions.enter(
                        entered(SessionKind.CLINIC, 12, EIGHT, NOON, room, room + " operator"), Optional.empty())))
                .as("a closed session uses nothing")
                .isInstanceOf(Done.class);
        assertThat(office(() -> sessions.open(id, 2))).isInstanceOf(Refused.class);
    }

    /** Puts in a copy of this session past the checks of the application. */
    private void insertBeside(long id) {
        jdbc.sql("""
                insert into practice_session (kind, starts, ends, minutes, place, operator, capabilities, account, author,
                                              at)
                select kind, starts, ends, minutes, upper(place), 'Somebody else', capabilities, account, author, at
                from practice_session where id = :id
                """).param("id", id).update();
    }

    @Test
    void whatCannotBeIsToldInWords() {
        assertThat(List.<Callable<TimetableOutcome>>of(
                        () -> enter(3, NOON, EIGHT, Optional.empty()),
                        () -> enter(3, NOON, NOON, Optional.empty()),
                        () -> enter(-1, EIGHT, NOON, Optional.empty()),
                        () -> enter(3, EIGHT, NOON, Optional.of(today)),
                        () -> enter(3, EIGHT, NOON, Optional.of(today.plusYears(3)))))
                .extracting(wrong -> ((Refused) office(wrong)).why())
                .satisfiesExactly(
                        why -> assertThat(why).startsWith("The session ends at 08:00, before it starts at 12:00."),
                        why -> assertThat(why).contains("so it has no time"),
                        why -> assertThat(why).isEqualTo("A session is entered for today or later."),
                        why -> assertThat(why).contains("before the first one"),
                        why -> assertThat(why).contains("a year ahead"));
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(SessionKind.CT, today, EIGHT, NOON, " ", "M. Vasska", Set.of()),
                        Optional.empty())))
                .isEqualTo(new Refused("Say where it is and who works in it."));
    }

    private TimetableOutcome enter(int inDays, LocalTime start, LocalTime end, Optional<LocalDate> until) {
        return sessions.enter(entered(SessionKind.CT, inDays, start, end, room(), room()), until);
    }

    @Test
    void aSessionWithPatientsIsNotClosedBeforeTheyAreNamed() {
        var id = approved("Sallow");
        var clinic = session(SessionKind.CLINIC, 20, EIGHT, NOON, room());
        place(id, StepKind.CLINIC, 0, clinic);

        assertThat(office(() -> sessions.close(clinic, 1, "Dr Imre is ill.", false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .containsExactly("Sallow, Enid, clinic, needs another place."));
        assertThat(filled(clinic, 20).kept().closedBecause()).isEmpty();
        assertThat(step(id, StepKind.CLINIC)).isEmpty();

        assertThat(office(() -> sessions.close(clinic, 1, "Dr Imre is ill.", true)))
                .isEqualTo(new Done(List.of("1 patient in it needs another place.")));
        assertThat(filled(clinic, 20).patients()).hasSize(1);
        assertThat(step(id, StepKind.CLINIC)).map(OpenStep::version).contains(1);
        assertThat(office(() -> appointments.told(
                        filled(clinic, 20).patients().getFirst().id(), 1)))
                .isInstanceOf(Refused.class);

        var other = session(SessionKind.CLINIC, 21, EIGHT, NOON, room());
        place(id, StepKind.CLINIC, 1, other);
        assertThat(filled(clinic, 20).patients()).isEmpty();
        assertThat(filled(other, 21).patients()).extracting(Placed::who).containsExactly("Sallow, Enid");
    }

    @Test
    void whoHasBeenToldIsMovedWithAYesOfItsOwnAndEveryPlaceIsKept() {
        var id = approved("Birch");
        var one = session(SessionKind.CLINIC, 22, EIGHT, NOON, room());
        var other = session(SessionKind.CLINIC, 23, EIGHT, NOON, room());
        place(id, StepKind.CLINIC, 0, one);
        var placed = filled(one, 22).patients().getFirst();
        assertThat(placed.planned()).isFalse();
        assertThat(office(() -> appointments.told(placed.id(), 1))).isEqualTo(new Done(List.of()));

        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 2, other, false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .singleElement()
                                .asString()
                                .startsWith("Birch, Enid has been told of clinic, "));
        assertThat(office(() -> appointments.takeOut(placed.id(), 2, false))).isInstanceOf(AsksFirst.class);
        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 2, other, true)))
                .isEqualTo(new Done(List.of()));
        assertThat(filled(other, 23).patients().getFirst().told()).isFalse();
        assertThat(office(() -> appointments.takeOut(placed.id(), 3, false))).isEqualTo(new Done(List.of()));

        assertThat(jdbc.sql("""
                        select concat_ws(' ', version, session, told)
                        from appointment_step where appointment = :id order by version
                        """).param("id", placed.id()).query(String.class).list())
                .containsExactly("1 " + one + " f", "2 " + one + " t", "3 " + other + " f", "4 f");
        assertThatThrownBy(() -> jdbc.sql("delete from appointment_step").update())
                .isInstanceOf(DataIntegrityViolationException.class);
    }

    @Test
    void nobodyIsInTwoSessionsAtATime() {
        var id = approved("Oakes");
        var clinic = session(SessionKind.CLINIC, 24, EIGHT, NOON, room());
        var room = session(SessionKind.PROCEDURE_ROOM, 24, LocalTime.of(11, 0), LocalTime.of(16, 0), room());
        place(id, StepKind.CLINIC, 0, clinic);

        assertThat(office(() -> appointments.place(id, StepKind.PROCEDURE, 0, room, true)))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> assertThat(refused.why()).startsWith("The patient is elsewhere then: clinic"));
        assertThatThrownBy(() -> jdbc.sql("""
                        insert into appointment (referral, step, session, position, median, ninety, told, placed, account,
                                                 author, at)
                        select referral, 'PROCEDURE', :session, 1, 60, 90, false, 'BY_HAND', account, author, at
                        from appointment where referral = :referral
                        """)
                        .param("session", room)
                        .param("referral", id)
                        .update())
                .isInstanceOf(DataIntegrityViolationException.class)
                .hasMessageContaining("appointment_one_at_a_time");
    }

    @Test
    void ofTwoPeopleAtOnceOnePlacesAndTheOtherIsTold() throws Exception {
        var id = approved("Marchbank");
        var one = session(SessionKind.CLINIC, 25, EIGHT, NOON, room());
        var other = session(SessionKind.CLINIC, 26, EIGHT, NOON, room());
        var together = new CyclicBarrier(2);
        try (var people = Executors.newFixedThreadPool(2)) {
            var outcomes = List.of(one, other).stream()
                    .map(into -> people.submit(() -> {
                        together.await();
                        return office(() -> appointments.place(id, StepKind.CLINIC, 0, into, true));
                    }))
                    .toList();
            assertThat(List.of(outcomes.get(0).get(), outcomes.get(1).get()))
                    .containsExactlyInAnyOrder(new Done(List.of()), new Overtaken());
        }
    }

    @Test
    void whatTheSessionLacksAndWhatIsOverItsEndIsAskedFirst() {
        var id = approved("Teasel");
        var brief = session(SessionKind.CLINIC, 27, EIGHT, LocalTime.of(8, 10), room());

        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 0, brief, false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .singleElement()
                                .asString()
                                .matches("The session would run about \\d+ minutes over its end\\."));
        place(id, StepKind.CLINIC, 0, brief);

        var filled = filled(brief, 27);
        var patient = filled.patients().getFirst();
        // A log-normal time with a median of 25 and 40 for nine of ten has a mean of 26.7 minutes (worked by hand).
        assertThat(patient.minutes().expected()).isEqualTo(27);
        assertThat(filled.over()).isEqualTo(17);
        assertThat(filled.overOf(patient)).isEqualTo(17);
        assertThat(office(() -> appointments.place(id, StepKind.PROCEDURE, 0, brief, true)))
                .as("a session of another kind")
                .isInstanceOf(Refused.class);
    }

    @Test
    void aProcedureIsBookedWhenThePatientIsToldAndFollowsItsAppointment() {
        var id = approved("Fenwick");
        var room = room();
        var one = session(SessionKind.PROCEDURE_ROOM, 28, EIGHT, LocalTime.of(16, 0), room);
        var other = session(SessionKind.PROCEDURE_ROOM, 29, LocalTime.of(9, 0), LocalTime.of(16, 0), room);
        place(id, StepKind.PROCEDURE, 0, one);
        assertThat(office(() -> preparation.get(id)).booking()).isEmpty();

        var placed = filled(one, 28).patients().getFirst();
        assertThat(office(() -> appointments.told(placed.id(), 1))).isEqualTo(new Done(List.of()));
        assertThat(office(() -> preparation.get(id)).booking())
                .map(ProcedureBooking::starts)
                .contains(today.plusDays(28).atTime(EIGHT));

        place(id, StepKind.PROCEDURE, 2, other);
        assertThat(office(() -> preparation.get(id)).booking())
                .map(ProcedureBooking::starts)
                .contains(today.plusDays(29).atTime(9, 0));
        assertThat(office(() -> appointments.takeOut(placed.id(), 3, true))).isInstanceOf(Refused.class);
        assertThat(office(() -> lists.of(today.plusDays(29))).sessions())
                .flatExtracting(DayList.SessionList::lines)
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.at()).isEqualTo(LocalTime.of(9, 0));
                    assertThat(line.side()).isEqualTo("Left leg");
                    assertThat(line.placed().who()).isEqualTo("Fenwick, Enid");
                });
    }

    @Test
    void everyRoleDoesWhatIsItsOwn() {
        var id = approved("Lorne");
        var clinic = session(SessionKind.CLINIC, 32, EIGHT, NOON, room());
        place(id, StepKind.CLINIC, 0, clinic);

        assertThat(staff.as("manager", () -> sessions.week(today.plusDays(32))).on(today.plusDays(32)))
                .flatExtracting(FilledSession::patients)
                .extracting(Placed::patient)
                .containsExactly("");
        assertThatThrownBy(() -> staff.as("manager", appointments::toPlace)).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("manager", planning::start)).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("manager", () -> lists.of(today))).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("physician", () -> enter(3, EIGHT, NOON, Optional.empty())))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("physician", () -> appointments.place(id, StepKind.CLINIC, 1, clinic, true)))
                .isInstanceOf(AccessDeniedException.class);
        assertThat(staff.as("manager", () -> enter(31, EIGHT, NOON, Optional.empty())))
                .isEqualTo(new Done(List.of()));
    }

    @Test
    void thePlanIsTheDifferenceToWhatIsBookedAndIsAcceptedLineByLine() throws Exception {
        var id = approved("Quill");
        var room = room();
        for (var week = 0; week < 8; week++) {
            session(
                    SessionKind.VASCULAR_LABORATORY,
                    7 * week + 2,
                    LocalTime.of(17, 0),
                    LocalTime.of(20, 0),
                    room + " lab");
            session(SessionKind.CT, 7 * week + 3, LocalTime.of(17, 0), LocalTime.of(20, 0), room + " CT");
            session(SessionKind.CLINIC, 7 * week + 5, LocalTime.of(17, 0), LocalTime.of(20, 0), room + " clinic");
            session(
                    SessionKind.PROCEDURE_ROOM,
                    7 * week + 6,
                    LocalTime.of(16, 0),
                    LocalTime.of(21, 0),
                    room + " angio");
        }
        var first = proposal();
        assertThat(first.notice()).contains("A licensed clinician decides");
        var own = moves(first, id);
        assertThat(own).extracting(Proposal.Move::step).contains(StepKind.CLINIC, StepKind.PROCEDURE);
        assertThat(own).allSatisfy(move -> {
            assertThat(move.from()).isEmpty();
            assertThat(move.why()).isNotBlank();
            assertThat(move.to().session().kind()).isEqualTo(move.step().session());
        });

        var clinic = own.stream()
                .filter(move -> move.step() == StepKind.CLINIC)
                .findFirst()
                .orElseThrow();
        assertThat(office(() -> planning.accept(clinic, false))).isEqualTo(new Done(List.of()));
        assertThat(office(() -> planning.accept(clinic, false))).as("twice").isEqualTo(new Overtaken());
        assertThat(office(planning::acceptAll)).isInstanceOf(Done.class);
        assertThat(moves(proposed(), id)).isEmpty();
        assertThat(step(id, StepKind.PROCEDURE)).isEmpty();
        var placed = filled(clinic.to()).patients().stream()
                .filter(one -> one.referralId() == id)
                .findFirst()
                .orElseThrow();
        assertThat(placed.planned()).isTrue();

        office(() -> appointments.told(placed.id(), placed.version()));
        var kept = filled(clinic.to()).kept();
        assertThat(office(() -> sessions.close(kept.id(), kept.version(), "The scanner is down.", true)))
                .isInstanceOf(Done.class);
        var moved = moves(proposal(), id).stream()
                .filter(move -> move.step() == StepKind.CLINIC)
                .findFirst()
                .orElseThrow();
        assertThat(moved.told()).isTrue();
        assertThat(moved.from()).map(KeptSession::id).contains(kept.id());
        office(planning::acceptAll);
        assertThat(moves(proposed(), id))
                .as("told patients are never moved with the others")
                .contains(moved);
        assertThat(office(() -> planning.accept(moved, false))).isInstanceOf(AsksFirst.class);
        assertThat(office(() -> planning.accept(moved, true))).isEqualTo(new Done(List.of()));
        assertThat(filled(moved.to()).patients()).extracting(Placed::referralId).contains(id);
    }

    private static List<Proposal.Move> moves(Proposal proposal, long id) {
        return proposal.moves().stream().filter(move -> move.referralId() == id).toList();
    }

    /** Asks for a plan and waits until it is there. */
    private Proposal proposal() throws InterruptedException {
        assertThat(office(planning::start)).isTrue();
        var until = Instant.now().plusSeconds(120);
        while (office(planning::state) instanceof PlanningState.Running
                && Instant.now().isBefore(until)) {
            Thread.sleep(100);
        }
        return proposed();
    }

    private Proposal proposed() {
        return ((PlanningState.Proposed) office(planning::state)).proposal();
    }

    private FilledSession filled(KeptSession kept) {
        return office(() -> sessions.week(kept.date())).sessions().stream()
                .filter(one -> one.kept().id() == kept.id())
                .findFirst()
                .orElseThrow();
    }

    private FilledSession filled(long id, int inDays) {
        return office(() -> sessions.week(today.plusDays(inDays))).sessions().stream()
                .filter(one -> one.kept().id() == id)
                .findFirst()
                .orElseThrow();
    }

    private Optional<OpenStep> step(long id, StepKind kind) {
        return office(appointments::toPlace).stream()
                .filter(one -> one.referralId() == id && one.step() == kind)
                .findFirst();
    }

    private void place(long id, StepKind step, int version, long session) {
        assertThat(office(() -> appointments.place(id, step, version, session, true)))
                .isEqualTo(new Done(List.of()));
    }

    private long session(SessionKind kind, int inDays, LocalTime start, LocalTime end, String room) {
        assertThat(office(() ->
                        sessions.enter(entered(kind, inDays, start, end, room, room + " operator"), Optional.empty())))
                .isInstanceOf(Done.class);
        var day = today.plusDays(inDays);
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(room)
                        && one.session().start().equals(day.atTime(start)))
                .findFirst()
                .orElseThrow()
                .id();
    }

    private EnteredSession entered(
            SessionKind kind, int inDays, LocalTime start, LocalTime end, String room, String operator) {
        return new EnteredSession(
                kind, today.plusDays(inDays), start, end, room, operator, Set.of(Capability.ARM_ACCESS));
    }

    private static String room() {
        return "Room " + NUMBER.incrementAndGet();
    }

    /** A patient with rest pain who came today. */
    private long approved(String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today.toString()));
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
