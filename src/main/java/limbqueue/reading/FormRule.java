package limbqueue.reading;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Forms and tables that answer a complaint for each side: "Rest pain (R/L): no / yes", "Ulcer   none   none". */
final class FormRule implements Rule {

    private static final List<String> TOPICS = List.of("claudication", "rest pain", "ulcer", "wound", "gangrene");
    private static final String ANSWER =
            "(yes|no|none|nil|n|y|0(?![.\\d])|present|absent|denies|\\+|-|\\[ ?x? ?\\](?: no| yes)?|\\( ?x? ?\\)(?: no| yes)?)(?![a-z])";

    private static final Pattern ORDERED = Pattern.compile(
            "\\b(claudication|rest pain|ulcer|wound|gangrene)s? ?\\(?(left|right) ?(?:/|and|,) ?(left|right)\\)? ?[:=-]? ?"
                    + ANSWER + " ?(?:/|,|;|and) ?" + ANSWER);
    private static final Pattern NAMED =
            Pattern.compile("\\b(claudication|rest pain|ulcer|wound|gangrene)s? ?[:?-]? ?(left|right) ?[:=-]? ?"
                    + ANSWER + "[ ,;/]*(left|right) ?[:=-]? ?" + ANSWER);
    private static final String CELL = "((?:yes|no|none|nil|y|n|present|absent)\\b|\\[ ?x? ?\\](?: no\\b| yes\\b)?)";
    private static final Pattern ROW =
            Pattern.compile("^(?!.{0,200}\\b(?:left|right)\\b)(claudication|rest pain|ulcer|wound|gangrene)s? ?:? ?"
                    + CELL + "([^a-z\\[]*(?:[a-z0-9/. ]*?)) " + CELL + "(?! ?[/(])([^\\[\\]]{0,100})$");
    /** Boxes for yes and no, which are no columns of sides. */
    private static final Pattern YES_AND_NO = Pattern.compile("\\] yes\\b.*\\] no\\b|\\] no\\b.*\\] yes\\b");

    @Override
    public void read(Page page, Findings findings) {
        var head = Optional.<List<Side>>empty();
        var since = 0;
        for (var sentence : page.sentences) {
            var sides = TableRule.head(sentence.plain);
            if (sides.isPresent()) {
                head = sides;
                since = sentence.number;
            }
            for (var pattern : List.of(ORDERED, NAMED)) {
                var match = pattern.matcher(sentence.plain);
                while (match.find()) {
                    var first = pattern == ORDERED ? 4 : 3;
                    var sideOne = match.group(2);
                    var sideTwo = pattern == ORDERED ? match.group(3) : match.group(4);
                    answer(
                            match.group(1),
                            sideOne,
                            match.group(first),
                            sentence.span(match.start(), match.end(first)),
                            findings);
                    answer(match.group(1), sideTwo, match.group(5), sentence.span(match, 5), findings);
                }
            }
            var row = ROW.matcher(sentence.plain);
            if (head.isPresent()
                    && sentence.number - since <= 12
                    && row.find()
                    && !YES_AND_NO.matcher(sentence.plain).find()) {
                var first = head.get().get(0);
                var second = head.get().get(1);
                answer(row.group(1), first.word, row.group(2), sentence.span(row, 2), findings);
                answer(row.group(1), second.word, row.group(4), sentence.span(row, 4), findings);
                distance(row.group(1), first, sentence, row.start(3), row.end(3), findings);
                distance(row.group(1), second, sentence, row.start(5), row.end(5), findings);
                wound(sentence, row, head.get(), findings);
            }
        }
    }

