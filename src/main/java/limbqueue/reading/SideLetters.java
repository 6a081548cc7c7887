package limbqueue.reading;

import java.util.List;
import java.util.Set;

/** Single letters that name a side, and abbreviations whose capitals tell what they mean. */
final class SideLetters {

    private static final Set<String> TITLES =
            Set.of("mr", "mrs", "ms", "miss", "dr", "prof", "professor", "sir", "sister", "nurse", "doctor");

    private final List<Token> tokens;
    private final String text;

    SideLetters(List<Token> tokens, String text) {
        this.tokens = tokens;
        this.text = text;
    }

    /** Single letters that name a side, and words whose capitals matter. */
    void read() {
        var shouted = shouted();
        for (var i = 0; i < tokens.size(); i++) {
            var token = tokens.get(i);
            var original = text.substring(token.start, token.end);
            var meant = switch (original) {
                case "R", "L" -> isSide(i) ? original.equals("R") ? "right" : "left" : token.text;
                case "r", "l" ->
                    i + 1 < tokens.size() && isSide(i) && legWord(i + 1) || ofIndex(i)
                            ? original.equals("r") ? "right" : "left"
                            : token.text;
                case "PT" -> shouted && !legMeasure(i) && !dpNear(i) ? "patient" : "postib";
                case "pt", "Pt", "pt's" -> legMeasure(i) ? "postib" : "patient";
                case "PTs" -> dpNear(i) ? "postib" : token.text;
                case "PTA" -> besidePulses(i) ? "postib" : token.text;
                case "AT" -> shouted ? "at" : "ata";
                case "IC" -> shouted ? "ic" : "claudication";
                case "RP" -> "rest pain";
                default -> token.text;
            };
            if (!meant.equals(token.text)) {
                tokens.set(i, new Token(token.start, token.end, meant, token.blankBefore));
            }
        }
    }

    /** Whether the sentence is in capitals throughout, so that capitals mean nothing. */
    private boolean shouted() {
        var lower = 0;
        var upper = 0;
        for (var token : tokens) {
            for (var i = token.start; i < token.end; i++) {
                lower += Character.isLowerCase(text.charAt(i)) ? 1 : 0;
                upper += Character.isUpperCase(text.charAt(i)) ? 1 : 0;
            }
        }
        return upper > 12 && upper > 4 * lower;
    }

    /** "abpi 0.41 l, 0.93 r", "abi l .6 r .95". */
    private boolean ofIndex(int i) {
        return (i > 0 && Fit.matches(tokens.get(i - 1).text, "[01]\\.\\d{1,2}")
                        || i + 1 < tokens.size()
                                && Fit.matches(tokens.get(i + 1).text, "[01]\\.\\d{1,2}")
                                && tokens.get(i + 1).blankBefore)
                && tokens.stream().anyMatch(token -> Fit.matches(token.text, "abi|abpi|abis|abpis|tbi"));
    }

    private boolean legWord(int i) {
        return Fit.matches(
                tokens.get(i).text,
                "fem|femoral|pop|popliteal|iliac|common|external|cia|eia|cfa|stent|bka|aka|leg|foot|toe|calf|heel|thigh|limb|abi|abpi|hallux|great|big|dp|sfa|side|buttock|ankle");
    }

    /** Whether "PTA" is the posterior tibial artery: beside the other artery of the foot, or graded among pulses. */
    private boolean besidePulses(int i) {
        var foot = "dpa|dp|dorsalis|pedis|ata";
        if (i > 1
                && Fit.matches(tokens.get(i - 1).text, "/|&|and|or|nor|\\+")
                && Fit.matches(tokens.get(i - 2).text, foot)) {
            return true;
        }
        if (i + 2 < tokens.size()
                        && Fit.matches(tokens.get(i + 1).text, "/|&|and|or|nor|\\+")
                        && Fit.matches(tokens.get(i + 2).text, foot + "|peroneal")
                || i + 1 < tokens.size()
                        && Fit.matches(
                                tokens.get(i + 1).text,
                                "patent|occluded|runs?|runoff|fills|disease|diseased|stenosis|stenosed")) {
            return true;
        }
        var next = i + 1;
        while (next < tokens.size() && Fit.matches(tokens.get(next).text, "[:=(]|r|l|right|left|is|was|not|pulses?")) {
            next++;
        }
        return next < tokens.size()
                && Fit.matches(
                        tokens.get(next).text, "[rl]?[0-4]|\\+|palpable|absent|weak|present|felt|impalpable|faint")
                && tokens.stream().anyMatch(token -> Fit.matches(token.text, "pulses?|" + foot));
    }

