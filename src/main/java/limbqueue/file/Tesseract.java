package limbqueue.file;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** Reads pictures of text by the program {@code tesseract}, where it is installed. */
final class Tesseract {

    /** What the package is called where the program is missing. */
    static final String HOW_TO_INSTALL =
            "To read it, the program tesseract must be installed on the machine that LimbQueue"
                    + " runs on (on Debian and Ubuntu the package tesseract-ocr); it was not found there. Until"
                    + " then, type what the"
                    + " letter says.";

    private static final List<String> NAMES = List.of("tesseract", "tesseract.exe");
    private static final Duration LIMIT = Duration.ofSeconds(60);

    private final Optional<Path> program;
    private final Duration limit;

    private Tesseract(Optional<Path> program, Duration limit) {
        this.program = program;
        this.limit = limit;
    }

    static Tesseract onThePath() {
        return in(Optional.ofNullable(System.getenv("PATH")).orElse(""), LIMIT);
    }

    /** @param path folders, as the variable {@code PATH} lists them */
    static Tesseract in(String path, Duration limit) {
        return new Tesseract(
                Stream.of(path.split(File.pathSeparator))
                        .filter(folder -> !folder.isBlank())
                        .flatMap(folder -> NAMES.stream().flatMap(name -> file(folder, name).stream()))
                        .filter(file -> Files.isRegularFile(file) && Files.isExecutable(file))
                        .findFirst(),
                limit);
    }

    private static Optional<Path> file(String folder, String name) {
        try {
            return Optional.of(Path.of(folder, name));
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }

    boolean isThere() {
        return program.isPresent();
    }

    /**
     * The words in a picture.
     *
     * @param type what is said to have been the file when it cannot be read
     */
    String read(byte[] picture, FileType type) throws UnreadFile {
        var tesseract = program.orElseThrow(() -> new UnreadFile(
                "This is a picture of a letter (%s), which has no text of its own. %s".formatted(type, HOW_TO_INSTALL),
                type));
        try {
            var folder = Files.createTempDirectory("limbqueue-picture");
            try {
                return read(picture, tesseract, folder, type);
            } finally {
                for (var name : List.of("picture", "words", "said")) {
                    Files.deleteIfExists(folder.resolve(name));
                }
                Files.deleteIfExists(folder);
            }
        } catch (IOException e) {
            throw failed("it could not be started", type);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw failed("it was stopped", type);
        }
    }

    private String read(byte[] picture, Path tesseract, Path folder, FileType type)
            throws IOException, InterruptedException, UnreadFile {
        var file = Files.write(folder.resolve("picture"), picture);
        var words = folder.resolve("words");
        var said = folder.resolve("said");
        var command = new ProcessBuilder(tesseract.toString(), file.toString(), "stdout")
                .redirectOutput(words.toFile())
                .redirectError(said.toFile());
        // One letter must not take every core of the machine.
        command.environment().put("OMP_THREAD_LIMIT", "1");
        var process = command.start();
        process.getOutputStream().close();
        try {
            if (!process.waitFor(limit.toMillis(), TimeUnit.MILLISECONDS)) {
                throw failed("it took longer than " + limit.toSeconds() + " seconds", type);
            }
        } finally {
            process.descendants().forEach(ProcessHandle::destroyForcibly);
            process.destroyForcibly();
        }
        if (process.exitValue() != 0) {
            throw failed("it said: " + firstLine(said), type);
        }
        try (var in = Files.newInputStream(words)) {
            return new String(in.readNBytes(4 * LetterText.LONGEST_TEXT), StandardCharsets.UTF_8);
        }
    }

    private static String firstLine(Path said) throws IOException {
        try (var in = Files.newInputStream(said)) {
            return new String(in.readNBytes(1000), StandardCharsets.UTF_8)
                    .lines()
                    .map(String::strip)
                    .filter(line -> !line.isEmpty())
                    .findFirst()
                    .orElse("nothing");
        }
    }

    private static UnreadFile failed(String why, FileType type) {
        return new UnreadFile(
                ("The program tesseract, which reads pictures of letters, did not read this one: %s. Type what"
                                + " the letter says.")
                        .formatted(why),
                type);
    }
}
