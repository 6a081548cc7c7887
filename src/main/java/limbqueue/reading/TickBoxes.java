package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** The boxes of a form beside the answers to choose from: "[ ] routine [x] urgent", "Current [x]  Ex [ ]  Never [ ]". */
final class TickBoxes {

    private static final String TICK = "[xy\u2713\u2714*]";
    private static final Pattern BOX = Pattern.compile(
            "\\[ ?" + TICK + "? ?\\]|\\( ?" + TICK + "? ?\\)|[\u2610\u2611\u2612\u2714\u2713](?! ?[\\])])");
    private static final Pattern TICKED =
            Pattern.compile("\\[ ?" + TICK + " ?\\]|\\( ?" + TICK + " ?\\)|[\u2611\u2612\u2714\u2713]");
    private static final Pattern YES_OR_NO = Pattern.compile("^(?:(yes|y)|(no|n))\\b(?![ /]+a\\b)(.*)");

    /** An answer with its box, from {@code start} to {@code end} of the sentence with its box. */
    record Option(String words, boolean ticked, int start, int end) {}

    private TickBoxes() {}

    /** The answers behind {@code from}; empty where no boxes are. Whether a box stands before or behind its words is seen from the first. */
    static List<Option> in(String plain, int from) {
        var options = new ArrayList<Option>();
        var box = BOX.matcher(plain).region(from, plain.length());
        var starts = new ArrayList<Integer>();
        var ends = new ArrayList<Integer>();
        while (box.find()) {
            starts.add(box.start());
            ends.add(box.end());
        }
        if (starts.isEmpty()) {
            return options;
        }
        var first = boxFirst(plain, from, starts, ends);
        for (var i = 0; i < starts.size(); i++) {
            var start = first ? ends.get(i) : i == 0 ? from : ends.get(i - 1);
            var end = first ? i + 1 < starts.size() ? starts.get(i + 1) : plain.length() : starts.get(i);
            var words = plain.substring(start, end).replaceAll("^[ ,;:/|?.*-]+|[ ,;:/|*-]+$", "");
            var ticked =
                    TICKED.matcher(plain.substring(starts.get(i), ends.get(i))).matches();
            options.add(new Option(words, ticked, Math.min(start, starts.get(i)), Math.max(end, ends.get(i))));
        }
        return options;
    }

    private static boolean boxFirst(String plain, int from, List<Integer> starts, List<Integer> ends) {
        var lead = plain.substring(from, starts.getFirst()).strip();
        if (starts.size() > 1
                && plain.substring(ends.get(0), starts.get(1)).strip().endsWith(":")) {
            return false;
        }
        return lead.isEmpty() || Fit.matches(lead, "[:?.=-]+|[^:]*:");
    }

    /** The one answer ticked of those behind {@code from}; empty where none is, or more than one. */
    static Optional<Option> ticked(String plain, int from) {
        var ticked = in(plain, from).stream().filter(Option::ticked).toList();
        return ticked.size() == 1 ? Optional.of(ticked.getFirst()) : Optional.empty();
    }

    /**
     * What boxes for yes and no behind {@code from} answer; the outer is empty where no such boxes are, the inner where none
     * or both are ticked.
     */
    static Optional<Optional<Boolean>> yesOrNo(String plain, int from) {
        var yes = new ArrayList<Boolean>();
        var answers = 0;
        var options = in(plain, from);
        for (var option : options) {
            var match = YES_OR_NO.matcher(option.words());
            if (!match.find()) {
                break;
            }
            answers++;
            if (option.ticked()) {
                yes.add(match.group(1) != null);
            }
            if (!match.group(3).isBlank() || answers == 2) {
                break;
            }
        }
        if (answers == 0 || answers == 1 && yes.isEmpty()) {
            return answers == 0 || options.size() > 1 ? Optional.empty() : Optional.of(Optional.empty());
        }
        return Optional.of(yes.size() == 1 ? Optional.of(yes.getFirst()) : Optional.empty());
    }

    /** Whether the answer in which the words from {@code start} to {@code end} stand is ticked; empty where they are none. */
    static Optional<Boolean> isTicked(String plain, int start, int end) {
        return in(plain, 0).stream()
                .filter(option -> option.start() <= start && option.end() >= end)
                .filter(option -> option.words().length() <= end - start + 24)
                .map(Option::ticked)
                .findFirst();
    }
}
