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
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.document.DocumentFormat;
import limbqueue.document.DocumentReader;
import limbqueue.document.PolicyFormat;
import limbqueue.document.Problem;
import limbqueue.document.Reading;
import limbqueue.document.ResultFormat;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import tools.jackson.core.exc.JacksonIOException;

/**
 * {@code triage}: reads referrals from files and folders and prints one result a line. Referrals are taken
 * from the files one by one and only a few are under way at a time, so that any number of them may stand in one file.
 */
final class TriageCommand implements Command {

    private static final String REFERRALS = ".referral.json";

    private record Arguments(LocalDate asOf, Policy policy, List<Path> paths) {}

    /** The arguments make no sense; the message says what to do. */
    private static final class ArgumentsException extends Exception {
        private static final long serialVersionUID = 1L;

        ArgumentsException(String message) {
            super(message);
        }
    }

    /** What comes of a referral: a line for the results, or one for the errors. */
    private record Line(String text, boolean triaged) {

        static Line problem(Path path, String problem) {
            return new Line(path + ": " + problem, false);
        }
    }

    /** One run: what it was asked to do, and whether anything was left undone. */
    private static final class Run implements AutoCloseable {
        final Arguments arguments;
        final Console console;
        final InOrder<Line> lines = new InOrder<>(this::write);
        boolean complete = true;

        Run(Arguments arguments, Console console) {
            this.arguments = arguments;
            this.console = console;
        }

        private void write(Line line) throws Console.CannotWriteException {
            if (line.triaged()) {
                console.result(line.text());
            } else {
                complete = false;
                console.complain(line.text());
            }
        }

        void leaveOut(Path path, String problem) throws Console.CannotWriteException {
            lines.give(() -> Line.problem(path, problem));
        }

        @Override
        public void close() {
            lines.close();
        }
    }

    @Override
    public String name() {
        return "triage";
    }

    @Override
    public String help() {
        return """
                java -jar limbqueue.jar triage [--as-of DATE] [--policy FILE] PATH...

                  Reads referrals and prints one triage result a line (JSON Lines), in the order of the input.
                  Every result is a proposal: a licensed clinician decides, and local protocol prevails.

                  PATH           a file with one referral or a list of them, or a folder, in which all files named
                                 *.referral.json are read, those of inner folders too, sorted by name
                  --as-of DATE   the day for which to triage, as 2026-03-02; today when not given
                  --policy FILE  the practice's own days and validities; see demo-referrals/standard.policy.json

                  A referral with anything wrong in it is not triaged; it is told on standard error, in one line:
                  PATH: where in the document: what is wrong; where else: what else is wrong
                  Exit status: 0 when everything was triaged, else 2.
                """;
    }

    @Override
    public int run(List<String> arguments, Console console) throws Console.CannotWriteException {
        DocumentFormat.prepare();
        Arguments asked;
        try {
            asked = read(arguments);
        } catch (ArgumentsException e) {
            console.complain("limbqueue triage: " + e.getMessage());
            return INCOMPLETE;
        }
        if (asked.paths().isEmpty()) {
            console.explain(help());
            return INCOMPLETE;
        }
        warmUp(asked);
        try (var run = new Run(asked, console)) {
            for (var path : asked.paths()) {
                triage(path, run);
            }
            run.lines.finish();
            return run.complete ? DONE : INCOMPLETE;
        }
    }

    /** Triages nothing while the schema is being read on another processor, so that both are ready at the same time. */
    private static void warmUp(Arguments asked) {
        ResultFormat.write(Triage.triage(DocumentFormat.empty(), asked.policy(), asked.asOf()));
    }

