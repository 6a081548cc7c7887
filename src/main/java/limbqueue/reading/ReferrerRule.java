package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Who wrote the letter, from its head and its signature; how he or she wants the answer; and when it was received. */
final class ReferrerRule implements Rule {

    private static final String PART =
            "(?:(?:Mc|Mac|O['\u2019]|D['\u2019])?[A-Z][a-z\u00c0-\u024f]+(?:['\u2019-][A-Z]?[a-z\u00c0-\u024f]{1,30}+){0,3})";
    private static final String INITIAL = "(?:[A-Z]\\.?)";
    private static final String TITLE = "(?:[Dd]r|DR|Doctor|Prof(?:essor)?|Sister|Nurse|Sr|Matron)\\b\\.?";
    private static final String PERSON = "(?:" + PART + "|" + INITIAL
            + ")(?:[ \\t](?!Fax|Tel|Phone|Date|Dear|Ref\\b)(?:" + PART + "|" + INITIAL + "(?![a-z]))){0,3}";
    private static final String LETTERS =
            "(?:M\\.?D\\.?|D\\.?O\\.?|N\\.?P\\.?|P\\.?A\\.?(?:-C)?|R\\.?N\\.?|F?NP(?:-C|-BC)?|APRN|CNM|DPM|MBBS|MBChB|FRCS|FRCP|MRCGP|CNP|CRNP|ARNP|DNP|PhD|BSc|RVT|RVS|CWS|CWOCN|LPN|MPH|FACS|FACP)\\b\\.?";

    private static final Pattern LETTERED = Pattern.compile(
            "(?:(" + TITLE + "[ \\t]+)?" + PERSON + "),?[ \\t]+" + LETTERS + "(?:,?[ \\t]+" + LETTERS + "){0,5}");
    private static final Pattern TITLED = Pattern.compile("(?:" + TITLE + "[ \\t]+){1,3}" + PERSON);
    private static final Pattern LABELLED = Pattern.compile(
            "(?im)(?:^|[ \\t|])(?:referr(?:er|ing[ \\t]+(?:doctor|physician|clinician|provider|gp))(?:[ \\t]*name)?|referred[ \\t]+by|from|requesting[ \\t]+(?:doctor|physician|provider)|gp|doctor|nurse|clinician|signed(?:[ \\t]+by)?|physician|provider|pcp|dictated[ \\t]+by|caller|signature|practitioner|seen by|author|requested by)[ \\t]*[:\\-]?[ \\t]*(?-i:((?:"
                    + TITLE + "[ \\t]+){0,3}" + PERSON + "(?:,?[ \\t]+" + LETTERS + ")*))");
    private static final Pattern SIGNED = Pattern.compile(
            "^[ \\t]*(?:[-\u2013\u2014/]+[ \\t]*)?((?:" + PART + "|" + INITIAL + ")(?:[ \\t]+(?:" + PART + "|" + INITIAL
                    + ")){0,3}[ \\t]+" + PART + ")[ \\t]*,?(?:[ \\t]*(?:"
                    + "(?:practice|district|community|tissue|advanced|clinical|specialist|vascular|consultant|general|family|nurse|podiatrist|physician|gp|registrar|scientist)[ a-z]*)?)[ \\t]*$");

