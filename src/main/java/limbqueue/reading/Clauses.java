package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Where one statement of a sentence ends and the next begins. A comma is no such place: it also parts the items of a list. */
final class Clauses {

    private static final Pattern BORDER = Pattern.compile(
            "; ?|(?<!\\bdenies)(?<!\\bdenied)(?<!\\bnegative for)(?<!\\bno): (?=[a-z])| - (?!\\d)|,? (?:but|however|although|though|whereas|while|whilst|(?<!not )yet|except|otherwise)\\b|"
                    + ",? and (?=(?:he|she|they|it|there|this|that|has|is|was|are|were|now|then|the (?:left|right)|on the)\\b)|"
                    + ", (?=(?:he|she|they|it|there|this|which|who|has|is|was|now|then|i|we)\\b)|[.!?]+ ");

    private Clauses() {}

    static List<Integer> starts(String plain) {
        var starts = new ArrayList<Integer>();
        starts.add(0);
        var border = BORDER.matcher(plain);
        while (border.find()) {
            if (border.start() > 0) {
                starts.add(border.end());
            }
        }
        return starts;
    }
}
