package limbqueue.start;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A process of the application, begun from its jar in a folder of its own. */
final class Run implements AutoCloseable {

    private static final Path JAVA = Path.of(System.getProperty("java.home"), "bin", "java");
    private static final Duration PATIENCE = Duration.ofMinutes(3);

    private final Process process;
    private final Path out;
    private final Path err;

    private Run(Path folder, List<String> command) throws IOException {
        out = Files.createTempFile(folder, "run", ".out");
        err = Files.createTempFile(folder, "run", ".err");
        var builder = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile());
        builder.environment().keySet().removeAll(List.of("JAVA_HOME", "JAVA_TOOL_OPTIONS", "JDK_JAVA_OPTIONS"));
        builder.environment().keySet().removeIf(name -> name.startsWith("SPRING_") || name.startsWith("SERVER_"));
        process = builder.start();
    }

    /** {@code java -jar limbqueue.jar} with these arguments. */
    static Run jar(Path folder, String... args) throws IOException {
        var command = new ArrayList<>(List.of(JAVA.toString(), "-jar", jarFile().toString()));
        command.addAll(List.of(args));
        return new Run(folder, command);
    }

    /** The same as if on a Java that is too old. */
    static Run onOlderJava(Path folder, String where, String... args) throws IOException {
        var command = new ArrayList<>(List.of(
                JAVA.toString(), "-cp", System.getProperty("java.class.path"), OlderJava.class.getName(), where));
        command.addAll(List.of(args));
        return new Run(folder, command);
    }

    static Path jarFile() {
        return Path.of(System.getProperty("limbqueue.jar", "target/limbqueue.jar"))
                .toAbsolutePath();
    }

    int exitCode() throws InterruptedException, IOException {
        if (!process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
            throw new AssertionError("did not end:\n" + output() + errors());
        }
        return process.exitValue();
    }

    /** Waits until the block with the address is written, and returns all that is written by then. */
    String ready() throws IOException, InterruptedException {
        var deadline = Instant.now().plus(PATIENCE);
        while (!output().contains("Stop with Ctrl+C.")) {
            if (!process.isAlive() || Instant.now().isAfter(deadline)) {
                throw new AssertionError("not ready:\n" + output() + errors());
            }
            Thread.sleep(50);
        }
        return output();
    }

    String output() throws IOException {
        return Files.readString(out, StandardCharsets.UTF_8);
    }

    String errors() throws IOException {
        return Files.readString(err, StandardCharsets.UTF_8);
    }

    /** A process that ended but that nobody asked after keeps its number, and has no program any more. */
    static boolean runs(ProcessHandle process) {
        return process.isAlive() && process.info().command().isPresent();
    }

    static void waitUntilGone(ProcessHandle process) throws InterruptedException {
        var deadline = Instant.now().plus(PATIENCE);
        while (runs(process)) {
            if (Instant.now().isAfter(deadline)) {
                throw new AssertionError("process " + process.pid() + " lives on");
            }
            Thread.sleep(50);
        }
    }

    ProcessHandle handle() {
        return process.toHandle();
    }

    @Override
    public void close() {
        var children = process.descendants().toList();
        process.destroy();
        try {
            if (process.waitFor(30, TimeUnit.SECONDS)) {
                return;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        process.destroyForcibly();
        children.forEach(ProcessHandle::destroyForcibly);
    }
}
