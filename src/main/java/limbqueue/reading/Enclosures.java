package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Whether the report and the images of an examination or procedure came with the letter. */
final class Enclosures {

    private static final String REPORTS =
            "(?:reports?|results?|write-?up|findings|documentation|records?|operation note)";
    private static final String IMAGES =
            "(?:images?|films?|discs?|disks?|cds?|dvds?|pictures|scans(?! shows?)|image files|pacs images|dicom)";
    private static final Pattern MENTION =
            Pattern.compile("\\b(?:(?<report>" + REPORTS + ")|(?<images>" + IMAGES + "))\\b");

    /** What stands between two that are said to be the same. */
    private static final Pattern BOTH = Pattern.compile(
            " ?(?:,? ?(?:and|&|\\+|/|or|nor|as well as|plus)|, (?:no|nor|neither))(?: (?:the|its|his|her|a|no|any|nor|of the|all|full|original))* ?");

    private static final String HERE =
            "(?:enclosed|attached|included|appended|accompan\\w+|herewith|overleaf|uploaded|to hand|on file|transferred|pasted(?: below)?|sent with (?:this|the letter)"
                    + "|with (?:this|the) (?:letter|fax|referral)|with (?:letter|you)|here(?: with)?|available|in (?:the|this) (?:envelope|packet|post)|on (?:the )?(?:enclosed )?(?:disc|disk|cd)"
                    + "|on pacs|(?:has|have|had|was|were) (?:also )?(?:been )?(?:sent|faxed|forwarded|mailed|posted)(?: (?:to you|along|over|across|with|separately))?|sent (?:to you|along|over|across)|faxed(?: with)?|follows? below"
                    + "|(?:which )?(?:i|we) (?:also )?(?:hold|have|enclose|attach)|yes)";
    private static final String GONE =
            "(?:(?:but |, )?neither (?:has|have|is|was)|(?:(?:has|have|is|are|was|were|hasn't|haven't|isn't) )?(?:yet )?(?:not|never|neither|nowhere)(?: (?:yet|ever|been|to|be|come|us|me|with))* ?(?:available|received|arrived|reached|enclosed|attached|sent|to hand|seen|found|shown|given|traced|obtained|forwarded|supplied|included|here)?"
                    + "|(?:isn't|hasn't|doesn't)(?: (?:yet|ever|been))* (?:available|received|arrived|reached|enclosed|attached|sent|to hand|seen|shown|given|come|here|included|reach\\w*)"
                    + "|unavailable|missing|lost|await\\w*|pending|to follow|will follow|outstanding|requested|(?:that |which )?(?:i|we) (?:don't|do not|hasn't|have not|cannot)(?: (?:hold|have|get|find|obtain|see|access|open))?|were never|cannot be (?:found|opened|obtained)|no\\b(?! \\w+ (?:disease|stenosis)))";

    private static final Pattern IS_HERE = Pattern.compile("^[^;]{0,45}?\\b" + HERE + "\\b");
    private static final Pattern IS_GONE = Pattern.compile(
            "^[ :,()-]*(?:(?:of (?:it|this|that|them|the \\w+)|by (?:me|us)|was|were|is|are|ever|both|still|from there|from \\w+ \\w+) ){0,3}"
                    + GONE + "(?!\\w)");
    private static final Pattern GONE_LATER = Pattern.compile(
            "^[^;:]{0,40}?\\b(?:not|never|isn't|hasn't|don't|unavailable|missing|lost|awaited|pending|to follow|will follow)\\b");

    private static final Pattern HERE_BEFORE = Pattern.compile(
            "\\b(?:enclos\\w+|attach\\w*|includ\\w+|herewith|appended|i have|we have|i hold|with|see|here (?:is|are)|sending|forwarding|accompanied by)(?: (?:is|are|the|a|an|please|find|his|her|their|copy|copies|of|full|both|you|to|this|also|send|sent|letter|:))*[ :]*$");
    private static final Pattern ENCLOSES = Pattern.compile(
            "\\b(?:enclos\\w+|attach\\w*|includ\\w+|herewith|appended|sending|forwarding|here (?:is|are)|accompanied by)\\b|^(?:i|we) have\\b");
    private static final Pattern GONE_BEFORE = Pattern.compile(
            "\\b(?:no|without|neither|nor(?: have| has| did)?(?: (?:i|we|they))?|lack|lacking|await\\w*|cannot (?:get|find|obtain|see|open)|(?:not|never|hasn't|don't|haven't)(?: (?:yet|ever|been|had|have|got|get|seen|received|sent|given|shown|obtained|hold|me|us|able|to|see|of))*)"
                    + "(?: (?:a|an|any|the|his|her|their|its|written|formal|actual|of|copy))* ?$");

