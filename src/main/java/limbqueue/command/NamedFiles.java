package limbqueue.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** The referrals that a path names: a file as it is, or every file named as referrals are in a folder and those in it. */
final class ReferralFolder {

    private static final String REFERRALS = ".referral.json";

    /** Takes what is found, in order of names. */
    interface Taker {
        void file(Path file) throws Console.CannotWriteException;

        void unreadable(Path folder, String why) throws Console.CannotWriteException;
    }

    private ReferralFolder() {}

    /** @return whether there was anything to take */
    static boolean walk(Path path, Taker taker) throws Console.CannotWriteException {
        if (!Files.isDirectory(path)) {
            taker.file(path);
            return true;
        }
        return folder(path, new HashSet<>(), taker);
    }

    /** What is said of a folder in which there was nothing. */
    static String nothingIn(Path folder) {
        return folder + ": there is no file named *.referral.json in this folder, so nothing was read.";
    }

    /** @param outer the folders it lies in, so that a link back to one of them is not followed for ever */
    private static boolean folder(Path folder, Set<Path> outer, Taker taker) throws Console.CannotWriteException {
        List<Path> inside;
        Path real;
        try (var entries = Files.list(folder)) {
            real = folder.toRealPath();
            inside = entries.sorted(
                            Comparator.comparing(entry -> entry.getFileName().toString()))
                    .toList();
        } catch (IOException e) {
            taker.unreadable(folder, Options.whyUnreadable(e));
            return true;
        }
        if (!outer.add(real)) {
            return false;
        }
        var found = false;
        for (var entry : inside) {
            if (Files.isDirectory(entry)) {
                found |= folder(entry, outer, taker);
            } else if (entry.getFileName().toString().endsWith(REFERRALS)) {
                taker.file(entry);
                found = true;
            }
        }
        outer.remove(real);
        return found;
    }
}
