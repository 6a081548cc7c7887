package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Spans of time in days: a week is 7, a month 30, a year 365, as the format's numbers are used. "Several weeks" is no
 * number and so is no duration, nor is "3 to 4 weeks".
 */
final class Durations {

    private static final Pattern DURATION =
            Pattern.compile("(?<![\\d.,/-])(?:(?<half>half (?:a|an)|1/2(?: a| an)?) (?<hu>week|month|year|day)"
                    + "|(?<a>a|an) (?<fort>fortnight)|(?<fn>\\d+) fortnights?"
                    + "|(?<ah>a year and a half|a month and a half|1 and a half years?|1 and a half months?|1 1/2 years?|1 ?1/2 months?)"
                    + "|(?<n>\\d{1,3}(?:\\.\\d)?|a|an|(?<=(?:for|over|during) the )(?:past|last))(?:[ -]|(?<=\\d))(?:(?:full|whole|good|solid|long|calendar|or so) )?(?<u>week|month|year|day)(?:s|ly)?\\b(?! and a half)(?!(?<=year)s?[ -]?old\\b)(?! of age)"
                    + "|(?:x ?)?(?<sn>\\d{1,2}) ?/ ?(?<su>7|52|12)(?![\\d/]))");

    /** A duration found, with where it stands. */
    record Found(int start, int end, int days, String unit) {}

    private Durations() {}

    static List<Found> in(String plain, int start, int end) {
        var found = new ArrayList<Found>();
        var match = DURATION.matcher(plain).region(start, end).useTransparentBounds(true);
        while (match.find()) {
            if (!isRange(plain, match.start())) {
                found.add(read(match));
            }
        }
        return found;
    }

    private static boolean isRange(String plain, int start) {
        var before = plain.substring(Math.max(0, start - 6), start);
        return Fit.matches(before, ".*\\d ?(?:-|to|or|/) ?") || before.endsWith("every ") || before.endsWith(" few ");
    }

    private static Found read(Matcher match) {
        if (match.group("half") != null) {
            var unit = match.group("hu");
            return new Found(
                    match.start(), match.end(), unit.equals("year") ? 182 : unit.equals("month") ? 15 : 4, unit);
        }
        if (match.group("fort") != null) {
            return new Found(match.start(), match.end(), 14, "week");
        }
        if (match.group("fn") != null) {
            return new Found(match.start(), match.end(), 14 * Integer.parseInt(match.group("fn")), "week");
        }
        if (match.group("ah") != null) {
            return match.group("ah").contains("year")
                    ? new Found(match.start(), match.end(), 547, "year")
                    : new Found(match.start(), match.end(), 45, "month");
        }
        if (match.group("sn") != null) {
            var each = switch (match.group("su")) {
                case "7" -> 1;
                case "52" -> 7;
                default -> 30;
            };
            return new Found(match.start(), match.end(), each * Integer.parseInt(match.group("sn")), match.group("su"));
        }
        var number = Fit.matches(match.group("n"), "an?|past|last") ? 1 : Double.parseDouble(match.group("n"));
        var unit = match.group("u");
        var each = switch (unit) {
            case "day" -> 1;
            case "week" -> 7;
            case "month" -> 30;
            default -> 365;
        };
        return new Found(match.start(), match.end(), (int) Math.floor(number * each + 0.0001), unit);
    }

    /** Whether a duration tells how long a complaint has lasted, and not how long something else took. */
    static boolean lasts(Sentence sentence, Found found) {
        var plain = sentence.plain;
        var piece = sentence.pieceStart(found.start());
        var before = plain.substring(piece, found.start());
        var wide = plain.substring(sentence.clauseStart(found.start()), found.start());
        var after = plain.substring(found.end(), Math.min(plain.length(), found.end() + 40));
        if (Fit.matches(
                        before,
                        "(?s).*\\b(?:worse|worsen\\w*|progress\\w*|deteriorat\\w*|declin\\w*|increas\\w*|smok\\w*|quit|stopped|stop|review|follow\\w*|last (?:\\w+ )?changed|shorten\\w*|drop\\w*|until|treated|dressed|bandaged|offload\\w*|healed|antibiotics|than|doubled)\\b[^,]{0,30}$")
                && !Fit.matches(
                        before,
                        "(?s).*\\b(?:worse|progress\\w+|worsening|increasing)[a-z ]*(?:pain|claudication|ulcer|wound)[a-z ]*(?:for|x|since|over the (?:past|last)|over)(?: the)?(?: (?:past|last))?[a-z ]{0,12}$")) {
            return false;
        }
        if (Fit.matches(
                before,
                "(?s).*\\b(?:every|each|aged?|after|within|next|in)(?: the(?: next| last)?)?(?: about| some)? ?$|(?s).*\\b(?:put (?:\\w+ )?off|postpon\\w*|delay\\w*|deferr?\\w*|wait\\w*|list|cancel\\w*|has changed|married|lived|known)\\b.*|(?s).*\\b(?:from|was|than) (?:about )?\\d+ (?:block|metre|yard|m|feet_unit|foot|mile)s? ")) {
            return false;
        }
        if (after.startsWith(" old")
                && Fit.matches(wide, "(?s).*\\b(?:occlu\\w*|thromb\\w*|stent|graft|stenosis|lesion|clot)\\b.*")) {
            return false;
        }
        if (Fit.matches(wide, "(?s).*\\b(?:pregnant|gestation),? ")
                || Fit.matches(after, "(?s) (?:pregnant|gestation|of pregnancy).*")) {
            return false;
        }
        if (Fit.matches(
                        before.substring(Math.max(0, before.length() - 45)),
                        "(?s).*\\b(?:weight|work|retired|married|widowed|diabet\\w*|stent\\w*|bypass\\w*|angioplasty|operation|surgery|stroke|infarct\\w*|dialysis|statin|aspirin|clopidogrel|mg|exercise|programme)\\b.*")
                && !Fit.matches(before, "(?s).*\\b(?:for|since|history of)\\b.*(?:claudication|pain|ulcer|wound).*")) {
            return false;
        }
        if (Fit.matches(
                after, "(?s) (?:of|with) (?:\\w+ ){0,4}(?:pain|claudication|cramp\\w*|ulcer|wound|sore)\\b.*")) {
            return true;
        }
        if (Fit.matches(after, "(?s)[ ,-]*(?:history|hx|h/o|duration|ago|now|onset)\\b.*")) {
            return !Fit.matches(
                            after,
                            "(?s) history of (?!.*(?:pain|claudication|ulcer|wound|cramp|sore|gangrene|discolou?r|leg|calf|foot|toe|walking|numb|cold|limp|intermittent)).*")
                    && !Fit.matches(
                            wide,
                            "(?s).*\\b(?:stopped|quit|smok\\w+|stent\\w*|bypass|operat\\w+|amput\\w+|stroke)\\b.*");
        }
        if (Fit.matches(
                        before,
                        "(?s).*\\b(?:for|x|since|over|past|last|these|duration|of|present|unchanged|stable|constant|static|going on|started|began|about|nearly|almost|troubled|bothered|history|had|now|been|is|some|well over|least|than)\\b[ :a-z]{0,22}$")
                || before.isBlank()
                || Fit.matches(before, "(?s)[ (]*(?:x|for)? ?")
                || Fit.matches(found.unit(), "7|52|12")) {
            return true;
        }
        return Fit.matches(
                        before,
                        "(?s).*(?:claudication|ulcer|wound|pain|calf|heel|toe|foot|gangrene|sore|\\d ?(?:m|metre|yard|block)s?) [(]?$")
                || before.endsWith(" x ");
    }
}