    /** Whether the other artery of the foot is named near by. */
    private boolean dpNear(int i) {
        return tokens.subList(Math.max(0, i - 9), Math.min(tokens.size(), i + 10)).stream()
                .anyMatch(token -> Fit.matches(token.text, "dp|dps|dpa"));
    }

    private boolean legMeasure(int i) {
        if (i + 1 < tokens.size()
                && Fit.matches(
                        tokens.get(i + 1).text,
                        "\\d+|palpable|absent|weak|pulse|pulses|pressure|\\+|=|present|:|faint|monophasic|biphasic|triphasic")) {
            return !tokens.get(i + 1).text.equals(":") || i > 0 && Fit.matches(tokens.get(i - 1).text, "dp|,|;|\\d+");
        }
        for (var j = Math.max(0, i - 3); j < Math.min(tokens.size(), i + 4); j++) {
            if (Fit.matches(tokens.get(j).text, "dp|dpa|dorsalis|popliteal|pop|ata")) {
                return true;
            }
        }
        return false;
    }

    /** Whether the single letter at {@code i} stands for a side and is not an initial, a unit or part of a name. */
    private boolean isSide(int i) {
        var token = tokens.get(i);
        var before = i > 0 ? tokens.get(i - 1) : null;
        var after = i + 1 < tokens.size() ? tokens.get(i + 1) : null;
        if (before != null) {
            if (TITLES.contains(before.text)) {
                return false;
            }
            if (before.text.equals(".") && i > 1 && TITLES.contains(tokens.get(i - 2).text)) {
                return false;
            }
            if (before.text.equals("/")
                    && i > 1
                    && !Fit.matches(
                            tokens.get(i - 2).text,
                            "r|l|right|left|o|w|abi|abpi|abis|dp|pt|\\+|present|absent|weak|palpable|normal|good|nil|none|faint")
                    && !(tokens.get(i - 2).isNumber() && after != null && after.isNumber() && after.blankBefore)) {
                return false;
            }
            if (after != null
                    && after.text.equals("/")
                    && i + 2 < tokens.size()
                    && Fit.matches(tokens.get(i + 2).text, "o|t|v|f")) {
                return false;
            }
            if (before.text.equals("&") && after != null && Fit.matches(after.text, "[a-z]")) {
                return false;
            }
            if (!token.blankBefore
                    && (before.text.equals("-")
                            || before.text.equals("'")
                            || before.isNumber() && token.text.equals("l"))) {
                return before.text.equals("-") && !Character.isLetter(text.charAt(Math.max(0, before.start - 1)));
            }
        }
        if (after != null
                && after.text.equals("/")
                && i + 2 < tokens.size()
                && Fit.matches(tokens.get(i + 2).text, "o|t|v|f")) {
            return false;
        }
        if (after == null) {
            return before == null || !isName(before) || Lexicon.shipped().knows(before.text);
        }
        if (after.text.equals(".") && !after.blankBefore) {
            // An initial: "R. Smith"; but "absent on R. Next sentence" ends a sentence, and so is at the end of the
            // tokens.
            return i + 2 >= tokens.size()
                    || !isName(tokens.get(i + 2))
                    || Lexicon.shipped().knows(tokens.get(i + 2).text);
        }
        if (after.text.equals("'")) {
            return false;
        }
        return !isName(after) || Lexicon.shipped().knows(after.text);
    }

    /** Whether a word looks like a name: it begins with a capital and is not all capitals. */
    private boolean isName(Token token) {
        if (!Character.isUpperCase(text.charAt(token.start)) || token.end - token.start < 2 || token.isNumber()) {
            return false;
        }
        return Character.isLowerCase(text.charAt(token.end - 1));
    }
}
