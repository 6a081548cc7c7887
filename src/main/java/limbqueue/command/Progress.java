package limbqueue.command;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * One line on a terminal that says how far a long run has come. It appears when a run takes longer than a moment, is
 * rewritten in place, and is gone at the end; where errors do not go to a terminal there is none.
 */
final class Progress {

    private static final long FIRST_AFTER = TimeUnit.MILLISECONDS.toNanos(1_500);
    private static final long THEN_EVERY = TimeUnit.MILLISECONDS.toNanos(250);

    private final PrintStream err;
    private final boolean terminal;
    private final long begin = System.nanoTime();
    private long next = begin + FIRST_AFTER;
    private long done;
    private int shown;

    Progress(PrintStream err, boolean terminal) {
        this.err = err;
        this.terminal = terminal;
    }

    /**
     * Whether standard error is a terminal. Java itself tells only whether standard input and output both are; where the
     * system shows what a process has open, that is looked at.
     */
    static boolean onTerminal() {
        var open = Path.of("/proc/self/fd/2");
        try {
            var device = Files.readSymbolicLink(open).toString();
            return device.startsWith("/dev/pts/") || device.startsWith("/dev/tty");
        } catch (IOException | UnsupportedOperationException notShown) {
            return Optional.ofNullable(System.console())
                    .filter(java.io.Console::isTerminal)
                    .isPresent();
        }
    }

    /** One more is done. */
    void step() {
        done++;
        if (terminal && done % 64 == 0 && System.nanoTime() - next >= 0) {
            show();
        }
    }

    private void show() {
        var now = System.nanoTime();
        next = now + THEN_EVERY;
        var line = "%,d referrals, %,d a second"
                .formatted(done, Math.round(done / ((now - begin) / (double) TimeUnit.SECONDS.toNanos(1))));
        err.print("\r" + line + " ".repeat(Math.max(0, shown - line.length())));
        err.flush();
        shown = line.length();
    }

    /** Makes room for another line. */
    void hide() {
        if (shown > 0) {
            err.print("\r" + " ".repeat(shown) + "\r");
            err.flush();
            shown = 0;
        }
    }
}
