package limbqueue.prospect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.SessionKind;
import limbqueue.document.Draft;
import limbqueue.forecast.RoomSession;
import limbqueue.forecast.WeeklySession;
import limbqueue.governance.ManyCourses;
import limbqueue.prospect.Basis.Given;
import limbqueue.prospect.Basis.Lacking;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.security.access.AccessDeniedException;

/** What a look ahead begins with, read from a database, and what comes of it. All people and rooms in it are invented. */
@OnPostgres
class ProspectsIT {

    @Autowired
    private Prospects prospects;

    @Autowired
    private Simulations simulations;

    @Autowired
    private Sessions sessions;

    @Autowired
    private HeldTimes heldTimes;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcTemplate jdbc;

    @Test
    void whatIsLackingIsToldAndWithHistoryAndSessionsThereIsAForecast() throws InterruptedException {
        var staff = new Staff(actingAs);
        var today = staff.as("coordinator", referrals::today);
        assertThat(staff.as("manager", prospects::basis))
                .isInstanceOfSatisfying(
                        Lacking.class,
                        lacking -> assertThat(lacking.why())
                                .containsExactly(
                                        "Too little history to learn from: 0 referrals that need the procedure room in 0 whole weeks."
                                                + " With 10 referrals in 4 weeks a forecast is possible.",
                                        "No session of the procedure room is open until %s. Enter the sessions that there will be."
                                                .formatted(today.plusWeeks(12))));
        assertThatThrownBy(() -> staff.as("coordinator", prospects::basis)).isInstanceOf(AccessDeniedException.class);

        ManyCourses.add(jdbc, 700);
        var day = today.plusDays(1);
        enter(staff, day, 11);
        enter(staff, day.plusDays(1), 0);
        approved(staff, "Sallow", Optional.of(Tier.WITHIN_6_WEEKS));
        approved(staff, "Thornbury", Optional.empty());

        var given = (Given) staff.as("physician", prospects::basis);
        // Counted a second time, in another way: those of the invented ones that no hospital and no letter ended.
        var counted = count("""
                select count(*) from referral r join decision d on d.id = r.decision
                where r.reference like 'C-%' and d.tier not in ('SAME_DAY', 'ADVICE_ONLY') and r.received >= current_date - 364
                      and r.received < current_date
                """);
        assertThat(given.history()).isEqualTo(new Basis.History(today.minusWeeks(52), today.minusDays(1), 52, counted));
        var within5 = count("""
                select count(*) from referral r join decision d on d.id = r.decision
                where r.reference like 'C-%' and d.tier = 'WITHIN_5_DAYS' and r.received >= current_date - 364
                      and r.received < current_date
                """);
        assertThat(given.situation().arrivals().inAWeek(Tier.WITHIN_5_DAYS)).isCloseTo(within5 / 52.0, within(0.02));
        assertThat(given.situation().queue()).hasSize(2);
        assertThat(given.situation().queue()).anySatisfy(one -> {
            assertThat(one.tier()).isEqualTo(Tier.WITHIN_6_WEEKS);
            assertThat(one.received()).isEqualTo(today);
            assertThat(one.ready()).isAfter(today);
        });
        assertThat(given.undecided()).isEqualTo(1);
        assertThat(given.situation().sessions()).hasSize(13);
        assertThat(given.usualWeek())
                .as("the day that there is only once belongs to no usual week")
                .containsExactly(new WeeklySession(day.getDayOfWeek(), 480));

        assertThat(given.situation().sessions()).extracting(RoomSession::held).containsOnly(0);
        assertThat(staff.as("manager", () -> heldTimes.choose(Map.of(day.getDayOfWeek(), 90), 1)))
                .isInstanceOf(TimetableOutcome.Done.class);
        var held = ((Given) staff.as("physician", prospects::basis)).situation();
        assertThat(held.sessions())
                .filteredOn(session -> session.date().getDayOfWeek() == day.getDayOfWeek())
                .hasSize(12)
                .allSatisfy(session -> {
                    assertThat(session.held()).isEqualTo(90);
                    assertThat(session.releaseDays()).isEqualTo(1);
                });
        assertThat(held.heldFor().tiers()).containsExactly(Tier.WITHIN_5_DAYS);

        var more = new WeeklySession(day.plusDays(2).getDayOfWeek(), 480);
        var done = new CountDownLatch(1);
        var result = new AtomicReference<Optional<Simulation>>(Optional.empty());
        simulations.begin(given, more, simulation -> {
            result.set(simulation);
            done.countDown();
        });
        assertThat(done.await(60, TimeUnit.SECONDS)).isTrue();
        var simulation = result.get().orElseThrow();
        assertThat(simulation.lines()).hasSize(4 * 12);
        assertThat(simulation.table().rows()).hasSize(4 * 12);
        assertThat(simulation.gains())
                .as("more room never makes patients wait longer where too little is there")
                .anySatisfy(gain -> assertThat(gain.waiting().expected()).isPositive());
        var heldToTheLast = simulation.curve().stream()
                .filter(point -> point.releaseDays() == 0)
                .toList();
        assertThat(heldToTheLast.getFirst().minutes()).isZero();
        assertThat(heldToTheLast.getFirst().found().orElseThrow().value()).isZero();
        assertThat(heldToTheLast.getLast().found().orElseThrow().value()).isPositive();
        assertThat(TierOutlook.of(given, simulation))
                .hasSize(4)
                .allSatisfy(tier -> assertThat(tier.breach().orElse(0.0)).isBetween(0.0, 1.0));
    }

    private int count(String sql) {
        return Optional.ofNullable(jdbc.queryForObject(sql, Integer.class)).orElseThrow();
    }

    private void enter(Staff staff, LocalDate day, int weeksMore) {
        assertThat(staff.as(
                        "coordinator",
                        () -> sessions.enter(
                                new EnteredSession(
                                        SessionKind.PROCEDURE_ROOM,
                                        day,
                                        LocalTime.of(8, 0),
                                        LocalTime.of(16, 0),
                                        "Angiography room",
                                        "Dr Imre",
                                        Set.of(Capability.ARM_ACCESS)),
                                Optional.of(day.plusWeeks(weeksMore)))))
                .isInstanceOf(TimetableOutcome.Done.class);
    }

    private void approved(Staff staff, String family, Optional<Tier> decided) {
        var today = staff.as("coordinator", referrals::today);
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today.toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        var queued = staff.as("coordinator", () -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        decided.ifPresent(tier -> staff.as(
                "physician",
                () -> referrals.decide(
                        queued.id(),
                        queued.version(),
                        new Decision.Change(tier, Map.of(), "Pain for years, and unchanged."))));
    }
}
