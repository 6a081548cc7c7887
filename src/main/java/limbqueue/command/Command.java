package limbqueue.command;

import java.util.List;

/** A subcommand of the command line. */
interface Command {

    /** Exit status when everything was done. */
    int DONE = 0;

    /** Exit status when something could not be read, or the arguments make no sense. */
    int INCOMPLETE = 2;

    /** The word that calls it. */
    String name();

    /** What it does and its options, as {@code --help} prints it, ending with a line's end. */
    String help();

    /**
     * Runs it.
     *
     * @param arguments what stands after its name
     * @return the exit status
     */
    int run(List<String> arguments, Console console) throws Console.CannotWriteException;
}
