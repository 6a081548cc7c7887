package limbqueue.reading;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.reading.Lines.Line;

/** The name of whoever wrote the letter: told by a label, signed at the foot, or printed at the head. */
final class Signatory {

    private static final String TITLED_NAME =
            "(?:" + Person.TITLE + "[ \\t]+){1,3}(?:" + Person.NAME_IN_CAPITALS + "|" + Person.NAME + ")";
    private static final Pattern LETTERED =
            Pattern.compile("(?:(?:" + Person.TITLE + "[ \\t]+)?" + Person.NAME + ")" + Person.DEGREES);
    private static final Pattern TITLED = Pattern.compile(TITLED_NAME);

    /** Labels that only the referrer has. */
    private static final String SURE_LABEL =
            "referrer(?:['\u2019]s)?(?:[ \\t]+name)?|referring(?:[ \\t]+(?:doctor|physician|clinician|provider|gp|practitioner))?(?:[ \\t]*name)?"
                    + "|referred[ \\t]+by|(?:requesting|ordering)(?:[ \\t]+(?:doctor|physician|provider|clinician|practitioner|md))?|request(?:er|ed[ \\t]+by)|sender|sent[ \\t]+by";

    private static final String OTHER_LABEL =
            "from|fron|frorn|doctor|nurse|clinician|signed(?:[ \\t]+by)?|physician|provider|dictated[ \\t]+by|caller|signature|practitioner"
                    + "|(?<!(?:was|is|been|were)[ \\t]{1,3})seen by|author|(?:form[ \\t]+)?completed[ \\t]+by|(?:form[ \\t]+)?filled(?:[ \\t]+in)?[ \\t]+by";

    /** Labels of those who treat the patient, of whom one may have written. */
    private static final String TREATING_LABEL =
            "attending|consultant|gp|pcp|usual[ \\t]+(?:gp|doctor)|family[ \\t]+(?:doctor|physician)";

    private static final String LABELLED_NAME =
            ")[ \\t]*[:.\\-]?[ \\t]*(?:(?:RGN|RN|SN|DN|HCA|district nurse|community nurse|practice nurse|specialist nurse|staff nurse|nurse|podiatrist|carer|care assistant|deputy manager|manager|physiotherapist)[ \\t]+)?(?-i:("
                    + Person.PART + ",[ \\t]+" + Person.PART
                    + "(?:[ \\t]+[A-Z]\\b\\.?)?" + Person.DEGREES + "|(?:" + Person.TITLE + "[ \\t]+){0,3}"
                    + Person.NAME + "(?:" + Person.DEGREES + ")?|" + Person.PLAIN_TITLE + "[ \\t]+" + Person.NAME
                    + "))";
    private static final Pattern SURE = Pattern.compile("(?im)(?:^|[ \\t|])(?:" + SURE_LABEL + LABELLED_NAME);
    private static final Pattern SIGNED_BY =
            Pattern.compile("(?im)^[ \\t]*(?:electronically[ \\t]+)?(?:signed(?:[ \\t]+by)?" + LABELLED_NAME);
    private static final Pattern LABELLED =
            Pattern.compile("(?im)(?:^|[ \\t|])(?:" + SURE_LABEL + "|" + OTHER_LABEL + LABELLED_NAME);

    private static final Pattern TREATING = Pattern.compile("(?im)(?:^|[ \\t|])(?:" + TREATING_LABEL + LABELLED_NAME);

    /** "Name: Dr Bernard Ollerton", where the part of the form is headed as the referrer's. */
    private static final Pattern NAMED = Pattern.compile("(?im)^[ \\t]*(?:name|clinician|doctor" + LABELLED_NAME);

    /** A label behind which anybody's title stands for the referrer. */
    private static final String REFERRER_LABEL =
            "(?is).*(?:from|fron|frorn|sender|(?:referr\\w*|request\\w*|ordering)(?:[ \\t]+[a-z]+){0,2})[ \\t]*(?::|\\.{2,60}).*";

