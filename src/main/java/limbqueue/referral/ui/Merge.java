package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import limbqueue.document.Draft;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.triage.Side;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Two versions of one document that two people changed at the same time, and the version both began with. A list is
 * compared as a whole, since its entries have no names by which to tell them apart.
 */
final class Merge {

    private static final JsonMapper JSON = JsonMapper.shared();

    private final ObjectNode base;
    private final ObjectNode theirs;
    private final ObjectNode mine;

    enum Choice {
        THEIRS,
        MINE,
        /** Of a list: the entries of both, each once. */
        BOTH
    }

    /**
     * A value on which the two versions differ.
     *
     * @param suggested the version of whoever changed it; mine where both did, or both for a list
     */
    record Difference(
            String path, Optional<JsonNode> theirs, Optional<JsonNode> mine, boolean canTakeBoth, Choice suggested) {}

    /**
     * @param base the document as it was when the two began
     * @throws IllegalArgumentException if one of them is not a JSON object
     */
    Merge(String base, String theirs, String mine) {
        this.base = object(base);
        this.theirs = object(theirs);
        this.mine = object(mine);
    }

    /** The differences, in the order of the form. */
    List<Difference> differences() {
        return paths().stream()
                .filter(path -> !at(theirs, path).equals(at(mine, path)))
                .map(this::difference)
                .toList();
    }

    /** The document with {@code choices} by path; a difference without a choice is taken as suggested. */
    String merged(Map<String, Choice> choices) {
        var merged = mine.deepCopy();
        for (var difference : differences()) {
            switch (choices.getOrDefault(difference.path(), difference.suggested())) {
                case MINE -> {}
                case THEIRS -> put(merged, difference.path(), difference.theirs());
                case BOTH -> put(merged, difference.path(), Optional.of(both(difference)));
            }
        }
        return JSON.writeValueAsString(merged);
    }

    private Difference difference(String path) {
        var before = at(base, path);
        var theirValue = at(theirs, path);
        var myValue = at(mine, path);
        var lists = theirValue.filter(JsonNode::isArray).isPresent()
                && myValue.filter(JsonNode::isArray).isPresent();
        var suggested = myValue.equals(before)
                ? Choice.THEIRS
                : lists && !theirValue.equals(before) ? Choice.BOTH : Choice.MINE;
        return new Difference(path, theirValue, myValue, lists, suggested);
    }

    private static ArrayNode both(Difference difference) {
        var entries = new LinkedHashSet<JsonNode>();
        difference.theirs().ifPresent(list -> list.forEach(entries::add));
        difference.mine().ifPresent(list -> list.forEach(entries::add));
        var both = JSON.createArrayNode();
        entries.forEach(both::add);
        return both;
    }

    /** Every field of the form, and whatever else the documents hold. */
    private Set<String> paths() {
        var paths = new LinkedHashSet<String>();
        for (var field : ReferralFields.all()) {
            if (field.paired()) {
                for (var side : Side.values()) {
                    paths.add(field.path().replace(FormField.SIDE, side.name().toLowerCase(Locale.ROOT)));
                }
            } else {
                paths.add(field.path());
            }
        }
        var lists = ReferralFields.all().stream()
                .filter(field -> field.kind() instanceof Entries)
                .map(FormField::path)
                .toList();
        for (var path :
                Draft.of(JSON.writeValueAsString(mine)).differencesFrom(Draft.of(JSON.writeValueAsString(theirs)))) {
            if (!path.isEmpty() && path.indexOf('[') < 0 && !lists.contains(path)) {
                paths.add(path);
            }
        }
        return paths;
    }

    private static Optional<JsonNode> at(ObjectNode document, String path) {
        JsonNode node = document;
        for (var name : path.split("\\.", -1)) {
            var child = node.get(name);
            if (child == null || child.isNull()) {
                return Optional.empty();
            }
            node = child;
        }
        return Optional.of(node);
    }

    private static void put(ObjectNode document, String path, Optional<JsonNode> value) {
        var names = new ArrayList<>(List.of(path.split("\\.", -1)));
        var last = names.removeLast();
        var parent = document;
        for (var name : names) {
            parent = parent.get(name) instanceof ObjectNode child ? child : parent.putObject(name);
        }
        if (value.isPresent()) {
            parent.set(last, value.get());
        } else {
            parent.remove(last);
        }
    }

    private static ObjectNode object(String json) {
        if (JSON.readTree(Objects.requireNonNull(json)) instanceof ObjectNode object) {
            return object;
        }
        throw new IllegalArgumentException("the document is not a JSON object");
    }
}
