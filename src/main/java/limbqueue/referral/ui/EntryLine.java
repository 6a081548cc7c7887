package limbqueue.referral.ui;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * An entry of a list typed as one line, as {@code clopidogrel 75 mg} or {@code penicillin, severe}.
 *
 * @param values what the line gives, by the path of the entry's field; empty for the answer that there are none
 */
record EntryLine(Map<String, String> values) {

    private static final Set<String> NONE = Set.of("none", "no", "nil", "n", "-", "0");

    /** A dose begins with the first figure that stands by itself; {@code vitamin B12} is a name. */
    private static final Pattern DOSED = Pattern.compile("(?s)(.*?\\S)[,;]?\\s+([\\d.,].*)");

    private static final Pattern LAST_WORD = Pattern.compile("(?s)(.*?\\S)[,;:]?\\s+(\\p{L}+)");
    private static final List<String> REACTIONS = List.of("mild", "moderate", "severe");

    EntryLine {
        values = Map.copyOf(values);
    }

    boolean isNone() {
        return values.isEmpty();
    }

    /** How a line of the list at {@code path} is to be typed; empty if its entries have no such line. */
    static Optional<String> hint(String path) {
        return switch (path) {
            case "medicines" -> Optional.of("Name and dose, Enter; or none");
            case "allergies" -> Optional.of("To what, how severe, Enter; or none");
            default -> Optional.empty();
        };
    }

    /** Reads a line typed for the list at {@code path}; empty if nothing was typed. */
    static Optional<EntryLine> read(String path, String typed) {
        var line = typed.strip();
        if (line.isEmpty()) {
            return Optional.empty();
        }
        if (NONE.contains(line.toLowerCase(Locale.ROOT))) {
            return Optional.of(new EntryLine(Map.of()));
        }
        return Optional.of(new EntryLine(
                switch (path) {
                    case "medicines" -> medicine(line);
                    case "allergies" -> allergy(line);
                    default -> throw new IllegalArgumentException("no line is typed for " + path);
                }));
    }

    private static Map<String, String> medicine(String line) {
        var values = new LinkedHashMap<String, String>();
        var dosed = DOSED.matcher(line);
        if (dosed.matches()) {
            values.put("name", dosed.group(1));
            values.put("dose", dosed.group(2));
        } else {
            values.put("name", line);
        }
        return values;
    }

    private static Map<String, String> allergy(String line) {
        var last = LAST_WORD.matcher(line);
        if (last.matches() && REACTIONS.contains(last.group(2).toLowerCase(Locale.ROOT))) {
            return Map.of("to", last.group(1), "reaction", last.group(2).toLowerCase(Locale.ROOT));
        }
        return Map.of("to", line);
    }
}
