package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Walking distances in metres. A mile is 1609.344 m, a yard 0.9144 m, a foot 0.3048 m; a block is 300 feet, as the Walking
 * Impairment Questionnaire counts. Of a range the shorter counts.
 */
final class Distances {

    private static final String UNIT = "(metre|yard|feet_unit|feet|foot|block|mile|kilometre|m)";
    private static final String NUMBER =
            "(\\d{1,2}(?: (?:to|or|-) \\d)? hundred|1/[24](?: a| of a)?|3/4(?: of)?(?: a)?|(?:3|three)[ -]quarters?(?: of)?(?: a| an)?|\\d{1,4}(?:\\.\\d+)?(?: 1/[24])?|(?:a )?half(?: of)?(?: a| an)?|(?:a )?quarter(?: of)?(?: a)?|a|an|1)";

    private static final Pattern DISTANCE = Pattern.compile(
            "(?<![\\d.,/]|[a-z])" + NUMBER
                    + "(?<half1> and a half)?(?: ?(?:-|to|or|/|–) ?(\\d{1,4}(?:\\.\\d+)?|1/2))?[ -]?(?:city |street |flat |level |short |good |mere |or so )?"
                    + UNIT
                    + "(?:s|')?(?<half2> and a half)?\\b(?! ?(?:/|per|squared|hg|ulcer|pulse|pain|pressure|clinic|care|/s|drop|wound|down))");

    /** A distance found, with where it stands. */
    record Found(int start, int end, int metres) {}

    private Distances() {}

    static List<Found> in(String plain, int start, int end) {
        var found = new ArrayList<Found>();
        var match = DISTANCE.matcher(plain).region(start, end).useTransparentBounds(true);
        while (match.find()) {
            var article = Fit.matches(match.group(1), "an?");
            var unit = match.group(4);
            if (article && !Fit.matches(unit, "block|mile|kilometre")
                    || Fit.matches(match.group(1), "1|a") && unit.equals("foot")
                    || unit.equals("foot") && number(match.group(1)) < 2) {
                continue;
            }
            var metres = number(match) * perUnit(unit);
            if (metres >= 1 && metres <= 10_000) {
                found.add(new Found(match.start(), match.end(), (int) Math.round(metres)));
                ofOtherLeg(plain, match, end).ifPresent(found::add);
            }
        }
        return found;
    }

    /** "50 metres on the right, 150 on the left": the unit is said once. */
    private static final Pattern OTHER_LEG = Pattern.compile(
            " ?\\(?(?:on |in |for )?(?:the )?(left|right)(?: leg| side| calf)?\\)?[,;]? ?(?:and |but |/ ?)?(?:about |around |only |roughly |some )*"
                    + "(\\d{1,4})(?= ?\\(?(?:on |in |for )?(?:the )?(?:left|right)\\b)");

    private static Optional<Found> ofOtherLeg(String plain, Matcher match, int end) {
        var other = OTHER_LEG.matcher(plain).region(match.end(), end).useTransparentBounds(true);
        return other.lookingAt()
                ? Optional.of(new Found(other.start(2), other.end(2), (int)
                        Math.round(Double.parseDouble(other.group(2)) * perUnit(match.group(4)))))
                : Optional.empty();
    }

    private static double number(Matcher match) {
        var number = number(match.group(1));
        if (match.group(3) != null) {
            number = Math.min(number, number(match.group(3)));
        }
        return match.group("half1") != null || match.group("half2") != null ? number + 0.5 : number;
    }

    private static double number(String words) {
        if (words.endsWith("hundred")) {
            return 100 * Double.parseDouble(words.substring(0, words.indexOf(' ')));
        }
        if (words.contains("half")) {
            return 0.5;
        }
        if (words.startsWith("3/4") || Fit.matches(words, "(?:3|three)[ -]quarter.*")) {
            return 0.75;
        }
        if (words.contains("quarter")) {
            return 0.25;
        }
        if (words.startsWith("1/2")) {
            return 0.5;
        }
        if (words.startsWith("1/4")) {
            return 0.25;
        }
        if (words.endsWith("1/2")) {
            return words.length() == 3 ? 0.5 : Double.parseDouble(words.substring(0, words.indexOf(' '))) + 0.5;
        }
        if (words.endsWith("1/4")) {
            return words.length() == 3 ? 0.25 : Double.parseDouble(words.substring(0, words.indexOf(' '))) + 0.25;
        }
        return words.startsWith("a") ? 1 : Double.parseDouble(words);
    }

    private static double perUnit(String unit) {
        return switch (unit) {
            case "yard" -> 0.9144;
            case "feet_unit", "feet", "foot" -> 0.3048;
            case "block" -> 300 * 0.3048;
            case "mile" -> 1609.344;
            case "kilometre" -> 1000;
            default -> 1;
        };
    }
}