    private static final String ORGANISATION_WORD =
            "(?:Surgery|Surgry|Practice|Practise|Practce|Medical|Clinic|Hospital|Hosp|Infirmary|Health|Centre|Center|Group|Associates|Medicine|Physicians|Department|Nursing|House|Care|Foundation|Trust|Imaging|Radiology|Podiatry|Cardiology|Nephrology|Diabetes|Wound|Community|General|Memorial|Laboratory|Institute|Partners|Partnership|Family|Internists|Specialists|Service|Services|Unit)";
    private static final Pattern ORGANISATION = Pattern.compile(
            "\\b" + ORGANISATION_WORD + "\\b|\\b(?i:" + ORGANISATION_WORD
                    + ")\\b(?<=[A-Z0O1l]{2})|(?<=[A-Z][a-z]{2,15} )(?:surgery|surgry|practice|practise|clinic|hospital|medical|health)\\b");
    private static final Pattern NOT_ORGANISATION = Pattern.compile(
            "(?i)\\b(?:dear|referral|re|patient|name|date|tel|phone|fax|form|summary|note|letter|to|dob|born|request|sheet|report|subject|received|page|urgent|mr|mrs|ms|miss|thank|diagnosis|message|phone note|nhs number|clinic date|history|vascular team|your|appointment|refer|service:)\\b|:");
    private static final Pattern FORM_ORGANISATION = Pattern.compile(
            "(?im)(?:^|[ \\t|])(?:practice|surgery|organi[sz]ation|hospital|facility|clinic|referring[ \\t]+(?:practice|site|facility|clinic|organi[sz]ation)|service|institution|group|centre|center)[ \\t]*(?:name)?[ \\t]*[:]?[ \\t]+(?-i:([A-Z][\\w'\u2019&-]*(?:[ \\t](?:of|and|the|&|[A-Z][\\w'\u2019&.-]*)){0,8}))(?=[ \\t]{2,}|[ \\t]*[,;\\n\\r(]|[ \\t]*$|[ \\t]+(?:Doctor|Tel|Fax|Phone|Nurse|Dr)\\b)");

    private static final String NUMBER =
            "(\\+?\\(?\\d[\\d()OolI]{1,6}[ .-]?\\(?[\\dOolI]{2,4}\\)?(?:[ .-]?[\\dOolI]{2,6}){1,4})";
    private static final Pattern FAX = Pattern.compile(
            "(?i)\\bfax\\b(?:[ \\t]+(?:no\\.?|number|us|me|back|reply|to|on|at|is))*[ \\t]*[.:]?[ \\t]*" + NUMBER);
    private static final Pattern PHONE = Pattern.compile(
            "(?i)\\b(?:tel(?:ephone)?|phone|ph|direct line|call back|bleep|mobile|t)\\b(?:[ \\t]+(?:no\\.?|number|me|us|on|at|is|\\(direct\\)|back))*[ \\t]*[.:]?[ \\t]*"
                    + NUMBER);
    private static final Pattern EMAIL = Pattern.compile(
            "(?<![A-Za-z0-9._%+-])[A-Za-z0-9._%+-]{1,64}+@[A-Za-z0-9-]{1,63}(?:\\.[A-Za-z0-9-]{1,63}){1,6}");
    private static final Pattern TOLD_PREFERENCE = Pattern.compile(
            "\\b(?:(?:please |kindly |pls )?(?:reply|answer|respond|replies|report back|write back|letters?|results?|correspondence|get back to me|send (?:your |the )?(?:reply|report|letter|answer|response)s?|just|back)\\b[^.;]{0,40}?\\b(?<a>fax|post|e-?mail|mail|letter)\\b(?! address)|(?<b>e-?mail|fax|post)(?:ed)? (?:me|us|back|is (?:best|fine|preferred|easiest|quickest)|preferred|reply|please|replies)|(?:prefer(?:s|red|ence|ably)?)\\b[^.;]{0,40}?\\b(?<c>fax|post|e-?mail|mail|letter)\\b|(?<d>fax|post|e-?mail) (?:reply|replies|answers?)(?: please| preferred)?|(?:reply|replies|answer)s?(?: please)?(?: by| via| to| :|:)? ?(?<e>fax|post|e-?mail)\\b)");
    private static final Pattern BOX = Pattern.compile(
            "(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714]|\\bx) ?(post|fax|e-?mail)\\b|\\b(post|fax|e-?mail) ?(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714])");
    private static final Pattern BOX_FIRST =
            Pattern.compile("(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714]) ?(post|fax|e-?mail)\\b()?");
    private static final Pattern RECEIVED = Pattern.compile(
            "\\b(?:received|rec'd|recd|date received|date stamp|stamped|rcvd)\\b[ :.-]*(?:on |by fax |by post |by e-?mail |in office |date )*[ :.-]*(?:[a-z]{3,9},? )?$");
    private static final Pattern CLOSING = Pattern.compile(
            "(?im)^[ \\t]*(?:(?:with|many|best|kind|warm)[ \\t]+)*(?:yours?[ \\t]+(?:sincere[l1]y|faithfu[l1]{2}y|tru[l1]y|ever)|sincere[l1]y(?:[ \\t]+yours)?|(?:kind(?:est)?|best|warm)[ \\t]+(?:regards|wishes)|regards|wishes|thanks|thank you|many thanks|respectfully|cheers|cordially)[ \\t]*[,.!]?[ \\t]*$");

