package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** The part of a form that asks about one wound, each answer behind its label: side, site, duration, depth, spreading. */
final class WoundFormRule implements Rule {

    /** So many lines a form gives to one wound, at most. */
    private static final int LINES = 12;

    private static final Pattern BEGINS =
            Pattern.compile("(?:wound|ulcer|foot ulcer|tissue loss)(?: details| assessment)? ?:?"
                    + "|.*[\\[(] ?[x\u2713\u2714] ?[\\])] ?(?:non-?healing |open |chronic )?(?:wound|ulcer)\\b.*"
                    + "|wound (?:left|right): (?:none|nil)");
    private static final Pattern ENDS = Pattern.compile(
            "(?:[*-] ?)?(?:pulses?|claudication|rest pain|abi|history|medication|allergy|diabetes|risk factors|investigations|comments?)\\b.*");

    private static final String OF_WOUND = "(?:wound |ulcer )?";
    private static final Pattern SIDE = label("(?:which |affected )?(?:side|foot|leg|limb)(?: affected)?");
    private static final Pattern SITE =
            label(OF_WOUND + "(?:site|where|location|position)(?: of (?:the )?(?:wound|ulcer))?");
    private static final Pattern DURATION =
            label(OF_WOUND + "(?:duration|how long|age|present (?:for|since)|since|time present)");
    private static final Pattern DEPTH = label(OF_WOUND + "depth");
    private static final Pattern SPREADING = label(
            "(?:is it )?(?:spreading|getting (?:any )?(?:bigger|larger)|(?:bigger|larger) than [a-z ]{3,20}|increasing in size)");
    private static final Pattern INFECTION = label("(?:signs of )?(?:local )?infection(?: signs)?");
    private static final Pattern LEADING_SIDE = Pattern.compile("^(left|right)(?: leg| foot)? ?[:-] ?");

    private static final Pattern SIGN =
            Pattern.compile("\\b(?:swelling|erythema|redness|warmth|heat|pus|discharge|pain|tenderness)\\b");
    private static final Pattern TICKED_SIGN = Pattern.compile(SIGN.pattern() + " ?[\\[(] ?[xy\u2713\u2714] ?[\\])]");
    private static final Pattern TICKED_BEHIND = Pattern.compile("\\b(left|right) ?[\\[(] ?[xy\u2713\u2714] ?[\\])]");
    private static final Pattern TICKED_BEFORE = Pattern.compile("[\\[(] ?[xy\u2713\u2714] ?[\\])] ?(left|right)\\b");
    private static final Pattern ANY_BOX = Pattern.compile("[\\[(] ?[xy\u2713\u2714]? ?[\\])]|[\u2610\u2611\u2612]");

    private record Answer(Sentence sentence, int start, int end) {
        String text() {
            return sentence.plain.substring(start, end);
        }

        Span words() {
            return sentence.span(start, end);
        }
    }

    private static Pattern label(String words) {
        return Pattern.compile("^" + words + "(?: ?[:?]+ ?| (?=\\S))");
    }

    @Override
    public void read(Page page, Findings findings) {
        var begun = -2 * LINES;
        Set<Side> side = Set.of();
        for (var sentence : page.sentences) {
            if (BEGINS.matcher(sentence.plain).matches()) {
                begun = sentence.number;
                side = Set.of();
            } else if (sentence.number - begun > LINES
                    || ENDS.matcher(sentence.plain).matches()) {
                begun = -2 * LINES;
            } else {
                for (var piece : pieces(sentence)) {
                    side = read(page, piece, side, findings);
                }
            }
        }
    }

    private static List<Answer> pieces(Sentence sentence) {
        var pieces = new ArrayList<Answer>();
        var at = 0;
        for (var piece : sentence.plain.split("; ?", 0)) {
            var start = sentence.plain.indexOf(piece, at);
            at = start + piece.length();
            if (!piece.isBlank()) {
                pieces.add(new Answer(sentence, start, at));
            }
        }
        return pieces;
    }