    /** Two that are said to be there or not, as one mention. */
    private record Mentioned(int start, int end, boolean report, boolean images) {}

    private Enclosures() {}

    /** Adds to {@code entry} what the sentence says from {@code from} on. */
    static void read(Sentence sentence, int from, Findings.Entry entry) {
        var plain = sentence.plain;
        var mentioned = mentioned(plain, Math.min(from, plain.length()));
        for (var i = 0; i < mentioned.size(); i++) {
            var what = mentioned.get(i);
            var begin = i == 0
                    ? Math.max(0, sentence.clauseStart(what.start()) - 1)
                    : mentioned.get(i - 1).end();
            var end = i + 1 < mentioned.size() ? mentioned.get(i + 1).start() : plain.length();
            here(plain.substring(begin, what.start()), plain.substring(what.end(), end))
                    .ifPresent(answer -> {
                        var words = sentence.span(what.start(), what.end());
                        if (what.report()) {
                            entry.put("reportHeld", answer, words);
                        }
                        if (what.images()) {
                            entry.put("imagesHeld", answer, words);
                        }
                    });
        }
        if (mentioned.isEmpty()) {
            enclosed(sentence, entry);
        }
    }

    /** "Duplex enclosed" encloses its report. */
    private static void enclosed(Sentence sentence, Findings.Entry entry) {
        var match = Fit.of("\\b(?:duplex|cta|mra|scan|copy)\\b[^.;]{0,20}\\b(?:enclosed|attached)\\b")
                .matcher(sentence.plain);
        if (match.find() && !Fit.matches(match.group(), ".*\\b(?:not|isn't)\\b.*")) {
            entry.put("reportHeld", true, sentence.span(match));
        }
    }

    private static List<Mentioned> mentioned(String plain, int from) {
        var all = new ArrayList<Mentioned>();
        Matcher match = MENTION.matcher(plain).region(from, plain.length());
        while (match.find()) {
            var report = match.group("report") != null;
            if (isOther(plain, match.start(), match.end())) {
                continue;
            }
            var last = all.isEmpty() ? null : all.getLast();
            if (last != null
                    && BOTH.matcher(plain.substring(last.end(), match.start())).matches()) {
                all.removeLast();
                all.add(new Mentioned(last.start(), match.end(), last.report() || report, last.images() || !report));
            } else {
                all.add(new Mentioned(match.start(), match.end(), report, !report));
            }
        }
        return all;
    }

    /** A disc that holds the images, results of treatment, pictures that were the aim. */
    private static boolean isOther(String plain, int start, int end) {
        var before = plain.substring(Math.max(0, start - 30), start);
        return Fit.matches(
                        before,
                        "(?s).*\\b(?:blood|good|poor|satisfactory|excellent|angiographic|technical|lab|laboratory|test|just|only|fax|fax the|fax any|post|post the|email|e-mail|send|send the|took|take|takes|for|to get|some) ")
                || Fit.matches(before, "(?s).*\\b(?:on|onto) (?:an? |the |our |pacs )*(?:enclosed )?$")
                || Fit.matches(
                        plain.substring(end), "(?s) (?:only|shows?|showed|of (?:treatment|surgery|the bypass)).*");
    }

    private static Optional<Boolean> here(String before, String after) {
        var clause = after.split("\\. |; ", 2)[0];
        if (IS_GONE.matcher(clause).find() || GONE_BEFORE.matcher(before).find()) {
            return Optional.of(false);
        }
        var here = IS_HERE.matcher(clause);
        if (here.find()) {
            if (Fit.matches(clause.substring(here.end()), "(?s) ?[:=?]+ ?(?:no|n)\\b.*")) {
                return Optional.of(false);
            }
            return Optional.of(!Fit.matches(here.group(), "(?s).*\\b(?:not|never|isn't|hasn't|no)\\b.*"));
        }
        if (GONE_LATER.matcher(clause).find()) {
            return Optional.of(false);
        }
        var ahead = HERE_BEFORE.matcher(before);
        return ahead.find() && ENCLOSES.matcher(ahead.group()).find() ? Optional.of(true) : Optional.empty();
    }
}