    private static final Pattern REFERRED_BY =
            Pattern.compile("\\breferred (?:to you )?by (?:(?:his|her|our) (?:GP|doctor),? )?(" + TITLED_NAME + ")");

    /** Who speaks on a telephone: "this is Dilwen, I'm the nurse". */
    private static final Pattern SPEAKING = Pattern.compile(
            "\\b(?:[Tt]his is|[Mm]y name is|[Ii]t is|[Ii]t's)[ \\t]+(" + Person.PART + "(?:[ \\t]+" + Person.PART
                    + ")?)(?=,?[ \\t]+(?:(?:and )?I'?m\\b|(?:and )?I am\\b|from\\b|here\\b|calling\\b|ringing\\b|speaking\\b|one of\\b))");

    /** The last words of a letter that has no lines: "Urgent please. Dr P Lisle, Burnt Oak HC". */
    private static final Pattern LAST_WORDS =
            Pattern.compile("(" + TITLED_NAME + ")(?:[ \\t]*[,/(-][^.\\n]{0,60}|[ \\t]*[.]?)\\s*$");

    private static final String SMALL_LETTERS =
            "dr\\.?[ \\t]+(?:[a-z]\\.?[ \\t]+){0,2}[a-z][a-z'-]{2,30}(?:[ \\t]+[a-z][a-z'-]{2,30})?";
    private static final int TAIL = 160;

    /** Who wrote down a call writes for somebody else: "taken by Sister Pentlow, for Dr Threlkeld". */
    private static final Pattern TAKEN_FOR = Pattern.compile(
            "(?i)\\b(?:taken|written|noted|typed)[ \\t]+(?:down[ \\t]+)?by\\b[^\\n]{0,60}?\\bfor[ \\t]+(?-i:((?:"
                    + Person.TITLE + "[ \\t]+){1,3}(?:" + Person.PART + "|" + Person.INITIAL + "[ \\t]+" + Person.PART
                    + ")(?:[ \\t]+" + Person.PART + "){0,2}))");

    /** Who signs for somebody else: "p.p. Dr Lena Marsh", "on behalf of Dr P. Hadley". */
    private static final Pattern ON_BEHALF = Pattern.compile(
            "(?m)(?:^|[.,] )[ \\t(]*(?i:(?:sent|signed|written|dictated|typed|approved)[ \\t]+)?(?i:(?:for and )?on behalf of|p\\.?[ ]?p\\.?)[ \\t:]+("
                    + TITLED_NAME + ")");

    /** Somebody is named who wrote, whatever the name; then the patient's own doctor did not. */
    private static final Pattern WRITTEN_BY = Pattern.compile(
            "(?im)(?:^|[ \\t])(?:caller|completed by|filled(?: in)? by|taken by|written by|referred by|from|signed)[ \\t]*:?[ \\t]+(?-i:[A-Z])|(?:^|[ \\t])caller\\b");

    private static final Pattern INTRODUCED = Pattern.compile(
            "\\b(?:[Tt]his is|[Ii] am|[Rr]eferral (?:came )?from|[Rr]eferred by|[Mm]essage from|[Ss]ent by|[Ff]rom)[ \\t]+("
                    + TITLED_NAME + ")");

    private static final Pattern SIGNED = Pattern.compile("^[ \\t]*(?:[-\u2013\u2014/]+[ \\t]*)?((?:" + Person.PART
            + "|"
            + Person.INITIAL + ")(?:[ \\t]+(?:" + Person.PART + "|" + Person.INITIAL + ")){0,3}[ \\t]+" + Person.PART
            + ")[ \\t]*,?(?:[ \\t]*(?i:" + Person.ROLE + ")(?:[ \\t]+[a-z ]{0,30})?)?[ \\t]*$");
    private static final Pattern SIGNED_WITH_ROLE = Pattern.compile("^[ \\t]*(" + Person.PLAIN_TITLE + "[ \\t]+"
            + Person.NAME + ")[ \\t]*(?:,[ \\t]*(?:(?i:" + Person.ROLE + ")\\b.*|FRCS.*|MS\\b.*)|$)");
    private static final Pattern CLOSING = Pattern.compile(
            "(?im)^[ \\t]*(?:(?:with|many|best|kind|warm)[ \\t]+)*(?:yours?(?:[ \\t]+(?:sincere[l1]y|faithfu[l1]{2}y|tru[l1]y|ever|aye))?|all the best|le meas|thanking you"
                    + "|sincere[l1]y(?:[ \\t]+yours)?|(?:kind(?:est)?|best|warm)[ \\t]+(?:regards|wishes)|regards|wishes|thanks|thank you|many thanks"
                    + "|respectfully|cheers|cordially)[ \\t]*[,.!]?[ \\t]*$");

