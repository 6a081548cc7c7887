package limbqueue.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/** The files that a path names: a file as it is, or in a folder and those in it every file that is wanted. */
final class NamedFiles {

    private static final String REFERRAL = ".referral.json";

    /** Takes what is found, in order of names. */
    interface Taker {
        void file(Path file) throws Console.CannotWriteException;

        void unreadable(Path folder, String why) throws Console.CannotWriteException;
    }

    private NamedFiles() {}

    /** @return whether there was any referral to take */
    static boolean referrals(Path path, Taker taker) throws Console.CannotWriteException {
        return walk(path, file -> file.getFileName().toString().endsWith(REFERRAL), taker);
    }

    /**
     * @param wanted which files of a folder are taken
     * @return whether there was anything to take
     */
    static boolean walk(Path path, Predicate<Path> wanted, Taker taker) throws Console.CannotWriteException {
        if (!Files.isDirectory(path)) {
            taker.file(path);
            return true;
        }
        return folder(path, wanted, new HashSet<>(), taker);
    }

    /** What is said of a folder in which there was no referral. */
    static String noReferralIn(Path folder) {
        return folder + ": there is no file named *.referral.json in this folder, so nothing was read.";
    }

    /** @param outer the folders it lies in, so that a link back to one of them is not followed for ever */
    private static boolean folder(Path folder, Predicate<Path> wanted, Set<Path> outer, Taker taker)
            throws Console.CannotWriteException {
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
                found |= folder(entry, wanted, outer, taker);
            } else if (wanted.test(entry)) {
                taker.file(entry);
                found = true;
            }
        }
        outer.remove(real);
        return found;
    }
}
