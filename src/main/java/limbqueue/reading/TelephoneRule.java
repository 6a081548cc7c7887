package limbqueue.reading;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.reading.Lines.Line;

/** Telephone and fax numbers, and whose they are: the referrer's, the patient's, or those of somebody who is neither. */
final class TelephoneRule implements Rule {

    private enum Owner {
        REFERRER,
        PATIENT,
        OTHER
    }

    private static final String DIGIT = "[\\dOolI]";
    private static final Pattern NUMBER = Pattern.compile(
            "(?<![\\w/.@-])\\+?(?:\\(\\d{3,5}\\)[ .-]?|[\\dO]" + DIGIT + "{2,4}[ .-])" + DIGIT + "{2,4}(?:[ .-]?"
                    + DIGIT + "{2,6}){0,3}(?![\\w/@]|[.-]\\d)|(?<![\\w/.@-])0" + DIGIT + "{9,10}(?!\\w)");

    private static final Pattern FAX =
            Pattern.compile("(?i)(?:\\bfax(?:ed)?\\b|(?<![a-z])F(?=[ .:]))[^\\d\\n;|]{0,40}$");
    private static final Pattern PHONE = Pattern.compile(
            "(?i)\\b(?:tel(?:ephone)?|phone|ph|mobile|mob|cell|home|contact|number|no|call(?:s|ed)?|ring|reach(?:ed)?|secretary|bleep|pager|direct line|switchboard|office|t|te1|h|m)\\b[^\\d\\n;|]{0,30}$");
    private static final Pattern NO_TELEPHONE = Pattern.compile(
            "(?i)\\b(?:nhs|mrn|chart|hospital|hosp|unit|case|record|chi|ref|our ref|your ref|account|acct|id)(?:[ \\t]*(?:no|number|#))?[ \\t]*[.:#]?[ \\t]*$");

    /** "300-1188 Lakeshore Dr". */
    private static final Pattern OF_A_STREET = Pattern.compile(
            "[ \\t]+(?:[A-Z][a-z'\u2019]+[ \\t]+){1,3}(?:Dr|St|Ave|Avenue|Rd|Road|Street|Drive|Blvd|Boulevard|Lane|Cres|Crescent|Way|Hwy|Highway|Court|Ct)\\b");

    private static final Pattern THEIRS = Pattern.compile(
            "(?i)\\b(?:daughter|son|wife|husband|nok|next of kin|carer|neighbou?r|pharmacy|niece|nephew|sister|brother|warden)(?:['\u2019]s)?"
                    + "(?:[^\\d,;.]{0,30}|[^\\d;.]{0,40}\\b(?:rang|called|phoned|telephoned|wrote)\\b[^\\d;.]{0,20})$");
    private static final Pattern PATIENTS = Pattern.compile(
            "(?i)\\b(?:his|her|him|patient(?:['\u2019]s)?|pt|mobile|mob|cell|(?<!(?:care|nursing|residential|rest)[ \\t])home|door phone)\\b[^\\d,;|]{0,25}$");
    private static final Pattern REFERRERS = Pattern.compile(
            "(?i)\\b(?:caller|call(?:ing)? back|ring (?:me|us|back)|call (?:me|us)|secretary|our|my|direct line|bleep|pager|surgery|practice|clinic|office|switchboard|reply|replies|answer)\\b[^\\d;|]{0,30}$");
    /** "Caller: district nurse Peg Arlott, Saltby Nursing, mob 07700 900815". */
    private static final Pattern CALLER = Pattern.compile(
            "(?i)^[ \\t]*(?:caller|called by|call from|from|referr(?:er|ed by))\\b[ \\t]*:(?![^\\n]*\\b(?:patient|pt|re|daughter|son|wife|husband|his|her)\\b)[^\\n]*$");

    private static final Pattern OURS = Pattern.compile(
            "(?i)^[ \\t]*(?:to|attn|fao)\\b[ \\t]*:?|^[ \\t]*fax to\\b|\\b(?:your fax|faxed to you|fax(?:ed)? to:|fax from)");

    /** The patient's own doctor, who is not the one that writes. */
    private static final Pattern OWN_DOCTOR = Pattern.compile(
            "(?i)(?:(?:^|[|.,][ \\t]*)(?:registered |usual )?(?:gp|pcp)[ \\t]*[:(-]|\\b(?:own|our|his|her|registered|usual) (?:gp|pcp)\\b|\\bfamily doctor\\b)[^\\n|;]{0,80}$");

    private static final Pattern A_PRACTICE = Pattern.compile(
            "(?i)\\b(?:gp|dr|doctor|surgery|practice|clinic|hospital|(?:medical|health) centre)\\b[^\\n]{0,60}$");

    /** Words of a line that speaks of the patient. */
    private static final Pattern PATIENT_LINE = Pattern.compile(
            "(?i)^[ \\t]*(?:re|pt|patient|name|about|surname)\\b|\\b(?:d\\.?o\\.?b|date of birth|born|nhs n|mrn|chart no|hospital no|forename|first name)\\b");

    /** Words of a line that speaks of the referrer. */
    private static final Pattern REFERRER_LINE = Pattern.compile(
            "(?i)^[ \\t]*(?:from|fron|sender|caller|contact)\\b|\\b(?:referr(?:er|ing)|completed by|provider|secretary|fax|taken by|consultant)\\b");