    /** What may stand before a signature in its line. */
    private static final String LEAD =
            "(?i).*(?:signed(?: electronically)?|signature|by|:|thank ?you|thanks|ta|regards|wishes|cheers|yours|please|pls|sincerely|faithfully|truly|requested|[.!])\\W*";

    /** What may not follow a name that signs: the sentence goes on. */
    private static final String GOES_ON =
            "(?s)[ \\t]+(?:wants?|says?|said|asks?|asked|is|was|has|had|will|would|saw|who|thinks?|and|at|on|to|in|for)\\b.*";

    private static final String NOT_A_SIGNATURE =
            "(?i).*\\b(?:thank|please|dear|regards|yours|kind|best|many|end|page|urgent|routine|plan|signed|from|with|allergies|left|right|new paragraph)\\b.*";
    private static final String MONTHS_AND_ARTICLES =
            "(?s)(?:The|A|Left|Right|To|No|January|February|March|April|May|June|July|August|September|October|November|December)\\b.*";

    private Signatory() {}

    static Optional<Span> of(Page page, List<Line> lines, Findings findings) {
        if (Relative.writes(page.text)) {
            return first(REFERRED_BY, page);
        }
        return labelled(page, SURE)
                .or(() -> labelled(page, NAMED))
                .or(() -> first(TAKEN_FOR, page))
                .or(() -> first(ON_BEHALF, page))
                .or(() -> signature(page, lines, findings).map(signed -> inFull(page, lines, signed)))
                .or(() -> lastWords(page, findings))
                .or(() -> labelled(page, SIGNED_BY))
                .or(() -> labelled(page, LABELLED))
                .or(() -> head(lines))
                .or(() -> first(INTRODUCED, page))
                .or(() -> first(SPEAKING, page))
                .or(() -> WRITTEN_BY.matcher(page.text).find() ? Optional.empty() : labelled(page, TREATING))
                .map(name -> page.original(name).matches("(?s).*['\u2019]s")
                        ? new Span(name.start(), name.end() - 2)
                        : name);
    }

    private static Optional<Span> first(Pattern pattern, Page page) {
        var match = pattern.matcher(page.text);
        return match.find() ? Optional.of(new Span(match.start(1), match.end(1))) : Optional.empty();
    }

