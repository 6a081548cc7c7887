package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** One kind of procedure told once for several legs or years: "angioplasty left 2018, right 2020". */
final class ProcedureRun {

    /** One procedure of the run. */
    record Item(int start, int end, Side side, Optional<String> segment) {}

    private static final Pattern ITEM = Pattern.compile(
            "\\G(?: ?[:,;&+/-]+ ?| and | then | ?\\()*+ ?(?:(?:on|of|to|in) )?(?:the )?"
                    + "(?<side>left|right)(?<where>(?: (?!and\\b|then\\b|left\\b|right\\b)[a-z]+){0,4}?),? ?\\(?(?:in )?(?:early |late |(?:january|february|march|april|may|june|july|august|september|october|november|december) )?"
                    + "(?:(?:19|20)\\d\\d|'\\d\\d|\\d{1,2}/(?:19|20)?\\d\\d)\\b(?! ?(?:m|cm|mm|mg|%)\\b)(?:\\)| \\([a-z ]{3,20}\\))?");

    private ProcedureRun() {}

    /** The procedures of the run that begins behind {@code from}; none where there is one procedure only. */
    static List<Item> behind(String plain, int from, int to) {
        var items = new ArrayList<Item>();
        var item = ITEM.matcher(plain).region(from, to).useTransparentBounds(true);
        while (item.find()) {
            var named = Segments.in(plain, item.start("where"), item.end("where"));
            items.add(new Item(
                    item.start("side"),
                    item.end(),
                    item.group("side").equals("left") ? Side.LEFT : Side.RIGHT,
                    named.isEmpty()
                            ? Optional.empty()
                            : Optional.of(named.getFirst().segment())));
        }
        return items.size() > 1 ? items : List.of();
    }
}