    @Override
    public void read(Page page, Findings findings) {
        var lines = lines(page.text);
        name(page, lines, findings);
        organisation(page, lines, findings);
        numbers(page, findings);
        lonePhone(lines, findings);
        preference(page, findings);
        received(page, findings);
    }

    private record Line(int start, int end, String text) {}

    private static List<Line> lines(String text) {
        var lines = new ArrayList<Line>();
        var at = 0;
        while (at <= text.length() && lines.size() < 5_000) {
            var next = text.indexOf('\n', at);
            var end = next < 0 ? text.length() : next;
            var from = at;
            var to = end;
            while (from < to && Character.isWhitespace(text.charAt(from))) {
                from++;
            }
            while (to > from && Character.isWhitespace(text.charAt(to - 1))) {
                to--;
            }
            lines.add(new Line(from, to, text.substring(from, Math.min(to, from + 300))));
            at = end + 1;
            if (next < 0) {
                break;
            }
        }
        return lines;
    }

    private static void name(Page page, List<Line> lines, Findings findings) {
        var found = signature(page, lines, findings)
                .or(() -> labelled(page))
                .or(() -> head(lines))
                .or(() -> introduced(page));
        found.ifPresent(span -> findings.put(
                "referrer.name", page.original(span).replaceAll("\\s+", " ").replaceAll("[,.]$", ""), span));
    }

    /** The last lines: "Dr Anwen Prosser", "Warren Ostrander, DO", or a name alone under the closing words. */
    private static Optional<Span> signature(Page page, List<Line> lines, Findings findings) {
        var written = lines.stream().filter(line -> !line.text().isEmpty()).toList();
        var closing = -1;
        var closingMatch = CLOSING.matcher(page.text);
        while (closingMatch.find()) {
            closing = closingMatch.end();
        }
        var from = Math.max(0, written.size() - 9);
        for (var i = written.size() - 1; i >= from; i--) {
            var line = written.get(i);
            if (closing >= 0 && line.end() <= closing) {
                break;
            }
            if (Fit.matches(line.text(), "(?i)(?:cc|copy|copies|c\\.c\\.|enc|dictated|typed|to)\\b.*")
                    || line.text().length() > 110) {
                continue;
            }
            var lettered = LETTERED.matcher(line.text());
            if (lettered.find()
                    && (lettered.start() < 12
                            || Fit.matches(line.text().substring(0, lettered.start()), "(?i).*(?:signed|by|:)\\W*"))) {
                return Optional.of(new Span(line.start() + lettered.start(), line.start() + lettered.end()));
            }
            var titled = TITLED.matcher(line.text());
            if (titled.find()
                    && (titled.start() < 3
                            || Fit.matches(
                                    line.text().substring(0, titled.start()),
                                    "(?i).*(?:signed|signature|by|:|thank you|thanks|regards|please|sincerely|truly|[.!])\\W*"))
                    && !Fit.matches(line.text(), "(?i).*\\b(?:dear|saw|said|seen by|under|copy)\\b.*")) {
                return Optional.of(new Span(
                        line.start() + titled.start(),
                        line.start() + trimmed(line.text(), titled.start(), titled.end())));
            }
        }
        for (var i = 0; i < written.size(); i++) {
            var line = written.get(i);
            var afterClosing = closing >= 0 && line.start() >= closing;
            var last = i >= written.size() - 3;
            var signed = SIGNED.matcher(line.text());
            if ((afterClosing || last)
                    && i > 2
                    && signed.find()
                    && !ORGANISATION.matcher(signed.group(1)).find()
                    && !Fit.matches(
                            signed.group(1),
                            "(?i).*\\b(?:thank|please|dear|regards|yours|kind|best|many|end|page|urgent|routine|plan|signed|from|with|allergies|left|right|new paragraph)\\b.*")
                    && !findings.get("patient.family")
                            .filter(name -> signed.group(1).contains(name.asString()))
                            .isPresent()) {
                return Optional.of(new Span(line.start() + signed.start(1), line.start() + signed.end(1)));
            }
        }
        return Optional.empty();
    }

