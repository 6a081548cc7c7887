package limbqueue.reading;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * The labelled letters, and how well a reading agrees with the labels. A field counts once for each label. Entries of a list
 * are put beside those they agree with best. Numbers agree within 0.5 %, texts without regard to case, blanks and
 * punctuation.
 */
final class Corpus {

    static final Path FOLDER = Path.of("src/test/resources/letters");

    /** Reasons and findings are free text: a reader may give them, nobody can say which words are right. */
    private static final Pattern NOT_COUNTED = Pattern.compile(
            "reference|letterText|asked\\.reason|imaging\\[\\d+]\\.findings|procedures\\[\\d+]\\.reason|deferredElsewhere\\.reason");

    /** A field with its value, as labelled or as read. */
    record Fact(String field, JsonNode value) {
        /** The field without the numbers of list entries. */
        String kind() {
            return field.replaceAll("\\[\\d+]", "[]");
        }
    }

    /** A letter with its labels. */
    record Letter(String name, String text, List<Fact> labels, List<String> words) {}

    /** Of one kind of field: how many labels, how many read, and how many of these agree. */
    static final class Tally {
        int labelled;
        int read;
        int right;

        double precision() {
            return read == 0 ? 1 : right / (double) read;
        }

        double recall() {
            return labelled == 0 ? 1 : right / (double) labelled;
        }
    }

    /** The comparison of one half of the letters. */
    record Score(Map<String, Tally> byField, Tally all, List<String> mistakes) {}

    private Corpus() {}

    static List<Letter> letters(String half) throws IOException {
        var folder = FOLDER.resolve(half);
        var letters = new ArrayList<Letter>();
        if (!Files.isDirectory(folder)) {
            return letters;
        }
        List<Path> files;
        try (var list = Files.list(folder)) {
            files = list.filter(file -> file.toString().endsWith(".txt"))
                    .sorted()
                    .toList();
        }
        for (var file : files) {
            var name = file.getFileName().toString().replaceFirst("\\.txt$", "");
            var labels = new ObjectMapper().readTree(Files.readString(folder.resolve(name + ".labels.json")));
            var facts = new ArrayList<Fact>();
            var words = new ArrayList<String>();
            for (var label : labels.get("found").values()) {
                facts.add(new Fact(label.get("field").asString(), label.get("value")));
                words.add(label.get("words").asString());
            }
            letters.add(new Letter(name, Files.readString(file), facts, words));
        }
        return letters;
    }

    static Score score(List<Letter> letters) {
        var byField = new TreeMap<String, Tally>();
        var all = new Tally();
        var mistakes = new ArrayList<String>();
        for (var letter : letters) {
            var read = LetterReader.read(letter.text()).found().stream()
                    .map(found -> new Fact(found.field(), found.value()))
                    .filter(fact -> !NOT_COUNTED.matcher(fact.field()).matches())
                    .toList();
            var labels = letter.labels().stream()
                    .filter(fact -> !NOT_COUNTED.matcher(fact.field()).matches())
                    .toList();
            compare(letter.name(), labels, aligned(labels, read), byField, all, mistakes);
        }
        return new Score(byField, all, mistakes);
    }

    private static void compare(
            String letter,
            List<Fact> labels,
            List<Fact> read,
            Map<String, Tally> byField,
            Tally all,
            List<String> mistakes) {
        var left = new ArrayList<>(read);
        for (var label : labels) {
            var tally = byField.computeIfAbsent(label.kind(), _ -> new Tally());
            tally.labelled++;
            all.labelled++;
            var same = left.stream()
                    .filter(fact -> fact.field().equals(label.field()) && agree(fact.value(), label.value()))
                    .findFirst();
            if (same.isPresent()) {
                left.remove(same.get());
                tally.right++;
                tally.read++;
                all.right++;
                all.read++;
            } else {
                mistakes.add(letter + "  missed  " + label.field() + " = " + label.value());
            }
        }
        for (var wrong : left) {
            byField.computeIfAbsent(wrong.kind(), _ -> new Tally()).read++;
            all.read++;
            mistakes.add(letter + "  wrong   " + wrong.field() + " = " + wrong.value());
        }
    }

    /** The facts read, with list entries numbered as the labelled entries that they agree with best. */
    private static List<Fact> aligned(List<Fact> labels, List<Fact> read) {
        var lists = new TreeMap<String, Map<Integer, List<Fact>>>();
        read.forEach(fact -> entry(fact)
                .ifPresent(place -> lists.computeIfAbsent(place.list(), _ -> new TreeMap<>())
                        .computeIfAbsent(place.index(), _ -> new ArrayList<>())
                        .add(fact)));
        var aligned = new ArrayList<Fact>();
        read.stream().filter(fact -> entry(fact).isEmpty()).forEach(aligned::add);
        lists.forEach((list, entries) -> aligned.addAll(alignedList(list, entries, labels)));
        return aligned;
    }

    private record Pair(int read, int label, int same) {}

    private static List<Fact> alignedList(String list, Map<Integer, List<Fact>> entries, List<Fact> labels) {
        var labelled = new TreeMap<Integer, List<Fact>>();
        labels.forEach(fact -> entry(fact)
                .filter(place -> place.list().equals(list))
                .ifPresent(place -> labelled.computeIfAbsent(place.index(), _ -> new ArrayList<>())
                        .add(fact)));
        var pairs = new ArrayList<Pair>();
        entries.forEach((index, facts) -> labelled.forEach((other, theirs) -> {
            var same = (int) facts.stream()
                    .filter(fact -> theirs.stream()
                            .anyMatch(label -> label.kind().equals(fact.kind()) && agree(label.value(), fact.value())))
                    .count();
            if (same > 0) {
                pairs.add(new Pair(index, other, same));
            }
        }));
        pairs.sort(Comparator.comparingInt(Pair::same)
                .reversed()
                .thenComparingInt(pair -> Math.abs(pair.read() - pair.label())));
        var numbers = new TreeMap<Integer, Integer>();
        var taken = new HashSet<Integer>();
        for (var pair : pairs) {
            if (!numbers.containsKey(pair.read()) && taken.add(pair.label())) {
                numbers.put(pair.read(), pair.label());
            }
        }
        var aligned = new ArrayList<Fact>();
        var free = 10_000;
        for (var entry : entries.entrySet()) {
            var number = numbers.getOrDefault(entry.getKey(), free++);
            for (var fact : entry.getValue()) {
                aligned.add(new Fact(
                        list + "[" + number + "]"
                                + fact.field().substring(fact.field().indexOf(']') + 1),
                        fact.value()));
            }
        }
        return aligned;
    }

    private record Place(String list, int index) {}

    private static java.util.Optional<Place> entry(Fact fact) {
        var open = fact.field().indexOf('[');
        return open < 0
                ? java.util.Optional.empty()
                : java.util.Optional.of(new Place(
                        fact.field().substring(0, open),
                        Integer.parseInt(
                                fact.field().substring(open + 1, fact.field().indexOf(']')))));
    }

    static boolean agree(JsonNode one, JsonNode two) {
        if (one.isNumber() && two.isNumber()) {
            return Math.abs(one.asDouble() - two.asDouble()) <= 0.005 * Math.abs(two.asDouble()) + 1e-9;
        }
        if (one.isString() && two.isString()) {
            return folded(one.asString()).equals(folded(two.asString()));
        }
        return one.equals(two);
    }

    private static String folded(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("[\\s\\p{Punct}\u2018\u2019\u201c\u201d\u2013\u2014]+", "");
    }
}
