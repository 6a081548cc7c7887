package limbqueue.referral;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import limbqueue.document.Draft;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * The document of two referrals of one person, place by place. A place is a field, or a list as a whole: entries of two lists
 * have no order in common, and half an entry of each would be a third that nobody wrote.
 */
public final class MergedDocument {

    /** Texts that are worth keeping both of. */
    private static final Set<String> TEXTS = Set.of("letterText", "asked.reason");

    /** What each referral is called, and when it came, stays its own. */
    private static final Set<String> OWN = Set.of("reference", "received");

    private static final String BETWEEN_TEXTS = "\n\n---\n\n";

    /** What the merged document has at a place. */
    public enum Choice {
        WHOLE,
        PART,
        /** Both lists, without what is in both; or both texts, one after the other. */
        BOTH
    }

    /**
     * A place at which the two differ.
     *
     * @param proposed what is known, where only one says something; else what loses nothing, or the whole's
     */
    public record Difference(
            String place, Optional<JsonNode> whole, Optional<JsonNode> part, List<Choice> choices, Choice proposed) {}

    private MergedDocument() {}

    /** Where the two differ, in the order of the format. */
    public static List<Difference> differences(Draft whole, Draft part) {
        return places(whole, part).stream()
                .filter(place -> !OWN.contains(place))
                .map(place -> difference(place, whole.get(place), part.get(place)))
                .toList();
    }

    private static Difference difference(String place, Optional<JsonNode> whole, Optional<JsonNode> part) {
        if (whole.isEmpty()) {
            return new Difference(place, whole, part, List.of(Choice.WHOLE, Choice.PART), Choice.PART);
        }
        if (part.isEmpty()) {
            return new Difference(place, whole, part, List.of(Choice.WHOLE, Choice.PART), Choice.WHOLE);
        }
        var together = whole.get().isArray() && part.get().isArray()
                || TEXTS.contains(place) && whole.get().isString() && part.get().isString();
        return together
                ? new Difference(place, whole, part, List.of(Choice.WHOLE, Choice.PART, Choice.BOTH), Choice.BOTH)
                : new Difference(place, whole, part, List.of(Choice.WHOLE, Choice.PART), Choice.WHOLE);
    }

    /**
     * The document of the whole with the choices made.
     *
     * @param choices by place; where none is made, what is proposed
     */
    public static Draft of(Draft whole, Draft part, Map<String, Choice> choices) {
        var merged = Draft.of(whole.toJson());
        for (var difference : differences(whole, part)) {
            switch (choices.getOrDefault(difference.place(), difference.proposed())) {
                case WHOLE -> {}
                case PART -> merged.putBack(difference.place(), difference.part());
                case BOTH -> merged.putBack(difference.place(), Optional.of(both(difference)));
            }
        }
        return merged;
    }

    private static JsonNode both(Difference difference) {
        var whole = difference.whole().orElseThrow();
        var part = difference.part().orElseThrow();
        if (whole instanceof ArrayNode first) {
            var all = JsonNodeFactory.instance.arrayNode();
            var seen = new LinkedHashSet<JsonNode>();
            first.forEach(seen::add);
            part.forEach(seen::add);
            seen.forEach(all::add);
            return all;
        }
        return JsonNodeFactory.instance.stringNode(whole.stringValue() + BETWEEN_TEXTS + part.stringValue());
    }

    /** The places at which two documents differ; a list counts as one. */
    static List<String> places(Draft one, Draft other) {
        var places = new LinkedHashMap<String, Boolean>();
        for (var path : one.differencesFrom(other)) {
            var entry = path.indexOf('[');
            places.put(entry < 0 ? path : path.substring(0, entry), true);
        }
        return List.copyOf(places.keySet());
    }
}