    private static Optional<Span> labelled(Page page) {
        var match = LABELLED.matcher(page.text);
        while (match.find()) {
            var name = match.group(1);
            var label = page.text.substring(match.start(), match.start(1));
            if (!Fit.matches(name, "(?s).*[a-z].*")
                    || ORGANISATION.matcher(name).find() && !Fit.matches(name, "(?:Dr|Sister|Nurse|Prof).*")
                    || !name.contains(" ")
                    || Fit.matches(label, "(?is).*\\b(?:from|gp|doctor|nurse|physician)[ \\t]+$")
                            && !label.contains(":")
                            && !Fit.matches(
                                    name,
                                    "(?s)(?:Dr|Sister|Nurse|Prof|Sr|DR|[A-Z][\\w'.-]*(?: [A-Z][\\w'.-]*)*,? (?:MD|NP|DO|RN|PA)).*")
                    || Fit.matches(
                            name,
                            "(?s)(?:The|A|Left|Right|To|No|January|February|March|April|May|June|July|August|September|October|November|December)\\b.*")) {
                continue;
            }
            var end = match.start(1) + name.length();
            var organisation = Fit.of(
                            "[ \\t]+" + PART + "(?:[ \\t]+" + PART + "){0,5}[ \\t]+" + ORGANISATION_WORD + "\\b.*$")
                    .matcher(name);
            if (organisation.find() && organisation.start() > 4) {
                end = match.start(1) + organisation.start();
            }
            return Optional.of(new Span(match.start(1), end));
        }
        return Optional.empty();
    }

    /** A name in the letterhead: "P Lockyer, Tarn Edge Medical Centre". */
    private static Optional<Span> head(List<Line> lines) {
        for (var line :
                lines.stream().filter(line -> !line.text().isEmpty()).limit(5).toList()) {
            if (Fit.matches(line.text(), "(?i)\\s*(?:dear|to|re|attn|patient|fao)\\b.*")
                    || line.text().length() > 140) {
                continue;
            }
            var lettered = LETTERED.matcher(line.text());
            if (lettered.find()) {
                return Optional.of(new Span(line.start() + lettered.start(), line.start() + lettered.end()));
            }
            var titled = TITLED.matcher(line.text());
            if (titled.find()
                    && !Fit.matches(
                            line.text().substring(0, titled.start()), "(?i).*\\b(?:dear|to|with|under|for)\\s+$")) {
                var name = titled.group();
                var end = trimmed(line.text(), titled.start(), titled.end());
                return name.length() < 4
                        ? Optional.empty()
                        : Optional.of(new Span(line.start() + titled.start(), line.start() + end));
            }
            var plain = Fit.of(
                            "^[ \\t]*(" + INITIAL + "[ \\t]+" + PART + "|" + PART + "[ \\t]+" + PART + ")[ \\t]*[,/]")
                    .matcher(line.text());
            if (plain.find()
                    && ORGANISATION.matcher(line.text().substring(plain.end())).find()
                    && !ORGANISATION.matcher(plain.group(1)).find()) {
                return Optional.of(new Span(line.start() + plain.start(1), line.start() + plain.end(1)));
            }
        }
        return Optional.empty();
    }

