package limbqueue.reading;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * What the rules have found so far. Of two values for one field the better founded stays; of two that are equally well
 * founded none does, and the contradiction is left to a person.
 */
final class Findings {

    /** How well a finding is tied to its leg or its field, weakest first. */
    enum Ground {
        /** A denial that names no side and so is about both legs. */
        GENERAL,
        /** The side is that of what was said before. */
        CARRIED,
        /** The side stands in the same sentence. */
        SENTENCE,
        /** The side stands with the finding. */
        WORDS
    }

    private record Value(JsonNode node, Span words, Ground ground) {}

    /** An entry of a list, such as one medicine. */
    static final class Entry {
        private final Map<String, Value> fields = new LinkedHashMap<>();
        private final int order;

        private Entry(int order) {
            this.order = order;
        }

        /** Sets a field that is not known yet. */
        Entry put(String field, Object value, Span words) {
            fields.putIfAbsent(field, new Value(node(value), words, Ground.WORDS));
            return this;
        }

        /** Sets a field, whatever was known of it. */
        void replace(String field, Object value, Span words) {
            fields.put(field, new Value(node(value), words, Ground.WORDS));
        }

        boolean has(String field) {
            return fields.containsKey(field);
        }

        Optional<String> text(String field) {
            return Optional.ofNullable(fields.get(field))
                    .map(value -> value.node().asString());
        }

        Optional<Span> words(String field) {
            return Optional.ofNullable(fields.get(field)).map(Value::words);
        }

        private int start() {
            return fields.values().stream()
                    .mapToInt(value -> value.words().start())
                    .min()
                    .orElse(Integer.MAX_VALUE);
        }
    }

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private final Map<String, Value> single = new LinkedHashMap<>();
    private final Set<String> contradicted = new HashSet<>();
    private final Map<String, List<Entry>> lists = new LinkedHashMap<>();
    private final List<ReadLetter.Unclear> unclear = new ArrayList<>();

    void put(String field, Object value, Span words) {
        put(field, value, words, Ground.WORDS);
    }

    void put(String field, Object value, Span words, Ground ground) {
        var found = new Value(node(value), words, ground);
        var known = single.get(field);
        if (known == null || ground.compareTo(known.ground()) > 0) {
            single.put(field, found);
            contradicted.remove(field);
        } else if (ground == known.ground() && !known.node().equals(found.node())) {
            contradicted.add(field);
        }
    }

    /** Sets {@code field} unless something is known of it. */
    void putIfUnknown(String field, Object value, Span words) {
        if (!single.containsKey(field)) {
            put(field, value, words, Ground.CARRIED);
        }
    }

    Optional<JsonNode> get(String field) {
        return contradicted.contains(field)
                ? Optional.empty()
                : Optional.ofNullable(single.get(field)).map(Value::node);
    }

    Optional<Span> words(String field) {
        return Optional.ofNullable(single.get(field)).map(Value::words);
    }

    boolean isTrue(String field) {
        return get(field)
                .filter(JsonNode::isBoolean)
                .map(JsonNode::booleanValue)
                .orElse(false);
    }

    void forget(String field) {
        single.remove(field);
        contradicted.remove(field);
    }

    Entry add(String list) {
        var entries = lists.computeIfAbsent(list, _ -> new ArrayList<>());
        var entry = new Entry(entries.size());
        entries.add(entry);
        return entry;
    }

    void remove(String list, Entry entry) {
        lists.getOrDefault(list, new ArrayList<>()).remove(entry);
    }

    List<Entry> entries(String list) {
        return List.copyOf(lists.getOrDefault(list, List.of()));
    }

    void ask(String sentence, Span words) {
        if (unclear.stream().noneMatch(known -> known.sentence().equals(sentence))) {
            unclear.add(new ReadLetter.Unclear(sentence, words.start(), words.end()));
        }
    }

    List<ReadLetter.Unclear> unclear() {
        return unclear.stream()
                .sorted(Comparator.comparingInt(ReadLetter.Unclear::start))
                .toList();
    }

    /** The fields in the order of the letter, the entries of lists numbered in that order. */
    List<FoundField> inOrder() {
        var found = new ArrayList<FoundField>();
        single.forEach((field, value) -> {
            if (contradicted.contains(field)) {
                ask("The letter says two different things of this. Read it and enter what holds.", value.words());
            } else {
                found.add(field(field, value));
            }
        });
        lists.forEach((list, entries) -> {
            var sorted = entries.stream()
                    .filter(entry -> !entry.fields.isEmpty())
                    .sorted(Comparator.comparingInt(Entry::start).thenComparingInt(entry -> entry.order))
                    .limit(200)
                    .toList();
            for (var i = 0; i < sorted.size(); i++) {
                var path = list + "[" + i + "].";
                sorted.get(i).fields.forEach((name, value) -> found.add(field(path + name, value)));
            }
        });
        found.sort(Comparator.comparingInt(FoundField::start).thenComparing(FoundField::field));
        return found;
    }

    private static FoundField field(String path, Value value) {
        return new FoundField(
                path, value.node(), value.words().start(), value.words().end());
    }

    private static JsonNode node(Object value) {
        return switch (value) {
            case String text -> NODES.stringNode(text);
            case Boolean answer -> NODES.booleanNode(answer);
            case Integer whole -> NODES.numberNode(whole.intValue());
            case BigDecimal number -> number(number);
            case Double number -> number(BigDecimal.valueOf(number));
            default -> throw new IllegalArgumentException("not a value of the format: " + value);
        };
    }

    private static JsonNode number(BigDecimal number) {
        var plain = number.stripTrailingZeros();
        return plain.scale() <= 0 && plain.precision() - plain.scale() < 10
                ? NODES.numberNode(plain.intValueExact())
                : NODES.numberNode(plain);
    }
}
