package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.reading.Lines.Line;

/** The practice or hospital that a letter comes from, and its address: of the head, the foot, or a line that says so. */
final class Letterhead {

    private static final String KIND =
            "(?:Surgery|Surgry|Practice|Practise|Practce|Medical|Clinic|Hospital|Hosp|Infirmary|Health|Centre|Center|Group|Associates|Medicine"
                    + "|Physicians|Department|Dept|Nursing|House|Care|Foundation|Trust|Imaging|Radiology|Podiatry|Cardiology|Nephrology|Diabetes"
                    + "|Wound|Community|General|Memorial|Laboratory|Institute|Partners|Partnership|Family|Internists|Specialists|Service|Services"
                    + "|Royal|HC|ED|Foot & Ankle|Foot and Ankle|Foot Care|Associates|Unit|Campus|Team|Walk-[Ii]n|Polyclinic|Hospice|Heart|Vascular|LLC|LLP|PLLC|LTD|Ltd|Inc|out of hours|Out of Hours)";
    private static final Pattern ORGANISATION = Pattern.compile(
            "\\b" + KIND + "\\b|\\b(?i:" + KIND + ")\\b(?<=[A-Z0O1l]{2})"
                    + "|(?<=[A-Z][a-z]{2,15} )(?:surgery|surgry|practice|practise|clinic|hospital|medical|health|nursing home)\\b");

    private static final String CAPITALS = "[A-Z][\\w'\u2019&.-]*";
    private static final String NAMED = CAPITALS + "(?:[ \\t]+(?:of|and|the|&|in|at|" + CAPITALS + ")){0,8}";

    private static final Pattern NOT_ORGANISATION = Pattern.compile(
            "(?i)\\b(?:dear|referral|re|patient|name|date|tel|phone|fax|form|summary|note|letter|to|dob|born|request|sheet|report|subject"
                    + "|received|page|urgent|mr|mrs|ms|miss|thank|diagnosis|message|phone note|nhs number|clinic date|history|vascular team"
                    + "|interventional (?:vascular|radiology)|your|appointment|refer|questionnaire|handover|attachments?|service:)\\b|:|\\.{3}|[\\[\\]]|^from\\b");

    /** Somebody's calling, which is no practice. */
    private static final Pattern CALLING =
            Pattern.compile("(?i)\\b(?:nurse(?![ -]led)|specialist|surgeon|podiatrist|practitioner|registrar)\\b");

    /** A name in which words have capitals, but for small ones and the kinds of practices. */
    private static final Pattern CAPITALISED = Pattern.compile(
            "(?:(?:[A-Z0-9(&'\u2019][^ \\t]*|of|and|the|for|in|at|on|upon|&|-|\u2013|surgery|surgry|practice|practise|clinic|hospital|medical|health|nursing|home|centre|center|community|foot|unit|service|team|department|out|hours)(?:[ \\t]+|$))+");

    /** A line that names whoever treats the patient beside the writer. */
    private static final Pattern OF_OTHERS = Pattern.compile(
            "(?i)\\s*(?:dear|re\\b|to\\b|cc\\b|c\\.c\\.|copy|patient|fax to|attn|fao|about|(?:registered |usual )?(?:gp|pcp)[ \\t]*:|referring to\\b|family doctor|nok|pharmacy).*");

    /** A box of a form: "Practice: Millrace Surgery". */
    private static final Pattern FORM = Pattern.compile(
            "(?im)(?:^|[ \\t|])(?:practice|surgery|organi[sz]ation|hospital|facility|clinic|referring[ \\t]+(?:practice|site|facility|clinic|organi[sz]ation)"
                    + "|service|institution|group|centre|center)[ \\t]*(?:name)?[ \\t]*[:]?[ \\t]+(?-i:([A-Z][\\w'\u2019&-]*(?:[ \\t](?:of|and|the|&|[A-Z][\\w'\u2019&.-]*)){0,8}))"
                    + "(?=[ \\t]{2,}|[ \\t]*[,;\\n\\r(]|[ \\t]*$|[ \\t]+(?:Doctor|Tel|Fax|Phone|Nurse|Dr)\\b)");

    /** A line that tells the sender: "From: Dr Umber, Marlpit Health Centre". */
    private static final Pattern SENDER = Pattern.compile(
            "(?i)(?:^|[ \\t]{2,}|[.] )(?:from|fron|frorn|sender|referr(?:er|ing(?! to)(?: \\w+)?)|referred by|caller|provider|(?:form )?(?:completed|filled(?: in)?) by|taken by\\b[^,]{2,40}, for)"
                    + "[ \\t]*:?[ \\t]+");