    /** Without the practice that stands behind the name in the same line: "Dr S Reddle Harbour Road Practice". */
    private static int trimmed(String line, int start, int end) {
        var organisation = Fit.of("[ \\t]+(?:" + PART + "[ \\t]+){1,3}" + ORGANISATION_WORD + "\\b")
                .matcher(line)
                .region(start, line.length());
        return organisation.find() && organisation.start() < end ? nameEnd(line, start, organisation.end()) : end;
    }

    /** Where a name of title, first name or initial, and surname ends in a line that goes on with a practice. */
    private static int nameEnd(String line, int start, int end) {
        var name = Fit.of("(?:" + TITLE + "[ \\t]+)+(?:(?:" + INITIAL + "[ \\t]+){1,4}" + PART + "|" + PART + "[ \\t]+"
                        + PART + ")")
                .matcher(line)
                .region(start, end);
        return name.find() ? name.end() : end;
    }

    private static Optional<Span> introduced(Page page) {
        var match = Fit.of(
                        "\\b(?:[Tt]his is|[Ii] am|[Rr]eferral (?:came )?from|[Rr]eferred by|[Mm]essage from|[Ss]ent by|[Ff]rom)[ \\t]+((?:"
                                + TITLE + "[ \\t]+){1,3}" + PERSON + ")")
                .matcher(page.text);
        return match.find() ? Optional.of(new Span(match.start(1), match.end(1))) : Optional.empty();
    }

    private static void organisation(Page page, List<Line> lines, Findings findings) {
        var form = FORM_ORGANISATION.matcher(page.text);
        var name = findings.words("referrer.name");
        while (form.find()) {
            var value = form.group(1).strip();
            if (ORGANISATION.matcher(value).find() && value.contains(" ")) {
                put(value, new Span(form.start(1), form.start(1) + value.length()), findings);
                return;
            }
        }
        var written = lines.stream().filter(line -> !line.text().isEmpty()).toList();
        for (var i = 0; i < Math.min(6, written.size()); i++) {
            var found = inLine(written.get(i), name);
            if (found.isPresent()) {
                var span = found.get();
                put(page.original(span), span, findings);
                address(page, lines, written, i, span, findings);
                return;
            }
        }
        for (var i = written.size() - 1; i >= Math.max(0, written.size() - 7); i--) {
            var found = inLine(written.get(i), name);
            if (found.isPresent() && (i >= written.size() - 4)) {
                put(page.original(found.get()), found.get(), findings);
                return;
            }
        }
        if (name.isPresent()) {
            var rest = page.text.substring(
                    name.get().end(), Math.min(page.text.length(), name.get().end() + 80));
            var match = Fit.of(
                            "^[ \\t]*[,/(-]?[ \\t]*(?:(?:at|of|from)[ \\t]+)?((?:St\\.?[ \\t]+)?[A-Z][\\w'\u2019]*(?:[ \\t]+(?:of|and|the|&|[A-Z][\\w'\u2019]*|nursing home|home)){0,8})")
                    .matcher(rest);
            if (match.find() && ORGANISATION.matcher(match.group(1)).find()) {
                put(
                        match.group(1),
                        new Span(name.get().end() + match.start(1), name.get().end() + match.end(1)),
                        findings);
            }
        }
    }

    private static void put(String value, Span span, Findings findings) {
        findings.put("referrer.organisation", value.strip().replaceAll("\\s+", " "), span);
    }

