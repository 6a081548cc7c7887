package limbqueue.file;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A program that looks for viruses: it is given the path of a file as its last argument and ends with 0 if that is
 * clean
 * and with 1 if it found something. Whatever else it does means that nobody knows.
 */
final class ScannerProgram implements VirusScan {

    private static final Logger LOG = LoggerFactory.getLogger(ScannerProgram.class);
    private static final int CLEAN = 0;
    private static final int INFECTED = 1;

    private final List<String> command;
    private final Duration limit;

    ScannerProgram(List<String> command, Duration limit) {
        this.command = List.copyOf(command);
        this.limit = limit;
    }

    @Override
    public Finding look(byte[] content) {
        try {
            var file = Files.createTempFile("limbqueue-file", ".scan");
            try {
                Files.write(file, content);
                var arguments = new ArrayList<>(command);
                arguments.add(file.toString());
                return run(arguments);
            } finally {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            LOG.warn("the virus scanner cannot be used", e);
            return Finding.NOT_LOOKED_AT;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Finding.NOT_LOOKED_AT;
        }
    }

    private Finding run(List<String> arguments) throws IOException, InterruptedException {
        var process = new ProcessBuilder(arguments)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try {
            process.getOutputStream().close();
            if (!process.waitFor(limit.toMillis(), TimeUnit.MILLISECONDS)) {
                LOG.warn("the virus scanner took longer than {} seconds", limit.toSeconds());
                return Finding.NOT_LOOKED_AT;
            }
        } finally {
            process.descendants().forEach(ProcessHandle::destroyForcibly);
            process.destroyForcibly();
        }
        return switch (process.exitValue()) {
            case CLEAN -> Finding.CLEAN;
            case INFECTED -> Finding.INFECTED;
            default -> {
                LOG.warn("the virus scanner ended with status {}", process.exitValue());
                yield Finding.NOT_LOOKED_AT;
            }
        };
    }
}