    /** "Ulcer   N   Y  lateral forefoot, superficial": what stands behind is of the leg that has one. */
    private static void wound(Sentence sentence, Matcher row, List<Side> head, Findings findings) {
        var first = yes(row.group(2)).orElse(false);
        var second = yes(row.group(4)).orElse(false);
        if (!Fit.matches(row.group(1), "ulcer|wound") || first.equals(second)) {
            return;
        }
        var side = head.get(first ? 0 : 1);
        var text = row.group(5);
        if (!text.isBlank()) {
            var words = sentence.span(row, 5);
            WoundDetails.siteNamed(text).ifPresent(site -> findings.putIfUnknown(side.leg("wound.site"), site, words));
            WoundDetails.depthNamed(text)
                    .ifPresent(depth -> findings.putIfUnknown(side.leg("wound.ulcer"), depth, words));
            WoundDetails.exposureNamed(text)
                    .ifPresent(bare -> findings.putIfUnknown(side.leg("wound.exposes"), bare, words));
        }
        if (findings.words(side.leg("wound.ulcer")).isEmpty()) {
            findings.ask("An ulcer is mentioned: ask how deep it is.", sentence.span(row, 1));
        }
    }

    private static void distance(String topic, Side side, Sentence sentence, int start, int end, Findings findings) {
        if (topic.equals("rest pain")) {
            Durations.in(sentence.plain, start, end).stream()
                    .findFirst()
                    .ifPresent(found -> findings.put(
                            side.leg("restPain.sinceDays"), found.days(), sentence.span(found.start(), found.end())));
        }
        if (topic.equals("claudication")) {
            Distances.in(sentence.plain, start, end).stream()
                    .findFirst()
                    .ifPresent(found -> findings.put(
                            side.leg("claudication.distanceMetres"),
                            found.metres(),
                            sentence.span(found.start(), found.end())));
        }
    }

    private static Optional<Boolean> yes(String answer) {
        if (Fit.matches(answer, "[\\[(] *[\\])](?: yes)?")) {
            return Optional.empty();
        }
        var words = answer.replaceAll("[\\[\\]() ]", "");
        return switch (words) {
            case "yes", "y", "present", "+", "x", "xyes" -> Optional.of(true);
            case "no", "none", "nil", "n", "xno", "0", "absent", "denies", "-" -> Optional.of(false);
            default -> Optional.empty();
        };
    }

    private static void answer(String topic, String side, String answer, Span words, Findings findings) {
        var leg = side.equals("left") ? Side.LEFT : Side.RIGHT;
        yes(answer).ifPresent(present -> {
            switch (topic) {
                case "claudication" -> findings.put(leg.leg("claudication.present"), present, words);
                case "rest pain" -> findings.put(leg.leg("restPain.present"), present, words);
                case "gangrene" -> {
                    if (!present) {
                        findings.put(leg.leg("wound.gangrene"), "none", words);
                    }
                }
                default -> {
                    if (!present) {
                        findings.put(leg.leg("wound.ulcer"), "none", words);
                    }
                }
            }
        });
    }

    /** The legs that a form's line says yes for; empty where the sentence is no such line. */
    static Optional<Set<Side>> present(Sentence sentence, String topic) {
        if (!TOPICS.contains(topic) || !sentence.has(topic)) {
            return Optional.empty();
        }
        for (var pattern : List.of(ORDERED, NAMED)) {
            var match = pattern.matcher(sentence.plain);
            while (match.find()) {
                if (!match.group(1).equals(topic)) {
                    continue;
                }
                var legs = EnumSet.noneOf(Side.class);
                var sideTwo = pattern == ORDERED ? match.group(3) : match.group(4);
                var first = pattern == ORDERED ? match.group(4) : match.group(3);
                if (yes(first).orElse(false)) {
                    legs.add(match.group(2).equals("left") ? Side.LEFT : Side.RIGHT);
                }
                if (yes(match.group(5)).orElse(false)) {
                    legs.add(sideTwo.equals("left") ? Side.LEFT : Side.RIGHT);
                }
                return Optional.of(legs);
            }
        }
        var row = ROW.matcher(sentence.plain);
        return row.find()
                        && row.group(1).equals(topic)
                        && !YES_AND_NO.matcher(sentence.plain).find()
                ? Optional.of(EnumSet.noneOf(Side.class))
                : Optional.empty();
    }
}
