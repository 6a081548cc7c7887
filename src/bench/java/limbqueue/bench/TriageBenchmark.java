package limbqueue.bench;

import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.TimeUnit;
import limbqueue.document.DocumentFormat;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Triage;
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

    private List<String> lines = List.of();
    private List<ReferralDocument> documents = List.of();

    @Setup
    public void generate() {
        lines = new GeneratedReferrals(1).lines(REFERRALS);
        documents = lines.stream()
                .map(line -> DocumentFormat.parse(line, TODAY).document())
                .toList();
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
}