    private static final String STREET_KIND =
            "(?:road|street|lane|avenue|drive|way|close|walk|row|square|place|court|terrace|hill|quay|yard|blvd|boulevard|suite|st|rd|ave|dr|highway"
                    + "|crescent|approach|esplanade|promenade|broadway|croft|chase|gardens|park|green|wharf|parade|hwy|pike|box|plaza|turnpike|parkway|pkwy|fold|mews|grove|rise|view|side|quayside|bank|circle|trail|ln|lodge)";
    private static final Pattern STREET = Pattern.compile(
            "(?i).*(?:^(?:flat |suite |unit |po box |p\\.o\\. box )?\\d|\\b" + STREET_KIND
                    + "\\b|^[A-Z][a-z]+(?: [A-Z][a-z]+){0,2}, [A-Z][\\w ]+$|^[A-Z][\\w'\u2019 ]+(?:, [A-Z][\\w'\u2019 ]+)+ (?-i:[A-Z]{1,2}\\d[\\dA-Z]? ?\\d[A-Z]{2}|[A-Z]{2} \\d{5}(?:-\\d{4})?)$).*");
    private static final Pattern STREET_NAMED = Pattern.compile(
            "(?i)(?:(?:suite|unit|floor|flat|p\\.?o\\.? box) \\d.*|\\d{1,5}[a-z]?[ \\t]+[a-z].*|(?:[a-z'\u2019-]+ ){0,3}"
                    + STREET_KIND + ")(?: (?:\\w+ )?(?:[ns][ew]?|\\d+))?");
    private static final Pattern PLACE = Pattern.compile(
            "[A-Z][a-z'\u2019-]+(?: (?:on|under|upon|the|[A-Z][a-z'\u2019-]+)){0,3}(?: [A-Z]{1,2}\\d[\\dA-Z]? ?\\d[A-Z]{2}| [A-Z]{2}(?: \\d{5})?)?");

    /** What parts the pieces of a line: blanks, a comma, a stroke, a dash, an arrow, a bracket, a number, a doctor, a date. */
    private static final Pattern BORDER = Pattern.compile(
            "[ \\t]{2,}|[ \\t]*,[ \\t]*|[ \\t]*[/|;][ \\t]*|[ \\t]+(?:-{1,2}|[\u2013\u2014])>?[ \\t]+|[ \\t]+\\.[ \\t]+|\\.[ \\t]+(?=[A-Z])"
                    + "|[ \\t]+\\((?=[A-Za-z])|[ \\t]+(?=\\(?\\d)|[ \\t]+(?=Dr\\b)|\\.$|[ \\t]+(?=\\d?\\d (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec))");

    private static final Pattern LEGAL_FORM = Pattern.compile("(?:LLC|LTD|Ltd|LLP|PLLC|Inc|P\\.?C)\\.?");

    /** A department that could be of any hospital. */
    private static final String ANY_DEPARTMENT =
            "(?i)(?:(?:department|dept\\.?|division) of .*|(?:the )?(?:vascular|general|internal|acute|emergency|renal|dialysis|podiatr\\w+|orthopaedic|medical|surgical|community|diabetic|foot|wound|infusion)?"
                    + " ?(?:vascular|medical|surgical|foot|studies)? ?(?:surgery|medicine|radiology|cardiology|podiatry|nephrology|unit|department|dept|laboratory|lab|clinic))";

    /** What makes a practice behind it somebody else's: "his usual GP, Dr Amory, Bell Street Surgery". */
    private static final Pattern ELSEWHERE = Pattern.compile(
            "(?i)\\b(?:(?:usual|own|former|previous|registered|new|patient['\u2019]s|his|her) (?:GP|doctor|consultant|practice|surgery|nurse)|(?:copy|copies|reply|replies|sent|send|write|written|referred|refer|admitted|transferred|moved|going|went|known|taken) to|(?:seen|treated|operated|scanned|done|works|worked|lives|lived|attends|attended|stayed|living|working) (?:at|by|in|with)|under the care|discussed (?:\\w+ )?with|c\\.?c\\.?:?)\\b");

    private record Piece(int start, int end) {}

    private Letterhead() {}

    static boolean isOrganisation(String words) {
        return ORGANISATION.matcher(words).find();
    }

