package limbqueue.triage.rule;

import java.util.List;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A file of an earlier rule book, with what it did not have yet taken from the shipped one. */
final class KeptFile {

    private static final Pattern BLANK_LINES = Pattern.compile("\n\\s*\n");

    private KeptFile() {}

    /** Lines that begin with an id and a bar. */
    static String completedLines(String kept, String shipped) {
        return completed(
                kept,
                shipped.lines().filter(KeptFile::speaks).toList(),
                kept.lines().filter(KeptFile::speaks).toList(),
                line -> line.substring(0, Math.max(line.indexOf('|'), 0)).strip());
    }

    /** Entries parted by blank lines, each beginning with {@code rule} and an id. */
    static String completedEntries(String kept, String shipped) {
        return completed(
                kept,
                entries(shipped),
                entries(kept),
                entry -> entry.lines().findFirst().orElse("").strip());
    }

    private static String completed(
            String kept, List<String> shipped, List<String> known, UnaryOperator<String> identity) {
        var ids = known.stream().map(identity).collect(Collectors.toSet());
        return Stream.concat(Stream.of(kept), shipped.stream().filter(entry -> !ids.contains(identity.apply(entry))))
                .collect(Collectors.joining("\n\n"));
    }

    private static List<String> entries(String text) {
        return BLANK_LINES
                .splitAsStream(text)
                .map(block -> block.lines().filter(KeptFile::speaks).collect(Collectors.joining("\n")))
                .filter(block -> !block.isEmpty())
                .toList();
    }

    private static boolean speaks(String line) {
        return !line.isBlank() && !line.startsWith("#");
    }
}
