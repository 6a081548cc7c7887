package limbqueue.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import limbqueue.testbed.GeneratedReferrals;

/**
 * The command {@code triage} over a large file beside {@link Reprint} over the same file: whole processes with the Java
 * that runs this, one after the other in turn, so that a machine that becomes slower becomes so for both. Both print to
 * nowhere.
 */
public final class CommandBenchmark {

    private static final int ROUNDS = 3;
    private static final double GOAL = 1.5;
    private static final Path FILE = Path.of("target", "benchmark.referrals.json");
    private static final List<String> REPRINT = List.of("limbqueue.bench.Reprint", FILE.toString());
    private static final List<String> TRIAGE =
            List.of("limbqueue.start.Start", "triage", "--as-of", "2026-03-02", FILE.toString());

    /**
     * What one process took.
     *
     * @param processor time of all processors, of the process and those that it started, as far as it was seen before the end
     * @param peakMegabytes the most memory of all of them that was resident, where the system tells
     */
    private record Run(Duration wall, Duration processor, OptionalLong peakMegabytes) {

        double wallSeconds() {
            return seconds(wall);
        }

        double processorSeconds() {
            return seconds(processor);
        }

        private static double seconds(Duration duration) {
            return duration.toNanos() / (double) TimeUnit.SECONDS.toNanos(1);
        }

        void print(String name) {
            System.out.printf(
                    Locale.ROOT,
                    "%-20s %6.2f s, processors %6.2f s, peak memory %s%n",
                    name,
                    wallSeconds(),
                    processorSeconds(),
                    peakMegabytes.isPresent() ? peakMegabytes.getAsLong() + " MB" : "unknown");
        }
    }

    private CommandBenchmark() {}

    /** @param arguments how many referrals */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        var referrals = Integer.parseInt(arguments[0]);
        write(referrals);
        System.out.printf(
                Locale.ROOT,
                "%,d referrals, %,d MB, on %d processors%n",
                referrals,
                Files.size(FILE) >> 20,
                Runtime.getRuntime().availableProcessors());
        var reprints = new ArrayList<Run>();
        var triages = new ArrayList<Run>();
        for (var round = 0; round < ROUNDS; round++) {
            reprints.add(run("reprint", List.of(), REPRINT));
            triages.add(run("triage", List.of(), TRIAGE));
        }
        run("triage -Xmx96m", List.of("-Xmx96m"), TRIAGE);
        Files.delete(FILE);
        var ratio = median(triages, Run::wallSeconds) / median(reprints, Run::wallSeconds);
        System.out.printf(
                Locale.ROOT,
                "triage / reprint = %.2f of wall time (medians %.2f / %.2f s): goal at most %.1f, %s%n",
                ratio,
                median(triages, Run::wallSeconds),
                median(reprints, Run::wallSeconds),
                GOAL,
                ratio <= GOAL ? "met" : "NOT met");
        System.out.printf(
                Locale.ROOT,
                "triage / reprint = %.2f of processor time%n",
                median(triages, Run::processorSeconds) / median(reprints, Run::processorSeconds));
    }

    private static void write(int referrals) throws IOException {
        var generated = new GeneratedReferrals(1);
        try (var out = Files.newBufferedWriter(FILE)) {
            for (var i = 0; i < referrals; i++) {
                out.write(i == 0 ? "[\n" : ",\n");
                out.write(generated.next().toString());
            }
            out.write("\n]\n");
        }
    }

    private static Run run(String name, List<String> options, List<String> program)
            throws IOException, InterruptedException {
        var command = new ArrayList<String>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(options);
        command.addAll(List.of("-classpath", System.getProperty("java.class.path")));
        command.addAll(program);
        var begin = System.nanoTime();
        var process = new ProcessBuilder(command)
                .redirectOutput(Redirect.DISCARD)
                .redirectError(Redirect.INHERIT)
                .start();
        var processor = Duration.ZERO;
        var peak = OptionalLong.empty();
        while (!process.waitFor(20, TimeUnit.MILLISECONDS)) {
            // A long run starts Java once more.
            var both = Stream.concat(Stream.of(process.toHandle()), process.descendants())
                    .toList();
            var used = both.stream()
                    .flatMap(handle -> handle.info().totalCpuDuration().stream())
                    .reduce(Duration.ZERO, Duration::plus);
            processor = used.compareTo(processor) > 0 ? used : processor;
            var resident = both.stream()
                    .flatMapToLong(handle -> peakMegabytes(handle.pid()).stream())
                    .sum();
            peak = resident > peak.orElse(0) ? OptionalLong.of(resident) : peak;
        }
        var run = new Run(Duration.ofNanos(System.nanoTime() - begin), processor, peak);
        if (process.exitValue() != 0) {
            throw new IllegalStateException(name + " ended with status " + process.exitValue());
        }
        run.print(name);
        return run;
    }

    private static OptionalLong peakMegabytes(long pid) {
        try (var lines = Files.lines(Path.of("/proc", String.valueOf(pid), "status"))) {
            return lines.filter(line -> line.startsWith("VmHWM:"))
                    .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", "")) >> 10)
                    .findFirst();
        } catch (IOException | UncheckedIOException endedOrNotShown) {
            return OptionalLong.empty();
        }
    }

    private static double median(List<Run> runs, ToDoubleFunction<Run> figure) {
        return runs.stream().mapToDouble(figure).sorted().toArray()[runs.size() / 2];
    }
}
