package limbqueue.command;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The command line: finds the subcommand and runs it, without Spring, without a database and without a server. */
public final class Commands {

    private static final List<Command> COMMANDS =
            List.of(new TriageCommand(), new ReadLetterCommand(), new PlanCommand());

    private Commands() {}

    /** Runs the subcommand that {@code arguments} begin with, and ends the process with its exit status. */
    public static void main(String[] arguments) {
        silenceLogging();
        // The same input prints the same bytes whatever the language of the machine: numbers with a point and plain
        // digits.
        Locale.setDefault(Locale.ROOT);
        // Unbuffered, since each line is written and flushed as one piece.
        var status = run(
                List.of(arguments),
                new Console(
                        new FileOutputStream(FileDescriptor.out),
                        new PrintStream(new FileOutputStream(FileDescriptor.err), false, StandardCharsets.UTF_8),
                        Progress.onTerminal()));
        System.exit(status);
    }

    /** Standard output belongs to the results; the logging that the application would set up writes there and costs time. */
    private static void silenceLogging() {
        System.setProperty("slf4j.provider", "org.slf4j.helpers.NOP_FallbackServiceProvider");
        System.setProperty("slf4j.internal.verbosity", "ERROR");
    }

    /**
     * Runs the subcommand that {@code arguments} begin with.
     *
     * @return the exit status: 0, or 2 when something could not be read or the arguments make no sense
     */
    public static int run(List<String> arguments, OutputStream out, PrintStream err) {
        return run(arguments, new Console(out, err));
    }

    private static int run(List<String> arguments, Console console) {
        try {
            if (arguments.isEmpty()) {
                console.explain(usage());
                return Command.INCOMPLETE;
            }
            var name = arguments.getFirst();
            if (isHelp(name)) {
                console.result(usage().stripTrailing());
                return Command.DONE;
            }
            for (var command : COMMANDS) {
                if (command.name().equals(name)) {
                    return run(command, arguments.subList(1, arguments.size()), console);
                }
            }
            console.complain("limbqueue: there is no command \"%s\". The commands are: %s."
                    .formatted(name, COMMANDS.stream().map(Command::name).collect(Collectors.joining(", "))));
            return Command.INCOMPLETE;
        } catch (Console.CannotWriteException e) {
            if (e.readerHadEnough()) {
                return Command.DONE;
            }
            console.complain(
                    "limbqueue: the results cannot be written: " + e.why() + ". Check the place they are sent to.");
            return Command.INCOMPLETE;
        } finally {
            console.end();
        }
    }

    private static int run(Command command, List<String> arguments, Console console)
            throws Console.CannotWriteException {
        var end = arguments.indexOf("--");
        var options = end < 0 ? arguments : arguments.subList(0, end);
        if (options.stream().anyMatch(Commands::isHelp)) {
            console.result(command.help().stripTrailing());
            return Command.DONE;
        }
        return command.run(arguments, console);
    }

    private static boolean isHelp(String argument) {
        return argument.equals("--help") || argument.equals("-h");
    }

    private static String usage() {
        return COMMANDS.stream().map(Command::help).collect(Collectors.joining("\n"));
    }
}
