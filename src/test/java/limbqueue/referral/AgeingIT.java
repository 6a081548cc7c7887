package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.practice.Policies;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.Decision.AskForInformation;
import limbqueue.referral.Move.Cause;
import limbqueue.referral.SaveOutcome.Saved;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.referral.jdbc.LatestProposalStore;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Referrals that wait are triaged anew. Ischaemia that began suddenly is acute up to 14 days and is seen the same day; on day
 * 15 it is chronic and threatened, within 14 days (ESVS 2020, {@code published/esvs-ali-2020.csv}).
 */
@OnPostgres
class AgeingIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private Moves moves;

    @Autowired
    private Policies policies;

    @Autowired
    private LatestProposalStore store;

    @Autowired
    private PolicyInForce policyInForce;

    @Autowired
    private RuleBooks books;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private Clock clock;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
    }

    /** What the application does so many days from now. */
    private Ageing ageing(int days) {
        var then = Clock.offset(clock, Duration.ofDays(days));
        return new Ageing(
                new LatestProposals(store, books, policyInForce, then), store, policyInForce, books, transaction, then);
    }

    private LocalDate today() {
        return LocalDate.now(clock);
    }

    private Referral queued(String document) {
        var entered = staff.as("coordinator", () -> referrals.enter(document));
        return ((Submitted) staff.as("coordinator", () -> referrals.submit(entered.id(), entered.version())))
                .referral();
    }

    /** A leg that suddenly hurt so many days ago. */
    private String suddenSince(int days) {
        return Arriving.REST_PAIN
                .replace("2026-01-12", today().toString())
                .replaceFirst(
                        "\"acute\": \\{\"present\": false}",
                        "\"acute\": {\"present\": true, \"pain\": true, \"onset\": \"" + today().minusDays(days)
                                + "\"}");
    }

    private List<Moved> unseen(Referral... of) {
        var ids = List.of(of).stream().map(Referral::id).toList();
        return staff.as("physician", moves::unseen).stream()
                .filter(moved -> ids.contains(moved.referralId()))
                .toList();
    }

    private void seen(Moved moved) {
        actingAs.person("physician", () -> moves.seen(moved));
    }

    @Test
    void whatADayMovesComesUpUntilAPhysicianHasSeenIt() {
        var moving = queued(suddenSince(14));
        var stillSameDay = queued(suddenSince(3));
        var restPain = queued(Arriving.REST_PAIN);
        assertThat(unseen(moving, stillSameDay, restPain)).isEmpty();

        ageing(1).run();
        var moved = unseen(moving, stillSameDay, restPain);
        assertThat(moved).singleElement().satisfies(one -> {
            assertThat(one.referralId()).isEqualTo(moving.id());
            assertThat(one.before().tier()).isEqualTo(Tier.SAME_DAY);
            assertThat(one.after().tier()).isEqualTo(Tier.WITHIN_14_DAYS);
            assertThat(one.after().targetDate()).contains(today().plusDays(14));
            assertThat(one.since().atZone(clock.getZone()).toLocalDate()).isEqualTo(today().plusDays(1));
            assertThat(one.steps()).extracting(Move::cause).containsExactly(Cause.DAY);
        });
        ageing(1).run();
        assertThat(unseen(moving, stillSameDay, restPain)).isEqualTo(moved);

        assertThat(staff.as("coordinator", () -> moves.of(moving.id()))).contains(moved.getFirst());
        assertThatThrownBy(() -> actingAs.person("coordinator", () -> moves.seen(moved.getFirst())))
                .isInstanceOf(AccessDeniedException.class);
        seen(moved.getFirst());
        assertThat(unseen(moving)).isEmpty();
        ageing(2).run();
        assertThat(unseen(moving, stillSameDay, restPain)).isEmpty();
        assertThat(jdbc.sql("select distinct as_of from latest_proposal where referral in (:ids)")
                        .param("ids", List.of(moving.id(), stillSameDay.id(), restPain.id()))
                        .query(LocalDate.class)
                        .list())
                .containsExactly(today().plusDays(2));
    }

    @Test
    void whatIsEnteredMovesAReferralInTheNameOfWhoEnteredIt() {
        var queued = queued(Arriving.REST_PAIN.replace("2026-01-12", today().toString()));
        var saved =
                (Saved) staff.as("coordinator", () -> referrals.save(queued.id(), queued.version(), suddenSince(0)));
        assertThat(unseen(queued)).singleElement().satisfies(moved -> {
            assertThat(moved.before().tier()).isEqualTo(Tier.WITHIN_14_DAYS);
            assertThat(moved.after().tier()).isEqualTo(Tier.SAME_DAY);
            assertThat(moved.steps()).singleElement().satisfies(step -> {
                assertThat(step.cause()).isEqualTo(Cause.RESULT);
                assertThat(step.author()).contains("Wren Halloway");
            });
        });

        // A slip that was put right is no difference any more.
        var right = (Saved) staff.as(
                "coordinator",
                () -> referrals.save(queued.id(), saved.referral().version(), queued.document()));
        assertThat(unseen(queued)).isEmpty();

        staff.as(
                "coordinator",
                () -> referrals.save(queued.id(), right.referral().version(), suddenSince(1)));
        assertThat(unseen(queued)).hasSize(1);
        var now = staff.as("physician", () -> referrals.get(queued.id()));
        staff.as(
                "physician",
                () -> referrals.decide(now.id(), now.version(), new AskForInformation("Since what hour?")));
        assertThat(unseen(queued)).isEmpty();
    }

    @Test
    void aReferralOfWhichInformationIsAskedAgesToo() {
        var queued = queued(suddenSince(14));
        staff.as(
                "physician",
                () -> referrals.decide(queued.id(), queued.version(), new AskForInformation("Which medicines?")));
        ageing(1).run();
        assertThat(unseen(queued))
                .singleElement()
                .satisfies(moved -> assertThat(moved.after().tier()).isEqualTo(Tier.WITHIN_14_DAYS));
    }

    @Test
    void aDayAndAPolicyThatComeTogetherAreToldApart() {
        var moving = queued(suddenSince(14));
        var restPain = queued(Arriving.REST_PAIN);
        var days = new HashMap<>(Policy.standard().days());
        days.put(Tier.WITHIN_14_DAYS, 10);
        var tighter = new Policy("tighter", days, Policy.standard().validity());
        staff.as("physician", () -> policies.publish(tighter, today().plusDays(3), "More rooms next week."));
        assertThat(unseen(moving, restPain)).isEmpty();

        ageing(3).run();
        assertThat(unseen(moving)).singleElement().satisfies(moved -> {
            assertThat(moved.steps()).extracting(Move::cause).containsExactly(Cause.DAY, Cause.POLICY);
            assertThat(moved.steps().getFirst().after().targetDate()).contains(today().plusDays(14));
            assertThat(moved.after().targetDate()).contains(today().plusDays(10));
        });
        assertThat(unseen(restPain)).singleElement().satisfies(moved -> {
            assertThat(moved.steps()).extracting(Move::cause).containsExactly(Cause.POLICY);
            assertThat(moved.steps().getFirst().policy()).isEqualTo("tighter");
            assertThat(moved.before().targetDate()).contains(LocalDate.of(2026, 1, 26));
            assertThat(moved.after().targetDate()).contains(LocalDate.of(2026, 1, 22));
        });
    }

    @Test
    void serversThatBeginTheDayAtOnceMoveEachReferralOnce() throws InterruptedException, ExecutionException {
        var moving =
                IntStream.range(0, 12).mapToObj(_ -> queued(suddenSince(14))).toArray(Referral[]::new);
        var together = new CountDownLatch(1);
        try (var servers = Executors.newFixedThreadPool(3)) {
            var runs = IntStream.range(0, 3)
                    .<Future<?>>mapToObj(_ -> servers.submit(() -> {
                        together.await();
                        ageing(1).run();
                        return Optional.empty();
                    }))
                    .toList();
            together.countDown();
            for (var run : runs) {
                run.get();
            }
        }
        assertThat(unseen(moving))
                .hasSize(12)
                .allSatisfy(moved ->
                        assertThat(moved.steps()).extracting(Move::cause).containsExactly(Cause.DAY));
    }
}
