package limbqueue.letter;

import java.text.Normalizer;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Makes what somebody typed fit for a letter: no control or invisible characters, no stray blanks. */
public final class Typed {

    private static final Pattern INVISIBLE = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Co}\\p{Cs}\\p{Cn}]");
    private static final Pattern BREAK = Pattern.compile("\\R");
    private static final Pattern BLANKS = Pattern.compile("[\\s\\p{Z}]+");
    private static final Pattern BETWEEN_ADDRESS_LINES = Pattern.compile("\\R|,\\s+");

    private Typed() {}

    /** One line, or nothing if nothing visible was typed. */
    public static Optional<String> line(Optional<String> typed) {
        return typed.map(Typed::line).filter(line -> !line.isEmpty());
    }

    /** One line; empty if nothing visible was typed. */
    public static String line(String typed) {
        var spaced = BLANKS.matcher(typed).replaceAll(" ");
        var visible = INVISIBLE.matcher(spaced).replaceAll("");
        return Normalizer.normalize(visible, Normalizer.Form.NFC).strip();
    }

    public static List<String> lines(String typed) {
        return split(BREAK, typed);
    }

    /** An address typed in lines, or in one line with commas. */
    public static List<String> address(String typed) {
        return split(BETWEEN_ADDRESS_LINES, typed);
    }

    private static List<String> split(Pattern between, String typed) {
        return Arrays.stream(between.split(typed, -1))
                .map(Typed::line)
                .filter(line -> !line.isEmpty())
                .toList();
    }
}
