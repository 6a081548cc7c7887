package limbqueue.reading;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.regex.Pattern;

/** Height in whole centimetres, weight in kilograms to one decimal. An inch is 2.54 cm, a pound 0.45359237 kg, a stone 14 pounds. */
final class BodyRule implements Rule {

    private static final Pattern HEIGHT_CM = Pattern.compile(
            "\\b(?:height|tall|stands)\\b[ :=]*(?:is |of |about )*(\\d{3}(?:\\.\\d)?) ?cm\\b|\\b(\\d{3}(?:\\.\\d)?) ?cm (?:tall|height|in height)\\b|(?<![\\d.,/x])(?<! x )(1[2-9]\\d|2[01]\\d) ?cm(?= ?(?:[,/;]|and)? ?\\d{2,3}(?:\\.\\d)? ?kg)|\\bheight[ :=]*(?:is |of )*(\\d{3})(?= ?(?:,|;|\\.|weight|$|/))");
    private static final Pattern HEIGHT_M = Pattern.compile(
            "\\b(?:height|tall|stands)\\b[ :=]*(?:is |of |about )*([12]\\.\\d{1,2}) ?(?:m|metre)\\b|\\b([12]\\.\\d{1,2}) ?(?:m|metre) tall\\b");
    private static final String INCHES = "(\\d{1,2}(?:\\.5|\u00bd| 1/2)?) ?(?:in\\b|inches|inch|\"|'')?";
    private static final String HEIGHT_ENDS = " ?\\.?(?: tall| in height|,|;|\\.| and|$|\\)| ?\\(| weigh| weight|/)";
    private static final Pattern HEIGHT_FEET =
            Pattern.compile("(?<![\\d/.])([4-6]) ?(?:ft|feet_unit|feet|foot|')\\.? ?,? ?(?:" + INCHES + "(?="
                    + HEIGHT_ENDS + "| \\d)|(?=" + HEIGHT_ENDS + "))");
    private static final Pattern WEIGHT_KG = Pattern.compile(
            "\\b(?:weighs?|weight|wt|weighing)\\b[ :=]*(?:is |of |about |currently |today |was )*(\\d{2,3}(?:\\.\\d{1,2})?) ?(?:kg|kgs|kilos?|kilograms?)\\b|(?<![\\d.])(\\d{2,3}(?:\\.\\d{1,2})?) ?(?:kg|kgs|kilos?|kilograms?)\\b(?! ?/)(?! (?:lost|loss|lighter|heavier|weight (?:loss|gain)|of))");
    private static final Pattern WEIGHT_POUNDS = Pattern.compile(
            "(?<![\\d.])(\\d{2,3}(?:\\.\\d)?) ?(?:lb|lbs|pounds?|#)(?![a-z])(?! ?(?:lost|loss|weight (?:loss|gain)|lighter|heavier))");
    private static final Pattern WEIGHT_STONE = Pattern.compile(
            "(?<![\\d.])(\\d{1,2}) ?(?:st|stone)\\b(?: ?(\\d{1,2}) ?(?:lb|lbs|pounds?)?)?(?! (?:lost|loss))");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            if (plain.chars().noneMatch(Character::isDigit) || sentence.section == Sentence.Section.FAMILY) {
                continue;
            }
            height(sentence, findings);
            weight(sentence, findings);
        }
    }

    private static void height(Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var cm = HEIGHT_CM.matcher(plain);
        if (cm.find()) {
            var text = cm.group(1) != null
                    ? cm.group(1)
                    : cm.group(2) != null ? cm.group(2) : cm.group(3) != null ? cm.group(3) : cm.group(4);
            put(sentence, "heightCm", new BigDecimal(text), cm.start(), cm.end(), findings, 120, 230);
            return;
        }
        var metres = HEIGHT_M.matcher(plain);
        if (metres.find()) {
            var text = metres.group(1) != null ? metres.group(1) : metres.group(2);
            put(
                    sentence,
                    "heightCm",
                    new BigDecimal(text).movePointRight(2),
                    metres.start(),
                    metres.end(),
                    findings,
                    120,
                    230);
            return;
        }
        var feet = HEIGHT_FEET.matcher(plain);
        if (feet.find()
                && (feet.group(2) != null || Fit.matches(plain, "(?s).*\\b(?:tall|height)\\b.*"))
                && Fit.matches(
                        plain,
                        "(?s).*(?:\\b(?:tall|height|weigh\\w*|lbs?|inches|pounds?|stone|bmi|kg|stands|in\\b)|['\"]).*")) {
            var inches = Integer.parseInt(feet.group(1)) * 12.0
                    + (feet.group(2) == null
                            ? 0
                            : Double.parseDouble(
                                    feet.group(2).replace("½", ".5").replace(" 1/2", ".5")));
            put(
                    sentence,
                    "heightCm",
                    BigDecimal.valueOf(inches * 2.54).setScale(0, RoundingMode.HALF_UP),
                    feet.start(),
                    feet.end(),
                    findings,
                    120,
                    230);
        }
    }

    private static void weight(Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var kg = WEIGHT_KG.matcher(plain);
        while (kg.find()) {
            var text = kg.group(1) != null ? kg.group(1) : kg.group(2);
            if (kg.group(1) != null
                    || !Fit.matches(
                            plain.substring(0, kg.start()),
                            "(?s).*\\b(?:lost|lose|gained|lift\\w*|loss of|gain of|mg|per|carry\\w*|units?)\\b[^.;]{0,15}$")) {
                put(sentence, "weightKg", new BigDecimal(text), kg.start(), kg.end(), findings, 25, 300);
                return;
            }
        }
        var pounds = WEIGHT_POUNDS.matcher(plain);
        while (pounds.find()) {
            if (!Fit.matches(
                    plain.substring(0, pounds.start()),
                    "(?s).*\\b(?:lost|lose|gained|lift\\w*|loss of|stone|st)\\b[^.;]{0,15}$")) {
                var value = Double.parseDouble(pounds.group(1)) * 0.45359237;
                put(
                        sentence,
                        "weightKg",
                        BigDecimal.valueOf(value).setScale(1, RoundingMode.HALF_UP),
                        pounds.start(),
                        pounds.end(),
                        findings,
                        25,
                        300);
                return;
            }
        }
        var stone = WEIGHT_STONE.matcher(plain);
        if (stone.find()
                && Fit.matches(plain, "(?s).*\\b(?:weigh\\w*|wt|stone|bmi)\\b.*")
                && !Fit.matches(plain.substring(0, stone.start()), "(?s).*\\b(?:lost|lose|gained)\\b[^.;]{0,15}$")) {
            var all = Integer.parseInt(stone.group(1)) * 14
                    + (stone.group(2) == null ? 0 : Integer.parseInt(stone.group(2)));
            put(
                    sentence,
                    "weightKg",
                    BigDecimal.valueOf(all * 0.45359237).setScale(1, RoundingMode.HALF_UP),
                    stone.start(),
                    stone.end(),
                    findings,
                    25,
                    300);
        }
    }

    private static void put(
            Sentence sentence,
            String field,
            BigDecimal value,
            int start,
            int end,
            Findings findings,
            int least,
            int most) {
        if (value.doubleValue() >= least && value.doubleValue() <= most && !Polarity.isOthers(sentence, start, end)) {
            findings.put(field, value, sentence.span(start, end));
        }
    }
}