    /** Where in {@code name} a practice begins that was read as part of it; -1 where none does. */
    static int behindName(String name) {
        var match = Fit.of("[ \\t]+" + Person.PART + "(?:[ \\t]+" + Person.PART + "){0,5}[ \\t]+" + KIND + "\\b.*$")
                .matcher(name);
        return match.find() ? match.start() : -1;
    }

    /** A practice that stands in {@code line} behind the name that begins at {@code start}. */
    static Optional<Span> behind(String line, int start) {
        var match = Fit.of("[ \\t]+(?:" + Person.PART + "[ \\t]+){1,3}" + KIND + "\\b")
                .matcher(line)
                .region(start, line.length());
        return match.find() ? Optional.of(new Span(match.start(), match.end())) : Optional.empty();
    }

    static void read(Page page, List<Line> lines, Findings findings) {
        var form = FORM.matcher(page.text);
        while (form.find()) {
            var value = form.group(1).strip();
            var whole = Fit.matches(value, ANY_DEPARTMENT) ? withHospital(page.text, form.start(1), value) : value;
            if (isOrganisation(whole) && whole.contains(" ") && !Fit.matches(whole, ANY_DEPARTMENT)) {
                var words = new Span(form.start(1), form.start(1) + whole.length());
                put(page, words, findings);
                lines.stream()
                        .filter(line -> line.holds(words)
                                && words.end() - line.start() < line.text().length())
                        .findFirst()
                        .ifPresent(line -> besideOnly(line, words, findings));
                return;
            }
        }
        var name = findings.words("referrer.name");
        if (sender(page, lines, name, findings)) {
            return;
        }
        for (var line : lines.subList(0, Math.min(6, lines.size()))) {
            var found = inLine(line, name);
            if (found.isPresent()) {
                put(page, found.get(), findings);
                address(page, lines, line, found.get(), findings);
                return;
            }
        }
        for (var i = lines.size() - 1; i >= Math.max(0, lines.size() - 4); i--) {
            var found = inLine(lines.get(i), name);
            if (found.isPresent()) {
                put(page, found.get(), findings);
                besideOnly(lines.get(i), found.get(), findings);
                return;
            }
        }
        name.flatMap(signed -> besideName(page, signed)).ifPresent(found -> put(page, found, findings));
    }

    private static void put(Page page, Span words, Findings findings) {
        findings.put("referrer.organisation", page.original(words).strip().replaceAll("\\s+", " "), words);
    }

    /** "Dr Z. Hartnoll, Loddon Fields" at the end of the line, or a practice called so in the text behind the name. */
    private static Optional<Span> besideName(Page page, Span name) {
        var rest = page.text.substring(name.end(), Math.min(page.text.length(), name.end() + 80));
        var match = Fit.of(
                        "^(?:[ \\t]*[,/(-]?[ \\t]*(?:(?:at|of|from)[ \\t]+)?|,[^.,\\n]{3,40}?[ \\t](?:at|from)[ \\t]+(?:the[ \\t]+)?)((?:St\\.?[ \\t]+)?[A-Z][\\w'\u2019]*(?:[ \\t]+(?:of|and|the|&|[A-Z][\\w'\u2019]*|nursing home|care home|home)){0,8})")
                .matcher(rest);
        if (match.find() && isOrganisation(match.group(1))) {
            return Optional.of(new Span(name.end() + match.start(1), name.end() + match.end(1)));
        }
        var bare = Fit.of("^[ \\t]*,[ \\t]*(" + Person.PART + "(?:[ \\t]+" + Person.PART
                        + "){1,3})[ \\t]*[.]?[ \\t]*(?:\\R|$)")
                .matcher(rest);
        return bare.find() && !Fit.matches(bare.group(1), "(?i)(?:consultant|" + Person.ROLE + ").*")
                ? Optional.of(new Span(name.end() + bare.start(1), name.end() + bare.end(1)))
                : Optional.empty();
    }

