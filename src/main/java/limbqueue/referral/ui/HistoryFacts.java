package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limbqueue.document.Draft;
import limbqueue.referral.ui.FieldKind.YesNo;

/**
 * The history in three groups, so that a no and a silence are never mistaken for each other.
 *
 * @param present answered with yes, or with a value
 * @param absent answered with no
 * @param notKnown not answered
 */
record HistoryFacts(List<String> present, List<String> absent, List<String> notKnown) {

    static HistoryFacts of(Draft draft) {
        var present = new ArrayList<String>();
        var absent = new ArrayList<String>();
        var notKnown = new ArrayList<String>();
        for (var field : ReferralFields.all()) {
            if (!field.path().startsWith("history.")) {
                continue;
            }
            var value = draft.get(field.path()).map(node -> FieldWords.value(field.path(), node));
            if (value.isEmpty()) {
                notKnown.add(field.words());
            } else if (!(field.kind() instanceof YesNo)) {
                present.add(field.words() + ": " + value.get().toLowerCase(Locale.ROOT));
            } else if (value.get().equals("no")) {
                absent.add(field.words());
            } else {
                present.add(field.words());
            }
        }
        return new HistoryFacts(List.copyOf(present), List.copyOf(absent), List.copyOf(notKnown));
    }
}