    /** The practice named in a line of the head or the foot, without the doctor, the address and the date beside it. */
    private static Optional<Span> inLine(Line line, Optional<Span> name) {
        var text = line.text();
        if (text.length() > 120
                || !ORGANISATION.matcher(text).find()
                || Fit.matches(text, "(?i)\\s*(?:dear|re\\b|to\\b|cc\\b|patient|fax to|attn|fao|about).*")) {
            return Optional.empty();
        }
        var pieces = Fit.of(
                        "[ \\t]{2,}|,[ \\t]*|[ \\t]*[/|;][ \\t]*|[ \\t]+[-\u2013\u2014]+[ \\t]+|\\.[ \\t]+(?=[A-Z])|[ \\t]+(?=\\(?\\d)|[ \\t]+(?=Dr\\b)|\\.$|[ \\t]+(?=\\d?\\d (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec))")
                .matcher(text);
        var at = 0;
        var ends = new ArrayList<int[]>();
        while (pieces.find()) {
            ends.add(new int[] {at, pieces.start()});
            at = pieces.end();
        }
        ends.add(new int[] {at, text.length()});
        for (var i = 0; i < ends.size(); i++) {
            var start = ends.get(i)[0];
            var end = ends.get(i)[1];
            if (name.isPresent()
                    && name.get().start() >= line.start()
                    && name.get().start() < line.end()) {
                var nameStart = name.get().start() - line.start();
                var nameEnd = name.get().end() - line.start();
                if (start >= nameStart && start < nameEnd) {
                    start = Math.min(end, nameEnd);
                    while (start < end && " \t,".indexOf(text.charAt(start)) >= 0) {
                        start++;
                    }
                } else if (nameStart > start && nameStart < end) {
                    end = nameStart;
                }
            }
            var piece = text.substring(Math.min(start, end), end).strip();
            if (piece.length() < 5
                    || !ORGANISATION.matcher(piece).find()
                    || NOT_ORGANISATION.matcher(piece).find()
                    || !Character.isUpperCase(piece.charAt(0))
                    || piece.split(" ").length > 8
                    || piece.split(" ").length < 2
                    || Fit.matches(piece, "(?s).*\\b(?:does|not|no|have|is|was|has|with|for|he|she|this|I)\\b.*")
                    || Fit.of(
                                    "^(?:Consultant|Vascular Surgeon|Nurse|Family Physician|General Practitioner|Department|Dept|Unit|Diabetic Foot Clinic|Clinical)\\b")
                            .matcher(piece)
                            .find()) {
                continue;
            }
            // "Upper Arven Hosp, Radiology": the department belongs to the name of the line.
            if (i + 1 < ends.size() && text.substring(end, ends.get(i + 1)[0]).startsWith(",")) {
                var next =
                        text.substring(ends.get(i + 1)[0], ends.get(i + 1)[1]).strip();
                if (Fit.matches(
                        next,
                        "(?:Radiology|Cardiology|Podiatry|Nephrology|Vascular (?:Unit|Surgery)|Department of .*|Dept of .*)")) {
                    end = ends.get(i + 1)[1];
                }
            }
            var from = text.indexOf(piece, Math.min(start, text.length()));
            var to = Math.max(end, from + piece.length());
            return Optional.of(new Span(
                    line.start() + from,
                    line.start() + text.substring(0, to).stripTrailing().length()));
        }
        return Optional.empty();
    }

    private static final Pattern STREET = Pattern.compile(
            "(?i).*(?:\\d|\\b(?:road|street|lane|avenue|drive|way|close|walk|row|square|place|court|terrace|hill|quay|yard|blvd|boulevard|suite|st|rd|ave|dr|highway|crescent|gardens|park|green|wharf|parade|hwy|pike|box)\\b|^[A-Z][a-z]+(?: [A-Z][a-z]+){0,2}, [A-Z][\\w ]+$).*");