    /** A line that tells the sender names the practice even where its name says of no kind what it is. */
    private static boolean sender(Page page, List<Line> lines, Optional<Span> name, Findings findings) {
        for (var line : lines) {
            var label = SENDER.matcher(line.text());
            if (line.number() > 14 && line.number() < lines.size() - 6
                    || !label.find()
                    || !label.group().contains(":") && label.start() > 0
                    || !label.group().contains(":") && name.filter(line::holds).isEmpty()) {
                continue;
            }
            var pieces = pieces(line, label.end());
            for (var i = 0; i < pieces.size(); i++) {
                var piece = pieces.get(i);
                var words = line.text().substring(piece.start(), piece.end());
                var signed = name.filter(who ->
                                who.start() < line.start() + piece.end() && who.end() > line.start() + piece.start())
                        .isPresent();
                var bare = i > 0
                        && Fit.matches(words, NAMED)
                        && !STREET.matcher(words).matches();
                var named = isOrganisation(words)
                        && Character.isUpperCase(words.charAt(0))
                        && !CALLING.matcher(words).find();
                if (signed
                        || words.length() < 5
                        || Fit.matches(words, ANY_DEPARTMENT)
                        || NOT_ORGANISATION.matcher(words).find() && !words.endsWith(")")) {
                    continue;
                }
                var within = Fit.of("\\b(?:from|at) (" + NAMED + ")$").matcher(words);
                if (!named && within.find() && isOrganisation(within.group(1))) {
                    put(page, line.span(piece.start() + within.start(1), piece.end()), findings);
                    return true;
                }
                if (isRole(words) || !(named || bare && i == 1 + roles(line, pieces) && words.contains(" "))) {
                    continue;
                }
                var found = line.span(piece.start(), piece.end());
                put(page, found, findings);
                address(page, lines, line, found, findings);
                return true;
            }
            address(page, lines, line, name.filter(line::holds).orElse(line.span(0, 0)), findings);
        }
        return false;
    }

    private static int roles(Line line, List<Piece> pieces) {
        return (int) pieces.stream()
                .filter(piece -> isRole(line.text().substring(piece.start(), piece.end())))
                .count();
    }

    private static boolean isRole(String words) {
        return Fit.matches(
                words, "(?i)" + Person.ROLE + "\\)?|(?:M\\.?D|D\\.?O|NP|PA(?:-C)?|DPM|RN|FNP(?:-C)?|FACS|GP)\\.?");
    }

    private static List<Piece> pieces(Line line, int from) {
        var pieces = new ArrayList<Piece>();
        var border = BORDER.matcher(line.text()).region(from, line.text().length());
        var at = from;
        while (border.find()) {
            if (border.start() > at) {
                pieces.add(new Piece(at, border.start()));
            }
            at = border.end();
        }
        if (at < line.text().length()) {
            pieces.add(new Piece(at, line.text().length()));
        }
        return pieces;
    }

    /** The practice named in a line of the head or the foot, without the doctor, the address and the date beside it. */
    private static Optional<Span> inLine(Line line, Optional<Span> name) {
        var text = line.text();
        if (text.length() > 120
                || !isOrganisation(text)
                || OF_OTHERS.matcher(text).matches()) {
            return Optional.empty();
        }
        var pieces = pieces(line, 0);
        for (var i = 0; i < pieces.size(); i++) {
            var piece = withoutName(line, pieces.get(i), name);
            var words = text.substring(piece.start(), piece.end());
            if (ELSEWHERE.matcher(text.substring(0, piece.start())).find()) {
                break;
            }
            var legal = i + 1 < pieces.size()
                    && LEGAL_FORM
                            .matcher(text.substring(
                                    pieces.get(i + 1).start(), pieces.get(i + 1).end()))
                            .matches()
                    && Fit.matches(words, NAMED);
            if (!legal && !isName(words)) {
                continue;
            }
            var end = withDepartment(text, pieces, i, piece.end());
            if (end > piece.end() || !Fit.matches(words, ANY_DEPARTMENT)) {
                return Optional.of(line.span(piece.start(), end));
            }
        }
        return Optional.empty();
    }

    /** "Diabetes T2", "Heart failure": a word that a practice may bear, and none that says what it is. */
    private static final Pattern NO_PRACTICE = Pattern.compile(
            "^(?:Diabetes|Heart|Wound|Care|Family|Health)\\b(?!.*\\b(?:Clinic|Cent(?:re|er)|Hospital|Practice|Unit|Services?|Team|Institute|Surgery|Associates|Group|Medicine|Partners|Physicians|Specialists|Infirmary|Laboratory|Trust|LLC|Consultants)\\b)");

    /** "Lives in Elm House nursing home": said of the patient. */
    private static final Pattern A_SENTENCE = Pattern.compile(
            "(?i)(?:lives?|living|resides?|resident|stays?|staying|attends?|attended|attending|seen|known|referred|admitted|discharged|transferred|moved|returned|under|presented|came|comes|goes|went|walks|works|worked)(?: \\w+){0,2} (?:in|at|to|from|by|with|of|under)\\b");

