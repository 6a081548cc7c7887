package limbqueue.referral.ui;

import java.util.List;
import limbqueue.document.Draft;

/** What differs between two versions of a document, in words. */
final class DocumentChanges {

    /** One value that differs. */
    record Change(String field, String before, String now) {}

    private DocumentChanges() {}

    /** Every value that is not the same in both, in the order of the format. */
    static List<Change> between(Draft before, Draft now) {
        return now.differencesFrom(before).stream()
                .map(path -> new Change(FieldWords.of(path), value(before, path), value(now, path)))
                .toList();
    }

    /** The value at {@code path} in words; {@code not known} when there is none. */
    static String value(Draft draft, String path) {
        return draft.get(path).map(value -> FieldWords.value(path, value)).orElse("not known");
    }
}
