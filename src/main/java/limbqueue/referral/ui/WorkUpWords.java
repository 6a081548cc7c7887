package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import limbqueue.triage.TriageResult.WorkUpItem;

/** How an item of the work-up stands, in words: needed or held, until when, by whom, and what waits for it. */
final class WorkUpWords {

    private WorkUpWords() {}

    static String standing(WorkUpItem item) {
        var words = new ArrayList<String>();
        words.add(item.validUntil()
                .map(day -> (item.needed() ? "needed; the result held counts until " : "held, counts until ")
                        + TierWords.date(day))
                .orElse(item.needed() ? "needed" : "held"));
        words.add("by: " + item.who().words());
        item.validFor().ifPresent(span -> words.add("counts for " + span));
        if (item.needed() && !item.unlocks().isEmpty()) {
            words.add("holds up " + waiting(item.unlocks()));
        }
        return words.stream().collect(Collectors.joining(" · "));
    }

    /** Who does it; of what is held, how long it counts. What is needed although one is held says so itself. */
    static String inShort(WorkUpItem item) {
        return item.needed()
                ? item.who().words()
                : item.validUntil()
                        .map(day -> "held until " + TierWords.date(day))
                        .orElse("held");
    }

    private static String waiting(List<String> codes) {
        return codes.stream().map(WorkUpWords::of).collect(Collectors.joining(", "));
    }

    /** An item, the plan or the case in a word or two. */
    private static String of(String code) {
        return switch (code) {
            case "access-plan" -> "the plan of access";
            case "procedure" -> "the procedure";
            case "cta-or-mra" -> "CTA or MRA";
            default -> code.toLowerCase(Locale.ROOT).replace('-', ' ');
        };
    }
}