    private static boolean isName(String piece) {
        var words = piece.split("[ \\t]+").length;
        return piece.length() >= 5
                && words >= 2
                && words <= 8
                && isOrganisation(piece)
                && piece.indexOf(')') < 0
                && !NOT_ORGANISATION.matcher(piece).find()
                && Character.isUpperCase(piece.charAt(0))
                && CAPITALISED.matcher(piece).matches()
                && !CALLING.matcher(piece).find()
                && !NO_PRACTICE.matcher(piece).find()
                && !A_SENTENCE.matcher(piece).lookingAt()
                && !piece.endsWith(" of")
                && !Fit.matches(piece, "(?s).*\\b(?:does|not|no|have|is|was|has|with|for|he|she|this|I)\\b.*")
                && !Fit.of(
                                "^(?:Consultant|Vascular Surgeon|Nurse|Family Physician|General Practitioner|Department|Dept\\b|Unit|Diabetic Foot Clinic|Clinical|Vascular Surgery|Ward)\\b")
                        .matcher(piece)
                        .find();
    }

    private static Piece withoutName(Line line, Piece piece, Optional<Span> name) {
        var start = piece.start();
        var end = piece.end();
        if (name.filter(line::holds).isPresent()) {
            var from = name.get().start() - line.start();
            var to = name.get().end() - line.start();
            if (start >= from && start < to) {
                start = Math.min(end, to);
                while (start < end && " \t,".indexOf(line.text().charAt(start)) >= 0) {
                    start++;
                }
            } else if (from > start && from < end) {
                end = from;
            }
        }
        while (end > start && Character.isWhitespace(line.text().charAt(end - 1))) {
            end--;
        }
        return new Piece(Math.min(start, end), end);
    }

    /** "Upper Arven Hosp, Radiology", "Renal Unit, Tarn Edge Hospital", "Larkspur Foot, LLC": all of it is the name. */
    private static int withDepartment(String text, List<Piece> pieces, int i, int end) {
        if (i + 1 == pieces.size()) {
            return end;
        }
        var first = text.substring(pieces.get(i).start(), end);
        var border =
                text.substring(pieces.get(i).end(), pieces.get(i + 1).start()).strip();
        if (!border.equals(",") && !(border.equals("-") && Fit.matches(first, ANY_DEPARTMENT))) {
            return end;
        }
        var next = text.substring(pieces.get(i + 1).start(), pieces.get(i + 1).end());
        var department = Fit.matches(
                        next,
                        "(?:Radiology|Cardiology|Podiatry|Nephrology|Vascular (?:Unit|Surgery)|Department of .*|Dept\\.? of .*|.* Clinic)")
                || LEGAL_FORM.matcher(next).matches();
        var partOfHospital = Fit.matches(first, ANY_DEPARTMENT)
                && Fit.matches(next, "(?i).*\\b(?:hospital|infirmary|clinic|general|centre|center)")
                && !STREET_NAMED.matcher(next).matches();
        return department || partOfHospital ? pieces.get(i + 1).end() : end;
    }

    /** "Vascular Medicine, Lakeview Medical Center": a department with its hospital, or alone. */
    private static String withHospital(String text, int start, String department) {
        var match = Fit.of(", " + NAMED).matcher(text).region(start + department.length(), text.length());
        return match.lookingAt() && isOrganisation(match.group()) ? department + match.group() : department;
    }

    /** Street and place in the same line, of a practice that a form or the foot names. */
    private static void besideOnly(Line line, Span organisation, Findings findings) {
        var pieces = beside(line, organisation.end() - line.start());
        if (!pieces.isEmpty()) {
            var words = line.span(pieces.getFirst().start(), pieces.getLast().end());
            var address = pieces.stream()
                    .map(piece ->
                            line.text().substring(piece.start(), piece.end()).strip())
                    .collect(java.util.stream.Collectors.joining(", "));
            findings.putIfUnknown("referrer.address", address.replaceAll("\\s+", " "), words);
        }
    }

