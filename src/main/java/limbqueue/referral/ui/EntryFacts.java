package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import limbqueue.document.Draft;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.YesNo;
import limbqueue.referral.ui.Finding.Gathering;

/** The entries of a list of the document, each in one line. */
final class EntryFacts {

    /** What an entry is, so plain that its label would only be in the way. */
    private static final Set<String> SPEAKS_FOR_ITSELF = Set.of(
            "kind",
            "side",
            "segment",
            "date",
            "where",
            "findings",
            "name",
            "dose",
            "to",
            "test",
            "taken",
            "system",
            "from");

    /** What belongs to the words before it, as a value to its test and a unit to its value. */
    private static final Set<String> CONTINUES = Set.of("value", "unit");

    /** What must be said even when nobody has said it. */
    private static final Set<String> MISSED = Set.of("reportHeld", "imagesHeld", "outcome");

    private EntryFacts() {}

    /**
     * The entries of the list at {@code path}. A list of which nothing is known gives a single finding that is unknown;
     * an empty one says that there are none.
     */
    static List<Finding> of(Draft draft, String path) {
        var entries = FieldWords.definition(path)
                .map(FormField::kind)
                .filter(Entries.class::isInstance)
                .map(Entries.class::cast)
                .orElseThrow(() -> new IllegalArgumentException(path + " is not a list of the form"));
        var size = draft.sizeOf(path);
        if (size.isEmpty()) {
            return List.of(Finding.notKnown());
        }
        if (size.get() == 0) {
            return List.of(new Gathering()
                    .absent(entries.none().toLowerCase(Locale.ROOT))
                    .finding());
        }
        var findings = new ArrayList<Finding>();
        for (var index = 0; index < size.get(); index++) {
            findings.add(entry(draft, path + "[" + index + "]", entries));
        }
        return findings;
    }

    private static Finding entry(Draft draft, String path, Entries entries) {
        var said = new Gathering();
        for (var field : entries.fields()) {
            var at = path + "." + field.path();
            var value = draft.get(at).map(node -> FieldWords.value(at, node)).filter(ReferralPage::stated);
            if (value.isEmpty()) {
                if (MISSED.contains(field.path())) {
                    said.notKnown(field.words());
                }
            } else if (CONTINUES.contains(field.path())) {
                said.onwards(value.get());
            } else if (field.kind() instanceof YesNo) {
                if (value.get().equals("yes")) {
                    said.plain(field.words());
                } else {
                    said.absent(field.words() + ": no");
                }
            } else {
                var words =
                        field.kind() instanceof Choice && !said.isEmpty() ? withinSentence(value.get()) : value.get();
                said.plain(SPEAKS_FOR_ITSELF.contains(field.path()) ? words : field.words() + ": " + words);
            }
        }
        return said.isEmpty() ? Finding.notKnown() : said.finding();
    }

    /** {@code External iliac} becomes {@code external iliac}; {@code CT angiogram} stays. */
    static String withinSentence(String words) {
        return words.length() > 1 && Character.isLowerCase(words.charAt(1))
                ? words.substring(0, 1).toLowerCase(Locale.ROOT) + words.substring(1)
                : words;
    }
}