    private static Arguments read(List<String> arguments) throws ArgumentsException {
        var asOf = Optional.<LocalDate>empty();
        var policy = Optional.<Policy>empty();
        var paths = new ArrayList<Path>();
        var onlyPaths = false;
        for (var i = 0; i < arguments.size(); i++) {
            var argument = arguments.get(i);
            if (onlyPaths || !argument.startsWith("-")) {
                paths.add(path(argument));
                continue;
            }
            if (argument.equals("--")) {
                onlyPaths = true;
                continue;
            }
            var equals = argument.indexOf('=');
            var option = equals < 0 ? argument : argument.substring(0, equals);
            if (!option.equals("--as-of") && !option.equals("--policy")) {
                throw new ArgumentsException(
                        "there is no option %s. The options are --as-of DATE, --policy FILE and --help."
                                .formatted(option));
            }
            if (equals < 0 && i + 1 == arguments.size()) {
                throw new ArgumentsException(
                        option.equals("--as-of")
                                ? "--as-of needs a date after it, such as --as-of 2026-03-02."
                                : "--policy needs a file after it, such as --policy practice.policy.json.");
            }
            var value = equals < 0 ? arguments.get(++i) : argument.substring(equals + 1);
            if (option.equals("--as-of")) {
                asOf = Optional.of(date(value));
            } else {
                policy = Optional.of(policy(value));
            }
        }
        return new Arguments(asOf.orElseGet(LocalDate::now), policy.orElseGet(Policy::standard), List.copyOf(paths));
    }

    private static LocalDate date(String text) throws ArgumentsException {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new ArgumentsException(
                    "--as-of %s is not a date. Write it as year-month-day, such as 2026-03-02.".formatted(text));
        }
    }

    private static Path path(String text) throws ArgumentsException {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new ArgumentsException("\"%s\" cannot be the name of a file. Check the path.".formatted(text));
        }
    }

    private static Policy policy(String text) throws ArgumentsException {
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

    private static InputStream open(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException("this is a folder, not a file");
        }
        return Files.newInputStream(file);
    }

    private static void triage(Path path, Run run) throws Console.CannotWriteException {
        if (!Files.isDirectory(path)) {
            triageFile(path, run);
            return;
        }
        if (!triageFolder(path, new HashSet<>(), run)) {
            run.lines.finish();
            run.console.complain(
                    path + ": there is no file named *.referral.json in this folder, so nothing was read.");
        }
    }

    /**
     * Triages the files of {@code folder} and of the folders in it.
     *
     * @param outer the folders it lies in, so that a link back to one of them is not followed for ever
     * @return whether there was any file to triage
     */
    private static boolean triageFolder(Path folder, Set<Path> outer, Run run) throws Console.CannotWriteException {
        List<Path> inside;
        Path real;
        try (var entries = Files.list(folder)) {
            real = folder.toRealPath();
            inside = entries.sorted(
                            Comparator.comparing(entry -> entry.getFileName().toString()))
                    .toList();
        } catch (IOException e) {
            run.leaveOut(folder, whyUnreadable(e));
            return true;
        }
        if (!outer.add(real)) {
            return false;
        }
        var found = false;
        for (var entry : inside) {
            if (Files.isDirectory(entry)) {
                found |= triageFolder(entry, outer, run);
            } else if (entry.getFileName().toString().endsWith(REFERRALS)) {
                triageFile(entry, run);
                found = true;
            }
        }
        outer.remove(real);
        return found;
    }

    private static void triageFile(Path file, Run run) throws Console.CannotWriteException {
        try (var in = open(file);
                var referrals = new DocumentReader(in, run.arguments.asOf())) {
            for (var taken = referrals.take(); taken.isPresent(); taken = referrals.take()) {
                var referral = taken.get();
                run.lines.give(() -> triage(referral.get(), file, run.arguments));
            }
        } catch (IOException | JacksonIOException e) {
            run.leaveOut(file, whyUnreadable(e));
        }
    }

    private static Line triage(Reading reading, Path file, Arguments asked) {
        return reading.complete()
                ? new Line(ResultFormat.write(Triage.triage(reading.document(), asked.policy(), asked.asOf())), true)
                : Line.problem(file, problems(reading.problems()));
    }

    private static String problems(List<Problem> problems) {
        return problems.stream()
                .map(problem -> problem.path().isEmpty() ? problem.text() : problem.path() + ": " + problem.text())
                .collect(Collectors.joining("; "));
    }

    private static String whyUnreadable(Exception e) {
        var cause =
                e instanceof JacksonIOException unreadable && unreadable.getCause() != null ? unreadable.getCause() : e;
        return switch (cause) {
            case NoSuchFileException _ -> "there is no such file or folder. Check the path.";
            case AccessDeniedException _ -> "it may not be read. Ask for the right to read it.";
            default -> "it cannot be read: " + cause.getMessage() + ".";
        };
    }
}