    /** What stands behind {@code label}, in the same line or in the next where the label is a question. */
    private static Optional<Answer> answer(Page page, Answer piece, Pattern label) {
        var match = label.matcher(piece.text());
        if (match.find() && match.end() < piece.text().length()) {
            return Optional.of(new Answer(piece.sentence(), piece.start() + match.end(), piece.end()));
        }
        return match.reset().find() && piece.text().endsWith("?")
                ? page.after(piece.sentence())
                        .filter(next -> next.paragraph == piece.sentence().paragraph)
                        .map(next -> new Answer(next, 0, next.plain.length()))
                : Optional.empty();
    }

    /** Reads one line of the form; gives the leg that the next lines are about. */
    private static Set<Side> read(Page page, Answer line, Set<Side> known, Findings findings) {
        var leading = LEADING_SIDE.matcher(line.text());
        var piece = line;
        var side = known;
        if (leading.find()) {
            side = of(leading.group(1));
            piece = new Answer(line.sentence(), line.start() + leading.end(), line.end());
        }
        var named = answer(page, piece, SIDE).map(Answer::text).map(WoundFormRule::sides);
        if (named.isPresent()) {
            return named.get();
        }
        var site = answer(page, piece, SITE);
        if (site.isPresent()) {
            var ofSite = sides(site.get().text());
            side = ofSite.isEmpty() ? side : ofSite;
            enter(side, "wound.site", WoundDetails.siteNamed(site.get().text()), site.get(), findings);
        }
        var depth = answer(page, piece, DEPTH);
        if (depth.isPresent()) {
            enter(side, "wound.ulcer", WoundDetails.depthNamed(depth.get().text()), depth.get(), findings);
            enter(side, "wound.exposes", WoundDetails.exposureNamed(depth.get().text()), depth.get(), findings);
        }
        var duration = answer(page, piece, DURATION);
        if (duration.isPresent()) {
            var text = duration.get().text();
            enter(
                    side,
                    "wound.sinceDays",
                    Durations.in(text, 0, text.length()).stream()
                            .map(Durations.Found::days)
                            .findFirst(),
                    duration.get(),
                    findings);
        }
        var spreading = answer(page, piece, SPREADING);
        if (spreading.isPresent()) {
            enter(side, "wound.spreading", yesOrNo(spreading.get().text()), spreading.get(), findings);
        }
        var infection = answer(page, piece, INFECTION);
        if (infection.isPresent() && ANY_BOX.matcher(infection.get().text()).find()) {
            var ticked =
                    (int) TICKED_SIGN.matcher(infection.get().text()).results().count();
            enter(
                    side,
                    "infection.localSigns",
                    ticked == 0 ? Optional.empty() : Optional.of(ticked),
                    infection.get(),
                    findings);
        }
        return side;
    }

    private static void enter(
            Set<Side> side, String field, Optional<? extends Object> value, Answer answer, Findings findings) {
        if (side.size() == 1) {
            value.ifPresent(
                    found -> findings.putIfUnknown(side.iterator().next().leg(field), found, answer.words()));
        }
    }

    private static Optional<Boolean> yesOrNo(String text) {
        if (Fit.matches(text, "(?s)(?:yes|y)\\b.*")) {
            return Optional.of(true);
        }
        return Fit.matches(text, "(?s)(?:no|n)\\b.*") ? Optional.of(false) : Optional.empty();
    }

    private static Set<Side> of(String word) {
        return EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT);
    }

    /** The one leg that a line names or ticks; none where it names both without a tick. */
    private static Set<Side> sides(String text) {
        var boxes = ANY_BOX.matcher(text);
        if (boxes.find()) {
            var ticked = (boxes.start() == 0 ? TICKED_BEFORE : TICKED_BEHIND)
                    .matcher(text)
                    .results()
                    .toList();
            return ticked.size() == 1 ? of(ticked.getFirst().group(1)) : Set.of();
        }
        var left = Fit.matches(text, "(?s).*\\bleft\\b.*");
        var right = Fit.matches(text, "(?s).*\\bright\\b.*");
        return left == right ? Set.of() : of(left ? "left" : "right");
    }
}
