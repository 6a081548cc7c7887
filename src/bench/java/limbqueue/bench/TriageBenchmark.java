package limbqueue.bench;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import limbqueue.document.DocumentFormat;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Side;
import limbqueue.triage.Triage;
import limbqueue.triage.finding.Background;
import limbqueue.triage.grade.LegFacts;
import limbqueue.triage.question.Facts;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.urgency.LegUrgency;
import org.jspecify.annotations.Nullable;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import tools.jackson.databind.ObjectMapper;

/** Triage of a mixed set of generated referrals, per referral, beside parsing the same documents. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@OperationsPerInvocation(TriageBenchmark.REFERRALS)
@Fork(1)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
public class TriageBenchmark {

    static final int REFERRALS = 1_000;
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final ObjectMapper JSON = new ObjectMapper();

    /** Both legs of a referral, for Drools and for our own rules. */
    private record Legs(UrgencyLeg left, UrgencyLeg right, Facts factsOfLeft, Facts factsOfRight) {

        static Legs of(ReferralDocument document) {
            var left = facts(Side.LEFT, document);
            var right = facts(Side.RIGHT, document);
            return new Legs(new UrgencyLeg(left), new UrgencyLeg(right), left, right);
        }

        private static Facts facts(Side side, ReferralDocument document) {
            var limits = RuleBook.shipped().on(TODAY);
            var facts = new LegFacts(side, document, TODAY, limits).byTopic();
            Background.of(side, document, limits).facts().forEach(facts::note);
            return facts;
        }
    }

    private List<String> lines = List.of();
    private List<ReferralDocument> documents = List.of();
    private List<Legs> legs = List.of();
    private @Nullable DroolsUrgency drools;

    @Setup
    public void generate() {
        lines = new GeneratedReferrals(1).lines(REFERRALS);
        documents = lines.stream()
                .map(line -> DocumentFormat.parse(line, TODAY).document())
                .toList();
        legs = documents.stream().map(Legs::of).toList();
        drools = new DroolsUrgency();
        checkThatDroolsConcludesTheSame();
    }

    /** Else the times would be of different rules. */
    private void checkThatDroolsConcludesTheSame() {
        for (var i = 0; i < REFERRALS; i++) {
            var document = documents.get(i);
            var tier = Triage.triage(document, Policy.standard(), TODAY).urgency().tier();
            var byDrools = drools().tier(legs.get(i).left(), legs.get(i).right());
            if (tier != byDrools) {
                throw new AssertionError(
                        "%s is %s, and %s by Drools".formatted(document.reference(), tier, byDrools));
            }
        }
        if (drools().held() != 0) {
            throw new AssertionError("Drools kept %d facts of referrals that are done".formatted(drools().held()));
        }
    }

    private DroolsUrgency drools() {
        return Objects.requireNonNull(drools);
    }

    @TearDown
    public void end() {
        drools().close();
    }

    @Benchmark
    public void parsing(Blackhole sink) {
        for (var line : lines) {
            sink.consume(JSON.readTree(line));
        }
    }

    @Benchmark
    public void triage(Blackhole sink) {
        for (var document : documents) {
            sink.consume(Triage.triage(document, Policy.standard(), TODAY));
        }
    }

    /** The rules of urgency alone, by our own means, on facts that are ready. */
    @Benchmark
    public void rules(Blackhole sink) {
        for (var both : legs) {
            sink.consume(LegUrgency.rules()
                    .read(both.factsOfLeft())
                    .actOn()
                    .tier()
                    .orMoreUrgent(LegUrgency.rules()
                            .read(both.factsOfRight())
                            .actOn()
                            .tier()));
        }
    }

    /** The rules of urgency alone, by Drools, on facts that are ready. */
    @Benchmark
    public void drools(Blackhole sink) {
        for (var both : legs) {
            sink.consume(drools().tier(both.left(), both.right()));
        }
    }
}
