package limbqueue.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import limbqueue.document.DocumentFormat;
import limbqueue.document.DocumentReader;
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

    private record Arguments(LocalDate asOf, Policy policy, List<Path> paths) {}

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
        } catch (Options.ArgumentsException e) {
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

    private static Arguments read(List<String> arguments) throws Options.ArgumentsException {
        var options = Options.read(arguments, Options.AS_OF, Options.POLICY);
        return new Arguments(options.asOf(ZoneId.systemDefault()), options.policy(), options.paths());
    }

    private static void triage(Path path, Run run) throws Console.CannotWriteException {
        var found = NamedFiles.referrals(path, new NamedFiles.Taker() {
            @Override
            public void file(Path file) throws Console.CannotWriteException {
                triageFile(file, run);
            }

            @Override
            public void unreadable(Path folder, String why) throws Console.CannotWriteException {
                run.leaveOut(folder, why);
            }
        });
        if (!found) {
            run.lines.finish();
            run.console.complain(NamedFiles.noReferralIn(path));
        }
    }

    private static void triageFile(Path file, Run run) throws Console.CannotWriteException {
        try (var in = Options.open(file);
                var referrals = new DocumentReader(in, run.arguments.asOf())) {
            for (var taken = referrals.take(); taken.isPresent(); taken = referrals.take()) {
                var referral = taken.get();
                run.lines.give(() -> triage(referral.get(), file, run.arguments));
            }
        } catch (IOException | JacksonIOException e) {
            run.leaveOut(file, Options.whyUnreadable(e));
        }
    }

    private static Line triage(Reading reading, Path file, Arguments asked) {
        return reading.complete()
                ? new Line(ResultFormat.write(Triage.triage(reading.document(), asked.policy(), asked.asOf())), true)
                : Line.problem(file, Options.problems(reading.problems()));
    }
}
