package limbqueue.triage;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import limbqueue.document.DocumentFormat;
import limbqueue.document.Unchecked;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * A referral written as {@code path=value} pairs, such as {@code legs.left.abi=0.43}, which a test can read at a glance,
 * change one by one and turn into a document. {@code L.} and {@code R.} stand for the legs.
 */
record Facts(Map<String, Object> values) {

    /** The day on which the tests triage, unless they say otherwise. */
    static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Pattern ENTRY = Pattern.compile("(\\w+)\\[(\\d+)]");

    Facts {
        values = new TreeMap<>(values);
    }

    /** Reads pairs parted by white space; a value is a JSON literal or else a text, with {@code _} for a blank. */
    static Facts of(String pairs) {
        var values = new TreeMap<String, Object>();
        for (var pair : pairs.strip().split("\\s+", -1)) {
            if (pair.isEmpty()) {
                continue;
            }
            var cut = pair.indexOf('=');
            if (cut < 0) {
                throw new IllegalArgumentException("not path=value: " + pair);
            }
            values.put(path(pair.substring(0, cut)), value(pair.substring(cut + 1)));
        }
        return new Facts(values);
    }

    private static String path(String written) {
        return written.startsWith("L.")
                ? "legs.left." + written.substring(2)
                : written.startsWith("R.") ? "legs.right." + written.substring(2) : written;
    }

    static Object value(String text) {
        if (text.equals("[]")) {
            return List.of();
        }
        if (text.equals("true") || text.equals("false")) {
            return Boolean.valueOf(text);
        }
        if (text.matches("-?\\d+")) {
            return Integer.valueOf(text);
        }
        if (text.matches("-?\\d+\\.\\d+")) {
            return Double.valueOf(text);
        }
        return text.replace('_', ' ');
    }

    Facts with(String path, Object value) {
        var changed = new TreeMap<>(values);
        changed.put(path(path), value);
        return new Facts(changed);
    }

    Facts without(String path) {
        var changed = new TreeMap<>(values);
        changed.remove(path(path));
        return new Facts(changed);
    }

    Optional<Object> get(String path) {
        return Optional.ofNullable(values.get(path(path)));
    }

    JsonNode json() {
        var root = new LinkedHashMap<String, Object>();
        values.forEach((path, value) -> put(root, path, value));
        return JSON.valueToTree(root);
    }

    @SuppressWarnings("unchecked")
    private static void put(Map<String, Object> root, String path, Object value) {
        var here = root;
        var steps = path.split("\\.", -1);
        for (var i = 0; i < steps.length; i++) {
            var last = i == steps.length - 1;
            var entry = ENTRY.matcher(steps[i]);
            if (entry.matches()) {
                var list = (List<Object>) here.compute(
                        entry.group(1), (name, old) -> old instanceof ArrayList<?> kept ? kept : new ArrayList<>());
                var index = Integer.parseInt(entry.group(2));
                while (list.size() <= index) {
                    list.add(new LinkedHashMap<String, Object>());
                }
                here = (Map<String, Object>) list.get(index);
            } else if (last) {
                here.putIfAbsent(steps[i], value);
            } else {
                here = (Map<String, Object>)
                        here.computeIfAbsent(steps[i], name -> new LinkedHashMap<String, Object>());
            }
        }
    }

    /** The document; a pair that the format does not know fails the test. */
    ReferralDocument document() {
        var reading = DocumentFormat.read(json(), TODAY);
        if (!reading.problems().isEmpty()) {
            throw new IllegalArgumentException("not a referral: " + reading.problems() + " in " + this);
        }
        return reading.document();
    }

    /** The result for the document, which is not checked against the published format. */
    TriageResult triage() {
        return Triage.triage(Unchecked.document(json()), Policy.standard(), TODAY);
    }

    @Override
    public String toString() {
        return json().toString();
    }
}