    /** Beside the practice's name, or in the lines under it up to a blank line, a number to ring, or a date. */
    private static void address(Page page, List<Line> lines, Line line, Span organisation, Findings findings) {
        var parts = new ArrayList<String>();
        var start = -1;
        var end = -1;
        for (var piece : beside(line, organisation.end() - line.start())) {
            parts.add(line.text().substring(piece.start(), piece.end()).strip());
            start = start < 0 ? line.start() + piece.start() : start;
            end = line.start() + piece.end();
        }
        if (parts.isEmpty()) {
            for (var next : lines.subList(line.number() + 1, Math.min(lines.size(), line.number() + 5))) {
                if (next.afterBlank() && next.number() > line.number()
                        || next.text().length() > 70) {
                    break;
                }
                if (isDepartment(next.text()) && parts.isEmpty()) {
                    continue;
                }
                var words = withoutNumbers(next.text());
                if (!isAddress(page, words, parts.isEmpty())) {
                    break;
                }
                parts.add(words.replaceAll("[,.]$", ""));
                start = start < 0 ? next.start() : start;
                end = next.start() + words.length();
                if (words.length() < next.text().length()) {
                    break;
                }
            }
        }
        if (!parts.isEmpty()) {
            findings.putIfUnknown(
                    "referrer.address", String.join(", ", parts).replaceAll("\\s+", " "), new Span(start, end));
        }
    }

    private static boolean isDepartment(String words) {
        return Fit.matches(
                words,
                "(?i)(?:department|dept|unit|division|service|diabetic|diabetes|surgical|clinic|ward)\\b.*|.*\\b(?:department|clinic|unit|out-?patients|medicine)$");
    }

    private static String withoutNumbers(String words) {
        var cut = Fit.of(
                        "(?i)[ \\t,;|.-]*\\b(?:tel|telephone|phone|ph|fax|e-?mail|t|f|p)\\b[ \\t]*[.:]?[ \\t]*\\(?[+\\d].*$|[ \\t]{3,}.*$|[ \\t|,;]*[\\w.]+@.*$")
                .matcher(words);
        return cut.find() ? words.substring(0, cut.start()).strip() : words;
    }

    private static boolean isAddress(Page page, String words, boolean first) {
        if (words.isEmpty()
                || Fit.matches(words, "[+(]?[\\d][\\d ()-]{7,}")
                || Fit.matches(words, "\\d{1,2}(?:st|nd|rd|th)? [A-Za-z]{3,9},? (?:19|20|2O)[\\dO]{2}")
                || Fit.matches(words, ".*\\b\\d{1,2}[/.]\\d{1,2}[/.]\\d{2,4}\\b.*")
                || Fit.matches(
                        words,
                        "(?i).*\\b(?:dear|re|patient|dob|received|referral|date|tel|telephone|phone|fax|e-?mail|department|clinic date|dr|mr|mrs|ms|summary|unit|consultant|sister|secretary|hospital no|ref|letters?)\\b.*")
                || !page.dates.in(Plain.fold(words)).isEmpty()
                || words.contains(":")
                || words.contains("@")) {
            return false;
        }
        var street = STREET.matcher(words).matches();
        return !first
                || street
                        && (!isOrganisation(words) || Fit.matches(words, "(?i).*(?:\\d|\\b" + STREET_KIND + "\\b).*"));
    }

    /** Street and place behind the name in the same line. */
    private static List<Piece> beside(Line line, int from) {
        var pieces = new ArrayList<Piece>();
        var at = from;
        var street = false;
        for (var piece : pieces(line, Math.min(from, line.text().length()))) {
            var words = line.text().substring(piece.start(), piece.end());
            var border = line.text().substring(at, piece.start());
            if (isRole(words) && pieces.isEmpty()) {
                at = piece.end();
                continue;
            }
            var named = STREET_NAMED.matcher(words).matches()
                    && !Fit.matches(
                            words,
                            "\\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec).*|\\d{1,2}(?:st|nd|rd|th)? .*(?:19|20)\\d\\d");
            var place =
                    PLACE.matcher(words).matches() && !isOrganisation(words) && Fit.matches(border, "[ \\t]*,[ \\t]*");
            if (!named && !(place && (street || isLast(line, piece)))
                    || Fit.matches(words, "(?i)(?:tel|telephone|phone|fax|ph|date|dr|visit|received|page)\\b.*")
                    || !street && !pieces.isEmpty()
                    || border.contains("(")) {
                break;
            }
            pieces.add(piece);
            street |= named;
            at = piece.end();
        }
        return pieces;
    }

    /** Whether a place ends its sentence: "Bridge End Surgery, Hollin Bridge. Fax". */
    private static boolean isLast(Line line, Piece piece) {
        return Fit.matches(line.text().substring(piece.end()), "(?i)\\. ?(?:fax|tel|phone|telephone).*");
    }
}