    private static final int HEAD = 8;
    private static final int FOOT = 4;

    @Override
    public void read(Page page, Findings findings) {
        var lines = Lines.of(page.text);
        var relative = Relative.writes(page.text);
        for (var line : lines) {
            var match =
                    NUMBER.matcher(page.text).region(line.start(), line.end()).useTransparentBounds(true);
            var from = line.start();
            while (match.find()) {
                var before = page.text.substring(from, match.start());
                var digits = digits(match.group());
                var length = digits.replaceAll("\\D", "").length();
                from = match.end();
                if (length < 7
                        || length > 15
                        || Fit.matches(match.group(), "(?:19|20)\\d\\d-\\d\\d-\\d\\d")
                        || OF_A_STREET
                                .matcher(page.text)
                                .region(match.end(), line.end())
                                .lookingAt()
                        || NO_TELEPHONE.matcher(before).find()
                        || !looksLike(match.group(), before)) {
                    continue;
                }
                var words = new Span(match.start(), match.end());
                if (isFax(digits, findings)) {
                    continue;
                }
                if (FAX.matcher(Lines.legible(before).replace("t0 ", "to ")).find()) {
                    if (!OURS.matcher(line.upTo(match.start())).find()) {
                        findings.putIfUnknown("referrer.fax", digits, words);
                    }
                } else {
                    owner(lines, line, before, words, relative, findings)
                            .filter(owner -> owner != Owner.OTHER)
                            .ifPresent(owner -> findings.putIfUnknown(
                                    owner == Owner.PATIENT ? "patient.phone" : "referrer.phone", digits, words));
                }
            }
        }
    }

    /** The number of the fax machine is printed on every page. */
    private static boolean isFax(String digits, Findings findings) {
        return findings.get("referrer.fax")
                .filter(known -> known.asString().equals(digits))
                .isPresent();
    }

    private static String digits(String number) {
        return number.strip().replaceAll("[Oo]", "0").replaceAll("[lI]", "1");
    }

    /** A number that is called a telephone number, or is written as one. */
    private static boolean looksLike(String number, String before) {
        return FAX.matcher(before).find()
                || PHONE.matcher(before).find()
                || Fit.matches(
                        number,
                        "0" + DIGIT + "{3,4} " + DIGIT + "{3} ?" + DIGIT + "{3}|0" + DIGIT
                                + "{10}|\\(\\d{3}\\) ?\\d{3}-\\d{4}|\\d{3}[-.]\\d{3}[-.]\\d{4}|\\d{3}-\\d{4}");
    }

    private static Optional<Owner> owner(
            List<Line> lines, Line line, String before, Span words, boolean relative, Findings findings) {
        if (THEIRS.matcher(before).find()) {
            return Optional.of(Owner.OTHER);
        }
        if (OWN_DOCTOR.matcher(before).find()
                && findings.words("referrer.name").filter(line::holds).isEmpty()) {
            return Optional.of(Owner.OTHER);
        }
        if (relative && A_PRACTICE.matcher(before).find()) {
            return Optional.of(Owner.OTHER);
        }
        if (CALLER.matcher(line.upTo(words.start())).find() && !relative) {
            return Optional.of(Owner.REFERRER);
        }
        if (REFERRERS.matcher(before).find()) {
            return Optional.of(relative ? Owner.OTHER : Owner.REFERRER);
        }
        if (PATIENTS.matcher(before).find()) {
            return Optional.of(Owner.PATIENT);
        }
        for (var number = line.number(); number >= Math.max(0, line.number() - 4); number--) {
            var above = lines.get(number);
            var spoken = speaksOf(above, number == line.number() ? words.start() : above.end(), findings);
            if (spoken.isPresent()) {
                return spoken;
            }
            if (above.afterBlank()) {
                break;
            }
        }
        if (relative) {
            return Optional.empty();
        }
        return line.number() < HEAD || line.number() >= lines.size() - FOOT
                ? Optional.of(Owner.REFERRER)
                : Optional.empty();
    }

    /** Of whom a line speaks up to {@code end}; of both, the one that is named last. */
    private static Optional<Owner> speaksOf(Line line, int end, Findings findings) {
        var words = line.upTo(end);
        var patient = Math.max(
                last(PATIENT_LINE, words),
                Math.max(at(findings, "patient.family", line, end), at(findings, "patient.born", line, end)));
        var referrer = Math.max(
                last(REFERRER_LINE, line.text()) >= 0 && last(REFERRER_LINE, words) < 0 && patient < 0
                        ? 0
                        : last(REFERRER_LINE, words),
                Math.max(at(findings, "referrer.name", line, end), at(findings, "referrer.organisation", line, end)));
        if (patient < 0 && referrer < 0) {
            return Optional.empty();
        }
        return Optional.of(patient > referrer ? Owner.PATIENT : Owner.REFERRER);
    }

    private static int at(Findings findings, String field, Line line, int end) {
        return findings.words(field)
                .filter(words -> line.holds(words) && words.start() < end)
                .map(words -> words.start() - line.start())
                .orElse(-1);
    }

    private static int last(Pattern pattern, String words) {
        var match = pattern.matcher(words);
        var last = -1;
        while (match.find()) {
            last = match.start();
        }
        return last;
    }
}
