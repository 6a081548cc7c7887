package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import limbqueue.access.ActingAs;
import limbqueue.access.People;
import limbqueue.access.Role;
import limbqueue.referral.DecideOutcome.Changed;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Ten thousand decisions at once: four physicians decide, at the same moment, on each of 2,500 referrals. */
@OnPostgres
class RacedDecisionsIT {

    private static final int REFERRALS = 2_500;

    private static final List<String> PHYSICIANS = List.of("physician", "racer.two", "racer.three", "racer.four");

    /** Decides who wants what; who comes first is for the machine to say. */
    private static final long SEED = 20261126;

    @Autowired
    private Referrals referrals;

    @Autowired
    private People people;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    /** Much slower on a machine that is busy with other things. */
    @Test
    @Timeout(value = 20, unit = TimeUnit.MINUTES)
    void ofFourDecisionsAtOnceExactlyOneIsTakenAndTheOthersAreToldWhoDecidedWhat() throws Exception {
        var staff = new Staff(actingAs);
        staff.as("manager", () -> {
            PHYSICIANS.stream().skip(1).forEach(name -> people.add(name, "Dr " + name, Role.PHYSICIAN));
            return true;
        });
        var waiting = queued();
        var wanted = wanted();
        var start = new CyclicBarrier(PHYSICIANS.size());
        var outcomes = new ArrayList<List<DecideOutcome>>();
        try (var racers = Executors.newFixedThreadPool(PHYSICIANS.size())) {
            var running = new ArrayList<Future<List<DecideOutcome>>>();
            for (var racer = 0; racer < PHYSICIANS.size(); racer++) {
                var mine = wanted.get(racer);
                Callable<List<DecideOutcome>> race = () -> {
                    var made = new ArrayList<DecideOutcome>();
                    for (var at = 0; at < REFERRALS; at++) {
                        start.await(60, TimeUnit.SECONDS);
                        made.add(referrals.decide(waiting.get(at), 1, mine.get(at)));
                    }
                    return made;
                };
                var name = PHYSICIANS.get(racer);
                running.add(racers.submit(() -> staff.as(name, race)));
            }
            for (var racer : running) {
                outcomes.add(racer.get(20, TimeUnit.MINUTES));
            }
        }

        var decisions = 0;
        for (var at = 0; at < REFERRALS; at++) {
            var id = waiting.get(at);
            var kept = staff.as("coordinator", () -> referrals.decisions(id));
            assertThat(kept).as("decisions kept on referral %d", id).hasSize(1);
            for (var racer = 0; racer < PHYSICIANS.size(); racer++) {
                var outcome = outcomes.get(racer).get(at);
                if (outcome instanceof Decided(var referral, var decision)) {
                    decisions++;
                    assertThat(decision).isEqualTo(kept.getFirst());
                    assertThat(decision.kind()).isEqualTo(kind(wanted.get(racer).get(at)));
                    assertThat(referral.version()).isEqualTo(2);
                } else {
                    assertThat(outcome).isInstanceOfSatisfying(Changed.class, changed -> {
                        assertThat(changed.now().version()).isEqualTo(2);
                        assertThat(changed.decided()).contains(kept.getFirst());
                    });
                }
            }
        }
        assertThat(decisions).isEqualTo(REFERRALS);
        assertThat(outcomes.stream().mapToInt(List::size).sum()).isEqualTo(10_000);
        assertThat(outcomes)
                .as("nobody raced alone: more than one physician has come first somewhere")
                .filteredOn(mine -> mine.stream().anyMatch(Decided.class::isInstance))
                .hasSizeGreaterThan(1);
        assertThat(jdbc.sql("select count(*) from letter where decision is not null")
                        .query(Integer.class)
                        .single())
                .as("one letter for each decision")
                .isEqualTo(REFERRALS);
    }

    /** Put before the physician in one stroke: what is raced is the decision. */
    private List<Long> queued() {
        return jdbc.sql("""
                insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                select 'RACE-' || n, 'QUEUED', date '2026-01-12', cast(:document as json), 'Wren Halloway', now(), now()
                from generate_series(1, :referrals) as n
                returning id
                """)
                .param("document", Arriving.REST_PAIN)
                .param("referrals", REFERRALS)
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    private static List<List<Decision>> wanted() {
        var random = new Random(SEED);
        var kinds = List.<Decision>of(
                new Decision.Approve(),
                new Decision.Change(Tier.WITHIN_5_DAYS, Map.of(), "Worse on the telephone."),
                new Decision.Change(
                        Tier.WITHIN_14_DAYS,
                        Map.of(Side.LEFT, Rutherford.CHRONIC_5),
                        "The photograph shows a wound of the heel."),
                new Decision.AskForInformation("When were the toe pressures measured?"),
                new Decision.ReturnToReferrer("Known to another practice."),
                new Decision.SendToHospital("The vascular team of the hospital, by telephone."));
        return Stream.generate(() -> Stream.generate(() -> kinds.get(random.nextInt(kinds.size())))
                        .limit(REFERRALS)
                        .toList())
                .limit(PHYSICIANS.size())
                .toList();
    }

    private static DecisionKind kind(Decision decision) {
        return switch (decision) {
            case Decision.Approve _ -> DecisionKind.APPROVED;
            case Decision.Change _ -> DecisionKind.CHANGED;
            case Decision.AskForInformation _ -> DecisionKind.INFORMATION_ASKED;
            case Decision.ReturnToReferrer _ -> DecisionKind.RETURNED;
            case Decision.SendToHospital _ -> DecisionKind.SENT_TO_HOSPITAL;
        };
    }
}