    /** The last lines: "Dr Anwen Prosser", "Warren Ostrander, DO", or a name alone under the closing words. */
    private static Optional<Span> signature(Page page, List<Line> lines, Findings findings) {
        var closing = -1;
        var closingMatch = CLOSING.matcher(page.text);
        while (closingMatch.find()) {
            closing = closingMatch.end();
        }
        for (var i = lines.size() - 1; i >= Math.max(0, lines.size() - 9); i--) {
            var line = lines.get(i);
            if (closing >= 0 && line.end() <= closing) {
                break;
            }
            var signed = signed(line, i >= lines.size() - 3 || closing >= 0, findings);
            if (signed.isPresent()) {
                return signed;
            }
        }
        for (var line : lines) {
            var foot = closing >= 0 && line.start() >= closing || line.number() >= lines.size() - 3;
            if (foot && line.number() > 2) {
                var alone = alone(line, findings);
                if (alone.isPresent()) {
                    return alone;
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<Span> lastWords(Page page, Findings findings) {
        var tail = Math.max(0, page.text.length() - TAIL);
        var match = LAST_WORDS.matcher(page.text).region(tail, page.text.length());
        return match.find()
                        && !Fit.matches(
                                page.text.substring(tail, match.start()),
                                "(?is).*\\b(?:copy|copies|cc|gp|pcp|(?:usual|own|family|registered) doctor)(?: to)?[: ]*")
                        && Fit.matches(page.text.substring(tail, match.start()).replace('\n', ' '), LEAD)
                        && !isPatient(match.group(1), findings)
                ? Optional.of(new Span(match.start(1), match.end(1)))
                : Optional.empty();
    }

    private static Optional<Span> signed(Line line, boolean atTheFoot, Findings findings) {
        if (Fit.matches(
                        line.text(),
                        "(?i)(?:cc|copy|copies|c\\.c\\.|enc|dictated|typed|to|re|dear|co-?sign\\w*|supervis\\w*|collaborating|reviewed by|approved by|reply to)\\b.*|(?:patient|pt|name|gp|pcp|nok)[ \\t]*[:.].*")
                || line.text().length() > 110 && !line.text().endsWith(".")) {
            return Optional.empty();
        }
        if (atTheFoot && line.text().matches(SMALL_LETTERS)) {
            return Optional.of(line.span(0, line.text().length()));
        }
        var lettered = LETTERED.matcher(line.text());
        if (lettered.find()
                && (lettered.start() < 12 || Fit.matches(line.text().substring(0, lettered.start()), LEAD))) {
            return Optional.of(line.span(lettered.start(), lettered.end()));
        }
        var titled = TITLED.matcher(line.text());
        if (titled.find()
                && (titled.start() < 3
                        || Fit.matches(line.text().substring(0, titled.start()), LEAD)
                        || Fit.matches(line.text().substring(0, titled.start()), "(?s).*[-\u2013\u2014] *"))
                && !Fit.matches(line.text().substring(titled.end()), GOES_ON)
                && !Fit.matches(line.text(), "(?i).*\\b(?:dear|saw|said|seen by|under|copy)\\b.*")) {
            return Optional.of(line.span(titled.start(), trimmed(line.text(), titled.start(), titled.end())));
        }
        var role = SIGNED_WITH_ROLE.matcher(line.text());
        return atTheFoot && role.find() && !isPatient(role.group(1), findings)
                ? Optional.of(line.span(role.start(1), role.end(1)))
                : Optional.empty();
    }

    private static Optional<Span> alone(Line line, Findings findings) {
        var signed = SIGNED.matcher(line.text());
        return signed.find()
                        && !Letterhead.isOrganisation(signed.group(1))
                        && !Fit.matches(signed.group(1), NOT_A_SIGNATURE)
                        && !isPatient(signed.group(1), findings)
                ? Optional.of(line.span(signed.start(1), signed.end(1)))
                : Optional.empty();
    }

    private static boolean isPatient(String name, Findings findings) {
        return findings.get("patient.family")
                .filter(family -> name.contains(family.asString()))
                .isPresent();
    }

    /** The letterhead has the full name of who signs shortly: "O. Crane" for "Dr Ottoway Crane". */
    private static Span inFull(Page page, List<Line> lines, Span signed) {
        var shortly = Fit.of("[A-Z]\\.? (" + Person.PART + ")").matcher(page.original(signed));
        if (!shortly.matches()) {
            return signed;
        }
        for (var line : lines.subList(0, Math.min(5, lines.size()))) {
            var titled = TITLED.matcher(line.text());
            if (titled.find()
                    && titled.group().endsWith(" " + shortly.group(1))
                    && !Fit.matches(line.text(), "(?i)dear.*")) {
                return line.span(titled.start(), titled.end());
            }
        }
        return signed;
    }

    private static Optional<Span> labelled(Page page, Pattern labels) {
        var match = labels.matcher(page.text);
        while (match.find()) {
            var name = match.group(1).replaceFirst("['\u2019]s$", "");
            var label = page.text.substring(match.start(), match.start(1));
            var titled = Fit.matches(name, "(?s)(?:Dr|Sister|Staff|Nurse|Prof|Sr|DR|dr|Matron)\\b.*");
            var plainTitled = Fit.matches(name, "(?s)(?:Mr|Mrs|Ms|Miss|Mx)\\b.*");
            if (!Fit.matches(name, "(?s).*[a-z].*")
                    || Letterhead.isOrganisation(name) && !titled
                    || !name.contains(" ")
                    || plainTitled && !Fit.matches(label, REFERRER_LABEL)
                    || Fit.matches(label, "(?is).*seen by[ \\t]*") && !Fit.matches(label, "(?s)\\n?[ \\t]*[Ss]een by.*")
                    || labels == NAMED && !PatientName.underReferrer(page.text, match.start())
                    || !label.contains(":")
                            && !titled
                            && Fit.matches(
                                    label, "(?is).*\\b(?:from|gp|doctor|nurse|physician|consultant|attending)[ \\t]+$")
                            && !LETTERED.matcher(name).lookingAt()
                    || Fit.matches(name, MONTHS_AND_ARTICLES)) {
                continue;
            }
            var organisation = Letterhead.behindName(name);
            var end = organisation > 4 ? organisation : name.length();
            return Optional.of(new Span(match.start(1), match.start(1) + end));
        }
        return Optional.empty();
    }

    /** A name in the letterhead: "P Lockyer, Tarn Edge Medical Centre". */
    private static Optional<Span> head(List<Line> lines) {
        for (var line : lines.subList(0, Math.min(5, lines.size()))) {
            if (Fit.matches(
                            line.text(),
                            "(?i)\\s*(?:dear|to|re|attn|patient|fao|cc|copy|copies)\\b.*|.*\\bseen by\\b.*")
                    || line.text().length() > 140) {
                continue;
            }
            if (TITLED.matcher(line.text()).results().count() > 1) {
                // All partners of a practice, of whom one has written.
                continue;
            }
            var lettered = LETTERED.matcher(line.text());
            if (lettered.find()) {
                return Optional.of(line.span(lettered.start(), lettered.end()));
            }
            var titled = TITLED.matcher(line.text());
            if (titled.find()
                    && !Fit.matches(
                            line.text().substring(0, titled.start()),
                            "(?i).*\\b(?:dear|to|with|under|for|taken by|taken down by|(?:gp|pcp|doctor|consultant|attending)\\s*:)\\s*$|.*\\b(?:(?:19|20)\\d\\d|by|stent\\w*|bypass|angio\\w*|operat\\w*|done|seen)\\W*\\(\\s*$")) {
                var end = trimmed(line.text(), titled.start(), titled.end());
                return titled.group().length() < 4 ? Optional.empty() : Optional.of(line.span(titled.start(), end));
            }
            var plain = Fit.of("^[ \\t]*(" + Person.INITIAL + "[ \\t]+" + Person.PART + "|" + Person.PART + "[ \\t]+"
                            + Person.PART + ")[ \\t]*[,/]")
                    .matcher(line.text());
            if (plain.find()
                    && Letterhead.isOrganisation(line.text().substring(plain.end()))
                    && !Letterhead.isOrganisation(plain.group(1))) {
                return Optional.of(line.span(plain.start(1), plain.end(1)));
            }
        }
        return Optional.empty();
    }

    /** Without the practice that stands behind the name in the same line: "Dr S Reddle Harbour Road Practice". */
    private static int trimmed(String line, int start, int end) {
        var organisation = Letterhead.behind(line, start);
        if (organisation.isEmpty() || organisation.get().start() >= end) {
            return end;
        }
        var name = Fit.of("(?:" + Person.TITLE + "[ \\t]+)+(?:(?:" + Person.INITIAL + "[ \\t]+){1,4}" + Person.PART
                        + "|" + Person.PART + "[ \\t]+" + Person.PART + ")")
                .matcher(line)
                .region(start, organisation.get().end());
        return name.find() ? name.end() : end;
    }
}
