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
import limbqueue.triage.grade.InfectionGrade;
import limbqueue.triage.grade.LegFacts;
import limbqueue.triage.question.Diagram;
import limbqueue.triage.question.Facts;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
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
@Warmup(iterations = 10, time = 4)
@Measurement(iterations = 5, time = 4)
public class TriageBenchmark {

    static final int REFERRALS = 1_000;
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Diagram<LegUrgency.Rule> URGENCY = Diagram.of(LegUrgency::of);

    /** Both legs of a referral, for Drools and for our own rules. */
    private record Legs(UrgencyLeg left, UrgencyLeg right, Facts factsOfLeft, Facts factsOfRight) {

        static Legs of(ReferralDocument document) {
            var left = facts(Side.LEFT, document);
            var right = facts(Side.RIGHT, document);
            return new Legs(new UrgencyLeg(left), new UrgencyLeg(right), left, right);
        }

        private static Facts facts(Side side, ReferralDocument document) {
            var limits = RuleBook.shipped().on(TODAY);
            var infection = InfectionGrade.rules(limits.whole(Limit.SYSTEMIC_SIGNS_AT_LEAST));
            var facts = new LegFacts(side, document, TODAY, limits, infection).byTopic();
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
            var both = legs.get(i);
            var byDrools = drools().conclude(both.left(), both.right());
            var tier = Triage.triage(document, Policy.standard(), TODAY).urgency().tier();
            var grading = Triage.grade(document, Policy.standard(), RuleBook.shipped(), TODAY);
            if (byDrools.tier() != tier
                    || !byDrools.left().id().equals(grading.left().rule())
                    || !byDrools.right().id().equals(grading.right().rule())) {
                throw new AssertionError("%s is %s by triage, %s, but %s by Drools"
                        .formatted(document.reference().orElse(""), tier, grading, byDrools));
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

    /** Grades and tier alone. */
    @Benchmark
    public void grades(Blackhole sink) {
        for (var document : documents) {
            sink.consume(Triage.grade(document, Policy.standard(), RuleBook.shipped(), TODAY));
        }
    }

    /** The rules of urgency alone, by our own means, on facts that are ready. */
    @Benchmark
    public void rules(Blackhole sink) {
        for (var both : legs) {
            var left = URGENCY.actOn(both.factsOfLeft());
            var right = URGENCY.actOn(both.factsOfRight());
            sink.consume(left.tier().orMoreUrgent(right.tier()));
        }
    }

    /** The rules of urgency alone, by Drools, on facts that are ready. */
    @Benchmark
    public void drools(Blackhole sink) {
        for (var both : legs) {
            sink.consume(drools().conclude(both.left(), both.right()).tier());
        }
    }
}
