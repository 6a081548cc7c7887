package limbqueue.command;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * Where a subcommand writes: results to {@code out}, and one line for each thing that is wrong to {@code err}. Both in
 * UTF-8 and with {@code \n} on every system.
 */
final class Console {

    /** The reader of the results has gone away or cannot take more. */
    static final class CannotWriteException extends Exception {
        private static final long serialVersionUID = 1L;

        CannotWriteException(IOException cause) {
            super(cause.getMessage(), cause);
        }

        /** Whether the reader merely had enough, as {@code head} does. */
        boolean readerHadEnough() {
            return why().toLowerCase(Locale.ROOT).contains("pipe");
        }

        /** What the system says is in the way. */
        String why() {
            return String.valueOf(getMessage());
        }
    }

    private final OutputStream out;
    private final PrintStream err;
    private final Progress progress;

    /** @param out written a line at a time */
    Console(OutputStream out, PrintStream err) {
        this(out, err, false);
    }

    /** @param terminal whether {@code err} is a terminal, on which progress is shown */
    Console(OutputStream out, PrintStream err, boolean terminal) {
        this.out = out;
        this.err = err;
        this.progress = new Progress(err, terminal);
    }

    /** Writes {@code line} at once, so that a result can be used while the next is worked on. */
    void result(String line) throws CannotWriteException {
        try {
            out.write((line + "\n").getBytes(StandardCharsets.UTF_8));
            out.flush();
            progress.step();
        } catch (IOException e) {
            throw new CannotWriteException(e);
        }
    }

    /** Writes {@code text}, made one line, to the errors. */
    void complain(String text) {
        var line = new StringBuilder(text.length());
        text.codePoints().forEach(c -> line.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
        progress.hide();
        err.print(line.append('\n'));
        err.flush();
        progress.step();
    }

    /** Takes back what was shown only while it lasted. */
    void end() {
        progress.hide();
    }

    /** Writes the lines of {@code text} to the errors. */
    void explain(String text) {
        err.print(text);
        err.flush();
    }
}
