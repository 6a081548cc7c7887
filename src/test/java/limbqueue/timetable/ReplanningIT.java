package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.Disruption;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.booking.Replan.Cause;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Replanned.Line;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Refused;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.security.access.AccessDeniedException;

/** Something happens to what is booked, on a database. All people and rooms in it are invented. */
@OnPostgres
class ReplanningIT {

    private static final AtomicInteger NUMBER = new AtomicInteger();

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Replanning replanning;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        staff = new Staff(actingAs);
        today = office(referrals::today);
    }

    @Test
    void anIllOperatorsSessionIsClosedWithTheReasonAndWhoeverHasBeenToldMovesOnlyWithAYes() {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, 5, room);
        var b = session(SessionKind.VASCULAR_LABORATORY, 6, room + " other");
        var told = approved("Thornbury");
        var untold = approved("Sallow");
        place(told, StepKind.PRESSURES_AND_DUPLEX, a);
        place(untold, StepKind.PRESSURES_AND_DUPLEX, a);
        tell(told, a, 5);

        var replanned = proposed(new OperatorAway(room + " OPERATOR", midnight(5), midnight(6), "Ill."));
        assertThat(replanned.notice()).contains("A licensed clinician decides");
        assertThat(replanned.closes()).extracting(KeptSession::id).containsExactly(a);
        var lines = lines(replanned, told, untold);
        assertThat(lines).hasSize(2).allSatisfy(line -> {
            assertThat(line.cause()).isEqualTo(Cause.LOST_ITS_PLACE);
            assertThat(line.to()).map(KeptSession::id).contains(b);
            assertThat(line.why()).startsWith("Its session is closed: Ill.");
        });
        assertThat(lines).filteredOn(Line::told).extracting(Line::referralId).containsExactly(told);
        assertThat(replanned.toldPatients())
                .as("others of this class may be told too")
                .isPositive();
        assertThat(filled(a, 5).kept().closedBecause()).as("a proposal").isEmpty();

        assertThat(office(() -> replanning.accept(replanned, lines, List.of(), false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .singleElement()
                                .asString()
                                .contains("Thornbury, Enid", "must be told anew"));
        assertThat(filled(a, 5).kept().closedBecause()).as("all or nothing").isEmpty();

        assertThat(office(() -> replanning.accept(replanned, lines, lines, false)))
                .isInstanceOf(Done.class);
        assertThat(filled(a, 5).kept().closedBecause()).contains("Ill.");
        assertThat(filled(b, 6).patients())
                .extracting(Placed::referralId, Placed::told, Placed::planned)
                .containsExactlyInAnyOrder(tuple(told, false, true), tuple(untold, false, true));
    }

    @Test
    void inPartIsAcceptedToo() {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, 12, room);
        session(SessionKind.VASCULAR_LABORATORY, 13, room + " other");
        var one = approved("Lorne");
        var other = approved("Quill");
        place(one, StepKind.PRESSURES_AND_DUPLEX, a);
        place(other, StepKind.PRESSURES_AND_DUPLEX, a);
        var replanned = proposed(new PlaceDown(room, midnight(12), midnight(13), "The machine is down"));
        var chosen = lines(replanned, one);
        assertThat(office(() -> replanning.accept(replanned, chosen, List.of(), false)))
                .isInstanceOfSatisfying(
                        Done.class,
                        done -> assertThat(done.remarks())
                                .contains("1 session is closed.")
                                .last()
                                .asString()
                                .startsWith("Changed: 1. Left: "));
        var to = chosen.getFirst().to().orElseThrow();
        assertThat(filled(to.id(), (int) ChronoUnit.DAYS.between(today, to.date()))
                        .patients())
                .extracting(Placed::referralId)
                .contains(one)
                .doesNotContain(other);
        assertThat(filled(a, 12).patients()).extracting(Placed::referralId).containsExactly(other);
        assertThat(filled(a, 12).kept().closedBecause()).contains("The machine is down");
    }

    @Test
    void whatSomebodyElseChangedMeanwhileIsToldAndNothingIsDone() {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, 19, room);
        session(SessionKind.VASCULAR_LABORATORY, 20, room + " other");
        var id = approved("Fenwick");
        place(id, StepKind.PRESSURES_AND_DUPLEX, a);
        var replanned = proposed(new PlaceDown(room, midnight(19), midnight(20), "The machine is down"));
        tell(id, a, 19);
        var lines = lines(replanned, id);
        assertThat(office(() -> replanning.accept(replanned, lines, lines, false)))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> assertThat(refused.why())
                                .contains("Fenwick, Enid", "changed by somebody else meanwhile", "Nothing was done"));
        assertThat(filled(a, 19).kept().closedBecause()).isEmpty();

        var again = proposed(new PlaceDown(room, midnight(19), midnight(20), "The machine is down"));
        office(() -> sessions.close(a, 1, "Holiday.", true));
        assertThat(office(() -> replanning.accept(again, List.of(), List.of(), false)))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains(room));
        assertThat(filled(a, 19).kept().closedBecause()).contains("Holiday.");
    }

    @Test
    void anEmergencyTakesItsMinutesOfARoomOfTodayUntilTheyAreGivenBack() {
        var room = room();
        var id = session(SessionKind.PROCEDURE_ROOM, 0, LocalTime.of(0, 1), LocalTime.of(23, 59), room);
        var replanned = proposed(new Emergency("the emergency", 1, Set.of(Capability.ARM_ACCESS)));
        assertThat(replanned.emergency()).map(taken -> taken.session().id()).contains(id);
        assertThat(office(() -> replanning.accept(replanned, List.of(), List.of(), false)))
                .isInstanceOf(Done.class);
        assertThat(filled(id, 0).kept().emergencyMinutes()).isEqualTo(1);
        assertThat(filled(id, 0).expected()).isEqualTo(1);

        var none = proposed(new Emergency("the emergency", 1_440, Set.of()));
        assertThat(none.emergency()).isEmpty();
        assertThat(none.without()).anySatisfy(without -> {
            assertThat(without.reference()).isEqualTo("the emergency");
            assertThat(without.why()).contains("it is expected to take 1440 minutes");
        });

        var version = filled(id, 0).kept().version();
        assertThat(office(() -> sessions.release(id, version))).isInstanceOf(Done.class);
        assertThat(filled(id, 0).expected()).isZero();
        office(() -> sessions.close(id, version + 1, "Over.", false));
    }

    @Test
    void aPatientWhoCancelsGivesUpThePlaceAndFindsAnotherAfterwards() {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, 26, room);
        var b = session(SessionKind.VASCULAR_LABORATORY, 33, room + " other");
        var id = approved("Marchbank");
        place(id, StepKind.PRESSURES_AND_DUPLEX, a);
        var reference = filled(a, 26).patients().getFirst().reference();
        assertThat(office(replanning::expected))
                .extracting(one -> one.placed().reference())
                .contains(reference);
        var replanned = proposed(new PatientCancels(reference, midnight(0), midnight(30)));
        assertThat(lines(replanned, id)).first().satisfies(line -> {
            assertThat(line.from()).map(KeptSession::id).contains(a);
            assertThat(line.to()).map(KeptSession::id).contains(b);
            assertThat(line.why()).contains("the patient cannot come");
        });
    }

    @Test
    void whoHasBeenToldAndComesEarlierBecauseAnotherCancelsIsNamedFirst() {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, 47, room);
        session(SessionKind.VASCULAR_LABORATORY, 54, room + " other");
        var cancels = approved("Ashdown");
        var stays = approved("Brindle");
        place(cancels, StepKind.PRESSURES_AND_DUPLEX, a);
        place(stays, StepKind.PRESSURES_AND_DUPLEX, a);
        tell(stays, a, 47);
        var reference = filled(a, 47).patients().getFirst().reference();
        var replanned = proposed(new PatientCancels(reference, midnight(0), midnight(48)));
        var lines = lines(replanned, cancels);

        assertThat(office(() -> replanning.accept(replanned, lines, lines, false)))
                .isInstanceOfSatisfying(
                        AsksFirst.class,
                        asks -> assertThat(asks.concerns())
                                .singleElement()
                                .asString()
                                .startsWith("Brindle, Enid has been told of ")
                                .endsWith("and must be told anew: it would be 08:00."));
        assertThat(filled(a, 47).patients()).as("all or nothing").hasSize(2);

        assertThat(office(() -> replanning.accept(replanned, lines, lines, true)))
                .isInstanceOfSatisfying(
                        Done.class,
                        done -> assertThat(done.remarks()).contains("Brindle, Enid is expected at 08:00 now."));
        assertThat(filled(a, 47).patients())
                .extracting(Placed::referralId, Placed::told)
                .containsExactly(tuple(stays, false));
    }

    /** What somebody gives up in the next days is offered to others; a place that is further away is found by the plan. */
    @Test
    void aPlaceOfTheNextDaysThatACancellationFreesPointsToShortNotice() {
        assertThat(freed(3)).contains(ShortNotice.FREED);
        assertThat(freed(ShortNotice.DAYS + 2)).doesNotContain(ShortNotice.FREED);
    }

    private List<String> freed(int inDays) {
        var room = room();
        var a = session(SessionKind.VASCULAR_LABORATORY, inDays, room);
        session(SessionKind.VASCULAR_LABORATORY, inDays + 14, room + " other");
        var id = approved("Wexford");
        place(id, StepKind.PRESSURES_AND_DUPLEX, a);
        var reference = filled(a, inDays).patients().getFirst().reference();
        var replanned = proposed(new PatientCancels(reference, midnight(0), midnight(inDays + 1)));
        var lines = lines(replanned, id);
        return ((Done) office(() -> replanning.accept(replanned, lines, lines, true))).remarks();
    }

    @Test
    void whatCannotBeIsRefusedInWords() {
        var from = midnight(40);
        assertThat(refused(new OperatorAway("Nobody", from, from.plusDays(1), "ill")))
                .isEqualTo("No open session of that time is led by Nobody. Nothing changes.");
        assertThat(refused(new PlaceDown("Nowhere", from, from.plusDays(1), " ")))
                .contains("Say why");
        assertThat(refused(new PlaceDown("Nowhere", midnight(-3), midnight(-1), "down")))
                .contains("That time is over");
        assertThat(refused(new PatientCancels("LQ-none", from, from.plusDays(1))))
                .contains("not waiting any more");
        assertThat(refused(new Emergency("the emergency", 1_441, Set.of()))).contains("at most 1440 minutes");
        assertThatThrownBy(() -> staff.as("physician", replanning::expected)).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as(
                        "manager", () -> replanning.propose(new PlaceDown("Nowhere", from, from.plusDays(1), "down"))))
                .isInstanceOf(AccessDeniedException.class);
    }

    private String refused(Disruption disruption) {
        return ((ReplanOutcome.Refused) office(() -> replanning.propose(disruption))).why();
    }

    private Replanned proposed(Disruption disruption) {
        return ((ReplanOutcome.Proposed) office(() -> replanning.propose(disruption))).replanned();
    }

    /** Lines of these referrals: others of this class wait as well. */
    private static List<Line> lines(Replanned replanned, Long... ids) {
        return replanned.lines().stream()
                .filter(line -> List.of(ids).contains(line.referralId()))
                .filter(line -> line.from().isPresent())
                .toList();
    }

    private LocalDateTime midnight(int inDays) {
        return today.plusDays(inDays).atStartOfDay();
    }

    private void place(long id, StepKind step, long session) {
        assertThat(office(() -> appointments.place(id, step, 0, session, true))).isEqualTo(new Done(List.of()));
    }

    private void tell(long id, long session, int inDays) {
        var placed = filled(session, inDays).patients().stream()
                .filter(one -> one.referralId() == id)
                .findFirst()
                .orElseThrow();
        assertThat(office(() -> appointments.told(placed.id(), placed.version())))
                .isEqualTo(new Done(List.of()));
    }

    private FilledSession filled(long id, int inDays) {
        return office(() -> sessions.week(today.plusDays(inDays))).sessions().stream()
                .filter(one -> one.kept().id() == id)
                .findFirst()
                .orElseThrow();
    }

    private long session(SessionKind kind, int inDays, String room) {
        return session(kind, inDays, LocalTime.of(8, 0), LocalTime.NOON, room);
    }

    private long session(SessionKind kind, int inDays, LocalTime start, LocalTime end, String room) {
        var day = today.plusDays(inDays);
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                kind, day, start, end, room, room + " operator", Set.of(Capability.ARM_ACCESS)),
                        Optional.empty())))
                .isInstanceOf(Done.class);
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(room))
                .findFirst()
                .orElseThrow()
                .id();
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
