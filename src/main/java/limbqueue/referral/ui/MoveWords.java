package limbqueue.referral.ui;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.referral.Move;
import limbqueue.referral.Moved;
import limbqueue.referral.Placing;

/** What moved, from what to what, since when and why, in words. */
final class MoveWords {

    private MoveWords() {}

    /** One sentence for each of: the urgency with its date, and the red flags. */
    static List<String> difference(Placing before, Placing after) {
        var sentences = new ArrayList<String>();
        if (before.tier() != after.tier()) {
            sentences.add("Urgency was " + place(before) + ", now is " + place(after) + ".");
        } else if (!before.targetDate().equals(after.targetDate())) {
            sentences.add(
                    "The target date was " + date(before.targetDate()) + ", now is " + date(after.targetDate()) + ".");
        }
        after.flags().stream()
                .filter(flag -> !before.flags().contains(flag))
                .forEach(flag -> sentences.add("New red flag: " + FlagWords.inShort(flag) + "."));
        before.flags().stream()
                .filter(flag -> !after.flags().contains(flag))
                .forEach(flag -> sentences.add("Red flag withdrawn: " + FlagWords.inShort(flag) + "."));
        return List.copyOf(sentences);
    }

    /** The same as short as a line of the queue needs it. */
    static String inShort(Moved moved) {
        var before = moved.before();
        var after = moved.after();
        if (before.tier() != after.tier()) {
            return "moved: was " + TierWords.inSentence(before.tier());
        }
        if (!before.targetDate().equals(after.targetDate())) {
            return "moved: was "
                    + before.targetDate()
                            .map(day -> "by " + TierWords.date(day))
                            .orElse("without a date");
        }
        return "moved: red flags";
    }

    /** Why, each cause once: {@code a day passed; the policy is now policy-2}. */
    static String why(Moved moved) {
        return moved.steps().stream().map(MoveWords::why).distinct().collect(Collectors.joining("; "));
    }

    private static String why(Move move) {
        return switch (move.cause()) {
            case DAY -> "a day passed";
            case POLICY -> "the policy is now " + move.policy();
            case RULE_BOOK -> "the rules are those of a newer version of LimbQueue";
            case RESULT -> move.author().orElse("somebody") + " entered something";
        };
    }

    private static String place(Placing placing) {
        return TierWords.inSentence(placing.tier())
                + placing.targetDate().map(day -> ", by " + TierWords.date(day)).orElse("");
    }

    private static String date(Optional<LocalDate> day) {
        return day.map(TierWords::date).orElse("none");
    }
}
