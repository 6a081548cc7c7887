package limbqueue.document;

import java.util.ArrayList;
import java.util.List;

/** Paths of fields, as {@code legs.left.abi} or {@code labs[0].value}. */
final class FieldPath {

    private FieldPath() {}

    /** The path of field {@code name} of the object at {@code path}. A name that is no plain word stands in quotes. */
    static String field(String path, String name) {
        var shown = isPlain(name) ? name : JsonText.quoted(name);
        return path.isEmpty() ? shown : path + "." + shown;
    }

    /** The path of entry {@code index} of the list at {@code path}. */
    static String entry(String path, int index) {
        return path + "[" + index + "]";
    }

    /** The path {@code inner} seen from outside the part that lies at {@code outer}. */
    static String within(String outer, String inner) {
        if (inner.isEmpty() || outer.isEmpty()) {
            return outer + inner;
        }
        return inner.startsWith("[") ? outer + inner : outer + "." + inner;
    }

    /**
     * The steps of {@code path}: a {@link String} for a field, an {@link Integer} for a list entry.
     *
     * @throws IllegalArgumentException if it is not a path
     */
    static List<Object> steps(String path) {
        var steps = new ArrayList<>();
        var at = 0;
        while (at < path.length()) {
            if (path.charAt(at) == '[') {
                var end = path.indexOf(']', at);
                if (end < 0) {
                    throw notAPath(path);
                }
                steps.add(index(path, path.substring(at + 1, end)));
                at = end + 1;
            } else {
                if (at > 0) {
                    if (path.charAt(at) != '.') {
                        throw notAPath(path);
                    }
                    at++;
                }
                var end = at;
                while (end < path.length() && isPlain(path.charAt(end))) {
                    end++;
                }
                if (end == at) {
                    throw notAPath(path);
                }
                steps.add(path.substring(at, end));
                at = end;
            }
        }
        if (steps.isEmpty()) {
            throw notAPath(path);
        }
        return steps;
    }

    private static int index(String path, String digits) {
        if (digits.isEmpty() || digits.length() > 6 || !digits.chars().allMatch(c -> c >= '0' && c <= '9')) {
            throw notAPath(path);
        }
        return Integer.parseInt(digits);
    }

    private static boolean isPlain(String name) {
        for (var i = 0; i < name.length(); i++) {
            if (!isPlain(name.charAt(i))) {
                return false;
            }
        }
        return !name.isEmpty() && name.length() <= 60;
    }

    private static boolean isPlain(char c) {
        return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-';
    }

    private static IllegalArgumentException notAPath(String path) {
        return new IllegalArgumentException("not a path of fields: " + path);
    }
}
