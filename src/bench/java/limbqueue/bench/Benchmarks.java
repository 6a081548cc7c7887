package limbqueue.bench;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Runs the benchmarks whose names match, and says at the end which goals were met. */
public final class Benchmarks {

    /**
     * How the time of one benchmark should compare with that of another in the same run.
     *
     * @param goal what is wished, in words
     * @param from the least ratio that meets it
     * @param to the greatest ratio that meets it
     */
    private record Goal(String name, String beside, String goal, double from, double to) {

        void print(Map<String, Double> micros) {
            var time = micros.get(name);
            var other = micros.get(beside);
            if (time == null || other == null) {
                return;
            }
            var ratio = time / other;
            System.out.printf(
                    Locale.ROOT,
                    "%s / %s = %.2f (%.2f / %.2f us): goal %s, %s%n",
                    name,
                    beside,
                    ratio,
                    time,
                    other,
                    goal,
                    from <= ratio && ratio <= to ? "met" : "NOT met");
        }
    }

    private static final List<Goal> GOALS = List.of(
            new Goal("grades", "parsing", "below 1", 0, Math.nextDown(1.0)),
            new Goal("triage", "parsing", "at most 10", 0, 10),
            new Goal("drools", "triage", "at least 20", 20, Double.MAX_VALUE),
            new Goal("drools", "grades", "at least 20", 20, Double.MAX_VALUE),
            new Goal("drools", "rules", "at least 20", 20, Double.MAX_VALUE));

    private Benchmarks() {}

    /** @param arguments a pattern of names, {@code command}, or a part of {@link PlanBenchmark}; how many referrals the command line is given */
    public static void main(String[] arguments) throws RunnerException, IOException, InterruptedException {
        if (arguments[0].equals("command")) {
            CommandBenchmark.main(new String[] {arguments[1]});
            return;
        }
        if (arguments[0].equals("plan") || arguments[0].startsWith("plan-")) {
            PlanBenchmark.main(arguments);
            return;
        }
        var options = new OptionsBuilder()
                .include(arguments[0])
                // Otherwise Drools would spend its time writing a log.
                .jvmArgsAppend("-Dslf4j.provider=org.slf4j.helpers.NOP_FallbackServiceProvider")
                .shouldFailOnError(true)
                .build();
        var micros = new HashMap<String, Double>();
        for (var result : new Runner(options).run()) {
            micros.put(
                    result.getPrimaryResult().getLabel(),
                    result.getPrimaryResult().getScore());
        }
        System.out.println();
        GOALS.forEach(goal -> goal.print(micros));
    }
}
