package limbqueue.command;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.PolicyFormat;
import limbqueue.document.Problem;
import limbqueue.triage.Policy;
import tools.jackson.core.exc.JacksonIOException;

/** What stands after the name of a subcommand: options with their values, and paths. */
final class Options {

    /** The arguments make no sense; the message says what to do. */
    static final class ArgumentsException extends Exception {
        private static final long serialVersionUID = 1L;

        ArgumentsException(String message) {
            super(message);
        }
    }

    /**
     * @param value what the help calls its value
     * @param wanted what it needs after it, as {@code a date}
     */
    record Option(String name, String value, String wanted, String example) {}

    static final Option AS_OF = new Option("--as-of", "DATE", "a date", "2026-03-02");
    static final Option POLICY = new Option("--policy", "FILE", "a file", "practice.policy.json");

    private final Map<Option, String> given = new HashMap<>();
    private final List<Path> paths = new ArrayList<>();

    private Options() {}

    static Options read(List<String> arguments, Option... known) throws ArgumentsException {
        var read = new Options();
        var onlyPaths = false;
        for (var i = 0; i < arguments.size(); i++) {
            var argument = arguments.get(i);
            if (onlyPaths || !argument.startsWith("-")) {
                read.paths.add(path(argument));
                continue;
            }
            if (argument.equals("--")) {
                onlyPaths = true;
                continue;
            }
            var equals = argument.indexOf('=');
            var option = option(equals < 0 ? argument : argument.substring(0, equals), known);
            if (equals < 0 && i + 1 == arguments.size()) {
                throw new ArgumentsException("%s needs %s after it, such as %s %s."
                        .formatted(option.name(), option.wanted(), option.name(), option.example()));
            }
            read.given.put(option, equals < 0 ? arguments.get(++i) : argument.substring(equals + 1));
        }
        return read;
    }

    private static Option option(String name, Option... known) throws ArgumentsException {
        for (var option : known) {
            if (option.name().equals(name)) {
                return option;
            }
        }
        throw new ArgumentsException("there is no option %s. The options are %s and --help."
                .formatted(
                        name,
                        Stream.of(known)
                                .map(option -> option.name() + " " + option.value())
                                .collect(Collectors.joining(", "))));
    }

    List<Path> paths() {
        return List.copyOf(paths);
    }

    /** The day asked for, or today in {@code zone}. */
    LocalDate asOf(ZoneId zone) throws ArgumentsException {
        var text = given.get(AS_OF);
        if (text == null) {
            return LocalDate.now(zone);
        }
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new ArgumentsException(
                    "--as-of %s is not a date. Write it as year-month-day, such as 2026-03-02.".formatted(text));
        }
    }

    /** The policy asked for, or the one that the product starts with. */
    Policy policy() throws ArgumentsException {
        var text = given.get(POLICY);
        if (text == null) {
            return Policy.standard();
        }
        var file = path(text);
        try (var in = open(file)) {
            var reading = PolicyFormat.parse(in);
            return reading.policy()
                    .orElseThrow(() -> new ArgumentsException(
                            "the policy cannot be used. %s: %s".formatted(file, problems(reading.problems()))));
        } catch (IOException | JacksonIOException e) {
            throw new ArgumentsException("the policy cannot be read. %s: %s".formatted(file, whyUnreadable(e)));
        }
    }

    /** The whole number from 0 to {@code most} given with {@code option}. */
    Optional<Integer> number(Option option, int most) throws ArgumentsException {
        var text = given.get(option);
        if (text == null) {
            return Optional.empty();
        }
        try {
            var number = Integer.parseInt(text);
            if (number >= 0 && number <= most) {
                return Optional.of(number);
            }
        } catch (NumberFormatException notANumber) {
            // Told below, as a number that is too large.
        }
        throw new ArgumentsException("%s %s is not possible. Write a whole number from 0 to %d, such as %s %s."
                .formatted(option.name(), text, most, option.name(), option.example()));
    }

    private static Path path(String text) throws ArgumentsException {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new ArgumentsException("\"%s\" cannot be the name of a file. Check the path.".formatted(text));
        }
    }

    static InputStream open(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException("this is a folder, not a file");
        }
        return Files.newInputStream(file);
    }

    static String problems(List<Problem> problems) {
        return problems.stream()
                .map(problem -> problem.path().isEmpty() ? problem.text() : problem.path() + ": " + problem.text())
                .collect(Collectors.joining("; "));
    }

    static String whyUnreadable(Exception e) {
        var cause =
                e instanceof JacksonIOException unreadable && unreadable.getCause() != null ? unreadable.getCause() : e;
        return switch (cause) {
            case NoSuchFileException _ -> "there is no such file or folder. Check the path.";
            case AccessDeniedException _ -> "it may not be read. Ask for the right to read it.";
            default -> "it cannot be read: " + cause.getMessage() + ".";
        };
    }
}
