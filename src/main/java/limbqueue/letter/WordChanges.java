package limbqueue.letter;

import com.github.difflib.DiffUtils;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;

/** What is different between two texts, word by word. */
public final class WordChanges {

    /** Between a word and the blanks around it, so that both texts can be put together again. */
    private static final Pattern BETWEEN = Pattern.compile("(?<=\\s)(?=\\S)|(?<=\\S)(?=\\s)");

    private WordChanges() {}

    public enum Kind {
        SAME,
        GONE,
        NEW
    }

    /** Words that stand in both texts, in the old one only, or in the new one only. */
    public record Run(Kind kind, String words) {}

    /** All of both texts, in order: without what is new it is the old one, without what is gone the new one. */
    public static List<Run> between(String before, String after) {
        var old = words(before);
        var young = words(after);
        var runs = new ArrayList<Run>();
        var at = 0;
        for (var delta : DiffUtils.diff(old, young).getDeltas()) {
            add(runs, Kind.SAME, old.subList(at, delta.getSource().getPosition()));
            add(runs, Kind.GONE, delta.getSource().getLines());
            add(runs, Kind.NEW, delta.getTarget().getLines());
            at = delta.getSource().getPosition() + delta.getSource().size();
        }
        add(runs, Kind.SAME, old.subList(at, old.size()));
        return List.copyOf(runs);
    }

    private static List<String> words(String text) {
        return text.isEmpty() ? List.of() : Arrays.asList(BETWEEN.split(text, -1));
    }

    private static void add(List<Run> runs, Kind kind, List<String> words) {
        if (!words.isEmpty()) {
            runs.add(new Run(kind, String.join("", words)));
        }
    }
}