    /** The lines under the practice's name, up to a blank line, a number to ring, or a date. */
    private static void address(
            Page page, List<Line> lines, List<Line> written, int at, Span organisation, Findings findings) {
        var line = written.get(at);
        var rest = line.text().substring(Math.min(line.text().length(), organisation.end() - line.start()));
        var parts = new ArrayList<String>();
        var start = -1;
        var end = -1;
        var beside = Fit.of(
                        "^[ \\t]*[,.;|-]?[ \\t]*(\\d{1,5}[A-Za-z]?[ \\t]+[A-Z][^|;]*?)(?=[ \\t]{2,}|[ \\t]*[.;|]|[ \\t]*,?[ \\t]*(?i:tel|phone|fax|t:|f:)|$)")
                .matcher(rest);
        if (beside.find()
                && STREET.matcher(beside.group(1)).matches()
                && !Fit.matches(beside.group(1), "\\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec).*")) {
            parts.add(beside.group(1).strip());
            start = organisation.end() + beside.start(1);
            end = organisation.end() + beside.end(1);
        }
        var index = lines.indexOf(line);
        for (var i = index + 1; i < Math.min(lines.size(), index + 5); i++) {
            var next = lines.get(i).text();
            if (next.isEmpty() || next.length() > 70) {
                break;
            }
            if (Fit.matches(
                            next,
                            "(?i)(?:department|dept|unit|division|service|diabetic|diabetes|surgical|clinic|ward)\\b.*|.*\\b(?:department|clinic|unit|out-?patients)$")
                    && parts.isEmpty()) {
                continue;
            }
            if (Fit.matches(next, "[+(]?[\\d][\\d ()-]{7,}")) {
                break;
            }
            var cut = Fit.of(
                            "(?i)[ \\t,;|.-]*\\b(?:tel|phone|ph|fax|e-?mail|t|f)\\b[ \\t]*[.:]?[ \\t]*\\(?[+\\d].*$|[ \\t]{3,}.*$|[ \\t|,;]*[\\w.]+@.*$")
                    .matcher(next);
            var piece = cut.find() ? next.substring(0, cut.start()) : next;
            piece = piece.strip();
            if (piece.isEmpty()
                    || Fit.matches(
                            piece,
                            "(?i).*\\b(?:dear|re|patient|dob|received|referral|date|tel|phone|fax|e-?mail|department|clinic date|dr|mr|mrs|ms|summary|unit|consultant|sister)\\b.*")
                    || !page.dates.in(Plain.fold(piece)).isEmpty()
                    || piece.contains(":")
                    || piece.contains("@")) {
                break;
            }
            if (parts.isEmpty() && !STREET.matcher(piece).matches()
                    || ORGANISATION.matcher(piece).find() && parts.isEmpty() && !Fit.matches(piece, ".*\\d.*")) {
                break;
            }
            parts.add(piece.replaceAll("[,.]$", ""));
            start = start < 0 ? lines.get(i).start() : start;
            end = lines.get(i).start() + piece.length();
            if (cut.reset().find()) {
                break;
            }
        }
        if (!parts.isEmpty()) {
            findings.put("referrer.address", String.join(", ", parts).replaceAll("\\s+", " "), new Span(start, end));
        }
    }

    private static void numbers(Page page, Findings findings) {
        var fax = FAX.matcher(page.text);
        while (fax.find()) {
            var line = page.text.substring(page.text.lastIndexOf('\n', fax.start()) + 1, fax.start());
            if (Fit.matches(fax.group(), "(?is)fax[ \\t]+to\\b.*")
                    || Fit.matches(line, "(?is).*\\b(?:to|your)[ \\t]*$")) {
                continue;
            }
            findings.put("referrer.fax", digits(fax.group(1)), new Span(fax.start(1), fax.end(1)));
            break;
        }
        var patients = findings.words("patient.phone");
        var phone = PHONE.matcher(page.text);
        while (phone.find()) {
            var start = phone.start(1);
            if (patients.filter(span -> span.start() == start).isPresent()) {
                continue;
            }
            var line = page.text.substring(page.text.lastIndexOf('\n', phone.start()) + 1, phone.start());
            if (Fit.matches(
                            line,
                            "(?is).*\\b(?:patient|his|her|daughter|son|wife|husband|home|nok|kin|carer|pharmacy)\\b[^,;]*$")
                    || phone.group(1).replaceAll("\\D", "").length() < 6
                    || Fit.matches(line, "(?is).*fax[ /&]*$")) {
                continue;
            }
            findings.put("referrer.phone", digits(phone.group(1)), new Span(phone.start(1), phone.end(1)));
            break;
        }
        var email = EMAIL.matcher(page.text);
        while (email.find()) {
            var line = page.text.substring(page.text.lastIndexOf('\n', email.start()) + 1, email.start());
            if (Fit.matches(line, "(?is).*\\b(?:patient|his|her|to|cc|daughter|son)\\b[^,;]*$")
                    && !Fit.matches(line, "(?is).*\\b(?:reply|answer|back|write|respond|send)\\b.*")) {
                continue;
            }
            findings.put("referrer.email", email.group(), new Span(email.start(), email.end()));
            break;
        }
    }

