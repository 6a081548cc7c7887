package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import limbqueue.reading.Lines.Line;

/** Whom a letter is sent to, in its head, and who gets a copy, at its foot: people and places that did not write it. */
final class Addressees {

    private static final Pattern DEAR = Pattern.compile(
            "(?i)^dear (?:dr|doctor|mr|mrs|ms|miss|prof|professor|sister)\\b\\.?[ \\t]+(?:(?-i:[A-Z])[\\w.'\u2019-]*[ \\t]+){0,3}((?-i:[A-Z])[\\w'\u2019-]{2,25})[ \\t]*[,:.-]?$");

    /** A line that has more to say than whom the letter is for. */
    private static final Pattern MORE =
            Pattern.compile("(?i)\\b(?:from|sender|referr\\w*|re|patient|dob|born|dear|tel|phone|fax)\\b");

    private static final Pattern COPY = Pattern.compile(
            "(?i)^(?:cc|c\\.c\\.?|copy|copies|copied)(?:[ \\t]+(?:to|sent))?(?:[ \\t]*[:.-]|[ \\t]|$).*");

    /** How near the foot copies are told. */
    private static final int FOOT = 8;

    private Addressees() {}

    /** The lines of those who wrote, numbered anew. */
    static List<Line> without(List<Line> lines) {
        var left = new ArrayList<Line>();
        var surname = surname(lines);
        var addressed = false;
        var dropped = false;
        for (var line : lines) {
            if (line.afterBlank() || MORE.matcher(line.text()).find()) {
                addressed = false;
            }
            if (!surname.isEmpty() && DEAR.matcher(line.text()).find()) {
                surname = "";
                addressed = false;
            }
            if (!surname.isEmpty() && !MORE.matcher(line.text()).find() && names(line.text(), surname)) {
                addressed = true;
            }
            if (line.number() > lines.size() - FOOT
                    && line.number() > 3
                    && COPY.matcher(line.text()).matches()) {
                break;
            }
            if (addressed) {
                dropped = true;
                continue;
            }
            left.add(new Line(left.size(), line.start(), line.end(), line.text(), line.afterBlank() || dropped));
            dropped = false;
        }
        return left;
    }

    /** Whom the letter greets; empty where it greets nobody by name. */
    private static String surname(List<Line> lines) {
        for (var line : lines) {
            var dear = DEAR.matcher(line.text());
            if (dear.find()) {
                return dear.group(1);
            }
        }
        return "";
    }

    private static boolean names(String line, String surname) {
        var at = line.indexOf(surname);
        var end = at + surname.length();
        return at >= 0
                && (at == 0 || !Character.isLetter(line.charAt(at - 1)))
                && (end == line.length() || !Character.isLetter(line.charAt(end)));
    }
}
