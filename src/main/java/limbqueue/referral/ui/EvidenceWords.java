package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.Draft;

/** The facts that a conclusion rests on, each with its value. */
final class EvidenceWords {

    private static final Pattern LAB_VALUE = Pattern.compile("labs\\[\\d+]\\.value");

    /**
     * @param path where it stands in the document
     * @param value empty when nobody has said
     */
    record Fact(String path, String field, Optional<String> value) {

        String sentence() {
            return field + ": " + value.orElse("not known");
        }
    }

    private EvidenceWords() {}

    /** A path that names a part of the document, as {@code legs.left.acute}, stands for every value typed in it. */
    static List<Fact> of(List<String> paths, Draft draft) {
        var facts = new ArrayList<Fact>();
        paths.forEach(path -> add(facts, path, draft));
        return facts.stream().distinct().toList();
    }

    static String sentence(List<String> paths, Draft draft) {
        return of(paths, draft).stream().map(Fact::sentence).collect(Collectors.joining("; "));
    }

    private static void add(List<Fact> facts, String path, Draft draft) {
        var node = draft.get(path);
        if (node.isPresent() && node.get().isObject()) {
            node.get().propertyNames().forEach(name -> add(facts, path + "." + name, draft));
        } else if (node.isPresent() && node.get().isArray() && !node.get().isEmpty()) {
            for (var index = 0; index < node.get().size(); index++) {
                add(facts, path + "[" + index + "]", draft);
            }
        } else if (LAB_VALUE.matcher(path).matches() && node.isPresent()) {
            facts.add(lab(path.substring(0, path.lastIndexOf('.')), draft));
        } else {
            facts.add(new Fact(
                    path,
                    name(path),
                    node.map(value -> FieldWords.value(path, value)).filter(words -> !words.isBlank())));
        }
    }

    /** The test with its value and unit, where the number alone would say nothing. */
    private static Fact lab(String entry, Draft draft) {
        var value = Stream.of("value", "unit")
                .flatMap(field -> draft.get(entry + "." + field).stream()
                        .map(node -> FieldWords.value(entry + "." + field, node)))
                .collect(Collectors.joining(" "));
        var test = draft.get(entry + ".test").map(node -> FieldWords.value(entry + ".test", node));
        return new Fact(entry, test.orElse("laboratory result"), Optional.of(value));
    }

    /** The words for a field; for a part of which nothing is known, the title under which the form asks for it. */
    private static String name(String path) {
        if (FieldWords.definition(path).isPresent()) {
            return FieldWords.of(path);
        }
        for (var side : GradeWords.AS_PATIENT_FACES) {
            var word = GradeWords.side(side);
            var form = path.replace("legs." + word, "legs." + FormField.SIDE);
            for (var section : ReferralFields.SECTIONS) {
                if (!form.equals(path)
                        && section.fields().stream()
                                .anyMatch(field -> field.path().startsWith(form + "."))) {
                    return word + " leg, " + section.title().toLowerCase(Locale.ROOT);
                }
            }
        }
        return FieldWords.of(path);
    }
}
