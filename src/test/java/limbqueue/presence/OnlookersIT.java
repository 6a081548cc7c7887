package limbqueue.presence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Clock;
import java.time.Duration;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import limbqueue.access.ActingAs;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.live.Changed;
import limbqueue.live.Changes;
import limbqueue.presence.jdbc.OnlookerStore;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

@OnPostgres
class OnlookersIT {

    @Autowired
    private Onlookers onlookers;

    @Autowired
    private OnlookerStore store;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Changes changes;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private Clock clock;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
    }

    @Test
    void twoWhoLookAtOneReferralSeeEachOtherOnTwoServersUntilTheyLeave() {
        var referral = referral();
        var otherServer = new OpenPages(store, clock);
        var leave = staff.as("physician", () -> onlookers.look(referral));
        var leaveThere = otherServer.open(referral, staff.as("coordinator", currentPerson::get));

        assertThat(staff.as("physician", () -> onlookers.others(referral)))
                .singleElement()
                .satisfies(other -> {
                    assertThat(other.who()).isEqualTo("Wren Halloway");
                    assertThat(other.role()).isEqualTo(Role.COORDINATOR);
                });
        assertThat(staff.as("coordinator", () -> onlookers.others(referral)))
                .extracting(Onlooker::role)
                .containsExactly(Role.PHYSICIAN);
        assertThat(staff.as("physician", () -> onlookers.others(referral()))).isEmpty();

        leaveThere.run();
        leaveThere.run();
        assertThat(staff.as("physician", () -> onlookers.others(referral))).isEmpty();
        leave.run();
    }

    @Test
    void whoComesAndGoesIsToldToOpenPagesAndIsNoChangeOfTheReferral() throws Exception {
        var referral = referral();
        var told = new LinkedBlockingQueue<Changed>();
        var stop = changes.listen(told::add);
        try {
            var before = counted(referral);
            var leave = staff.as("physician", () -> onlookers.look(referral));
            assertThat(toldOf(told, referral)).isTrue();
            told.clear();
            leave.run();
            assertThat(toldOf(told, referral)).isTrue();
            assertThat(counted(referral)).isEqualTo(before);
        } finally {
            stop.run();
        }
    }

    @Test
    void whatAStoppedServerHasLeftBehindIsClearedAwayAndWhatIsOpenIsNot() {
        var referral = referral();
        var leave = staff.as("physician", () -> onlookers.look(referral));
        jdbc.sql("update onlooker set renewed_at = renewed_at - interval '1 minute' where referral = :referral")
                .param("referral", referral)
                .update();
        var there = new OpenPages(store, clock).open(referral, staff.as("coordinator", currentPerson::get));

        store.removeSilent(Duration.ofSeconds(40));

        assertThat(staff.as("physician", () -> onlookers.others(referral))).hasSize(1);
        assertThat(staff.as("coordinator", () -> onlookers.others(referral))).isEmpty();
        there.run();
        leave.run();
    }

    @Test
    void aServerThatStopsTakesItsPagesAlong() {
        var referral = referral();
        var server = new OpenPages(store, clock);
        server.open(referral, staff.as("coordinator", currentPerson::get));

        server.destroy();

        assertThat(staff.as("physician", () -> onlookers.others(referral))).isEmpty();
    }

    @Test
    void whoSeesNoPatientsLooksAtNoReferral() {
        assertThatThrownBy(() -> staff.as("manager", () -> onlookers.look(1)))
                .isInstanceOf(AccessDeniedException.class);
    }

    private static boolean toldOf(LinkedBlockingQueue<Changed> told, long referral) throws InterruptedException {
        var next = told.poll(10, TimeUnit.SECONDS);
        while (next != null && !next.concerns(referral)) {
            next = told.poll(10, TimeUnit.SECONDS);
        }
        return next != null;
    }

    private long counted(long referral) {
        return jdbc.sql("select coalesce(max(changes), 0) from change_count where referral = :referral")
                .param("referral", referral)
                .query(Long.class)
                .single();
    }

    private long referral() {
        return staff.as("coordinator", referrals::begin).id();
    }
}