    /** A line of the letterhead that is a number and nothing else. */
    private static void lonePhone(List<Line> lines, Findings findings) {
        for (var line :
                lines.stream().filter(line -> !line.text().isEmpty()).limit(6).toList()) {
            if (findings.words("referrer.phone").isEmpty()
                    && Fit.matches(line.text(), "\\+?\\(?\\d[\\d() -]{8,20}")
                    && line.text().replaceAll("\\D", "").length() >= 9) {
                findings.put("referrer.phone", line.text(), new Span(line.start(), line.end()));
            }
        }
    }

    private static String digits(String number) {
        return number.strip().replaceAll("[Oo]", "0").replaceAll("[lI]", "1");
    }

    private static void preference(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            if (!sentence.hasAny("fax", "post", "mail", "letter")) {
                continue;
            }
            var box = BOX.matcher(plain);
            var boxFirst = Fit.matches(plain, "(?s).*(?:\\[[ x]*\\]|\\([ x]*\\)|[☐☑☒]) ?(?:post|fax|e-?mail).*")
                    && !Fit.matches(
                            plain,
                            "(?s).*?\\b(?:post|fax|e-?mail) ?(?:\\[[ x]*\\]|\\([ x]*\\)|[☐☑☒]).*(?:\\]|\\)|[☐☑☒]) *$");
            box = boxFirst ? BOX_FIRST.matcher(plain) : box;
            if (Fit.matches(plain, "(?s).*\\b(?:repl\\w+|answer|prefer\\w*|respon\\w+)\\b.*") && box.find()) {
                findings.put(
                        "referrer.prefers",
                        way(box.group(1) != null ? box.group(1) : String.valueOf(box.group(2))),
                        sentence.span(box));
                return;
            }
            var told = TOLD_PREFERENCE.matcher(plain);
            if (!Fit.matches(plain, "(?s).*(?:\\[ *\\]|\\( \\)|\u2610).*")
                    && told.find()
                    && !Fit.matches(
                            plain,
                            "(?s).*\\b(?:report (?:was |has been )?sent by|images (?:were )?sent|results? (?:came|were sent|will follow|to follow)|by fax yesterday|fax(?:ed)? (?:the report|it) to)\\b.*")) {
                for (var group : List.of("a", "b", "c", "d", "e")) {
                    if (told.group(group) != null
                            && !(told.group(group).equals("letter")
                                    && !told.group().contains("by letter"))) {
                        findings.put("referrer.prefers", way(told.group(group)), sentence.span(told));
                        return;
                    }
                }
            }
        }
    }

    private static String way(String word) {
        return word.startsWith("fax") ? "fax" : word.contains("e-mail") || word.equals("email") ? "email" : "post";
    }

    private static void received(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            for (var date : page.dates.in(sentence.plain)) {
                var before = sentence.plain.substring(0, date.start());
                if (date.full()
                        && RECEIVED.matcher(before).find()
                        && !Fit.matches(
                                before,
                                "(?s).*\\b(?:letter|report|he|she|we|i|was|images|has|been|not) (?:\\w+ )?(?:received|recd).*")) {
                    findings.put(
                            "received", date.date().orElseThrow().toString(), sentence.span(date.start(), date.end()));
                    return;
                }
            }
        }
    }
}
