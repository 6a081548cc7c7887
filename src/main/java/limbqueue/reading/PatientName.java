package limbqueue.reading;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The name of the patient: told by a label, beside the birth date, with a title, at the head of a line, or introduced in the text. */
final class PatientName {

    private static final String UPPER = "\\p{Lu}";
    private static final String LOWER = "[a-z\\p{Ll}]";

    /** A first name or a surname, with the particle that belongs to it: Penhallow, van Oort, \u00d3 Treasaigh, BLOUNT-VAISEY. */
    private static final String PART =
            "(?:(?:Mc|Mac|O['\u2019]|D['\u2019]|de |van |von |St\\.? ?|\u00d3 |N\u00ed |U\u00ed |Mac |Nic )?" + UPPER
                    + LOWER + "+(?:['\u2019-]" + UPPER + "?" + LOWER
                    + "{1,30}+){0,3}|[A-Z][A-Z'\u2019-]{1,20}(?![a-z]))";

    private static final String INITIAL = "[A-Z]\\.?";

    private static final String TITLE =
            "(?:Mr|Mrs|Ms|Miss|MR|MRS|MS|MISS|mr|mrs|ms|miss|Master|Mister|Sir|Lady)\\b\\.?";

    /** A title that says nothing of the sex, or that a doctor may have too. */
    private static final String HONOUR =
            "(?:Captain|Capt|Colonel|Col|Major|Rev|Reverend|Father|Canon|Lord|Lady|Pastor|Judge|Professor|Prof|Sergeant|Sgt|Commander|Dame|Sir)\\b\\.?";

    /** What may follow a name that is complete. */
    private static final String COMPLETE =
            "(?=[ \\t]*(?:[,(|\\n\\r]|$)|[ \\t]{2}|[ \\t]+(?:DOB|D\\.O\\.B|dob|born|b\\.|[MF]\\b|NHS|MRN)\\b)";

    private static final String NO_NAME =
            "(?:Born|DOB|Date|NHS|MRN|Hospital|Tel|Phone|Address|Male|Female|Sex|Chart|GP|Age|Aged|Gender|Ward|Clinic|Ref)\\b";

    /** One or two first names before a surname. */
    private static final String GIVEN =
            PART + "(?:[ ](?!" + NO_NAME + ")" + PART + "(?=[ ](?!" + NO_NAME + ")" + PART + COMPLETE + "))?";

    static final Pattern TITLED = Pattern.compile("(?<![A-Za-z])(" + TITLE + ")[ \\t]+(?:(" + GIVEN + ")(?:[ \\t]+(?:"
            + INITIAL + "[ \\t]+)?(" + PART + "))?|(" + INITIAL + ")[ \\t]+(" + PART + "))");

    private static final String LABEL_PLACE =
            "(?:^[ \\t]*(?:\\d{1,2}[.)][ \\t]+)?|(?<=[ \\t]{2})|(?<=\\|[ \\t]?)|(?<=[.,][ \\t])(?=[Pp]atient|[Rr]e\\b)|(?<=[ \\t])(?=(?:patient|name)[^\\n:]{0,20}:))";
    private static final String LABEL =
            "(?:patient(?:['\u2019]s)?(?:[ \\t]+(?:full[ \\t]+)?name)?|name(?:[ \\t]+of[ \\t]+patient)?|full[ \\t]+name|re|regarding|ref|about|subject|pt(?:[ \\t]+name)?|patient[ \\t]+details)"
                    + "[ \\t]*(?:[:\\-.]|\\.{3,60})?[ \\t]+";
    private static final Pattern LABELLED =
            Pattern.compile("(?im)" + LABEL_PLACE + LABEL + "(?-i:(?:" + TITLE + "|" + HONOUR
                    + ")[ \\t]+)?(?:(?-i:(" + PART + "),[ \\t]*(" + PART + "))|(?-i:(" + GIVEN + ")(?:[ \\t]+" + INITIAL
                    + ")?[ \\t]+(" + PART + ")))");

    /** "Zadie Orme (daughter)": somebody who writes for the patient. */
    private static final Pattern OF_A_RELATIVE = Pattern.compile(
            "^[ \\t,-]*\\(?(?:(?:his|her|the|my)[ \\t]+)?(?:daughter|son|wife|husband|niece|nephew|carer|nurse|sister|brother|mother|father|neighbour|next of kin|nok)\\b");

    private static final Pattern REFERRER_HEADING = Pattern.compile(
            "(?i)^\\W*(?:\\d{1,2}[.)])?[ \\t]*(?:referr\\w+|sender|requester|requesting|gp|registered gp|from|clinician)\\b[^:\\n]{0,25}:?[ \\t]*$");
    private static final Pattern PATIENT_HEADING = Pattern.compile(
            "(?i)^\\W*(?:\\d{1,2}[.)])?[ \\t]*(?:patient|client|demographics)\\b[^:\\n]{0,25}:?[ \\t]*$");

    private static final Pattern SURNAME = Pattern.compile(
            "(?i)\\b(?:surname|family[ \\t]+name|last[ \\t]+name)[ \\t]*[:\\-]?[ \\t]*(?-i:(" + PART + "))");
    private static final Pattern FORENAME = Pattern.compile(
            "(?i)\\b(?:first[ \\t]+names?|fore ?names?|given[ \\t]+names?|christian[ \\t]+name)(?:\\(s\\))?[ \\t]*[:\\-]?[ \\t]*(?-i:("
                    + PART + "(?:[ ]" + PART + "(?=[ \\t]*(?:\\R|$)|[ \\t]{2}))?))");

    private static final String AGE_OR_NUMBER =
            "(?:(?:man|woman|lady|gentleman|male|female)\\b|[MF],?[ \\t]+\\d|(?:a |an |aged? )?\\d{1,3}[ -]?(?:yo|y/o|yr|year|y\\b|M\\b|F\\b)|D\\.?O\\.?B|dob|born|b\\.|MRN|\\d{1,3},|NHS|date of birth)";
    private static final Pattern HEADED =
            Pattern.compile("(?m)^[ \\t]*(?:[-*\u2022][ \\t]+)?(?:" + HONOUR + "[ \\t]+)?(" + PART
                    + ")[ \\t]+(?:" + INITIAL + "[ \\t]+)?(" + PART + ")[ \\t]*(?:,[ \\t]*|[ \\t]{2,}|\\(|[ \\t]+)(?="
                    + AGE_OR_NUMBER
                    + ")");

    private static final String MONTH_NAME = "(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]*\\.?";
    /** A day of the last century: "03/04/1950", "18-Jun-1960", "July 4, 1950". */
    private static final String BIRTH_DAY = "(?:\\d{1,2}[/.-]\\d{1,2}[/.-]19\\d\\d|\\d{1,2}[ -]" + MONTH_NAME
            + "[ -]19\\d\\d|" + MONTH_NAME + " \\d{1,2},? 19\\d\\d)";

    private static final Pattern BESIDE_BIRTH =
            Pattern.compile("(" + PART + ")[ ](?:" + INITIAL + "[ ]|\\(" + PART + "\\)[ ])?(" + PART
                    + ")(?:,?[ ]+|,?[ ]*\\(|[ ]*[|-][ ]*)(?:[mfMF],?[ ]+|\\([mfMF]\\),?[ ]*)?(?=(?:DOB|dob|DoB|d\\.o\\.b|D\\.O\\.B|born|b\\.)[ :.]|[mfMF]\\)|"
                    + BIRTH_DAY + ")|\\b\\d{2}[ ]?[MF][ ](" + PART + ")[ ](" + PART + ")");
    private static final Pattern NOT_BEFORE_PATIENT =
            Pattern.compile("(?is).*\\b(?:dr|doctor|nurse|sister|prof|and)\\.?\\s*");

    private static final String INTRODUCTION =
            "(?:(?i:(?:many )?thank(?:s| you)(?: so much| very much)? for (?:kindly )?(?:seeing|reviewing|accepting|assessing)|(?:please|kindly|could you(?: please)?|if you (?:would|could)(?: kindly)?) (?:see|review|assess|consider)|i (?:am|would like to|wish to) refer(?:ring)?|i refer|i saw|we saw|this is about|i write about|writing about|on behalf of)"
                    + "|(?i:man|woman|gentleman|lady|patient)(?:,|[ \\t]+of[ \\t]+\\d\\d,))";
    /** "Thank you for seeing Joan Tarr, a 71-year-old woman": a name without a title. */
    private static final Pattern INTRODUCED = Pattern.compile(
            "\\b" + INTRODUCTION + "[ \\t\\n]+(" + PART + ")[ \\t\\n]+(?:[A-Z]\\.?[ \\t]+)?(" + PART
                    + ")(?=,?[ \\t\\n]+(?:aged?\\b|an?[ \\t\\n]|who\\b|whose\\b|with\\b|\\(|\\d{2}\\b|dob\\b|DOB\\b|born\\b|is\\b|has\\b|for\\b|this\\b)|[ \\t]*\\()");

    private static final Pattern BESIDE_RELATIVE = Pattern.compile(
            "\\b(?i:my|our)[ ](?i:" + Relative.WORD + "),?[ ](" + PART + ")[ ](" + PART + ")(?![ ]?[A-Z])");

    private static final Pattern NOT_A_NAME = Pattern.compile(
            "(?i)(?:dear|colleague|doctor|team|clinic|hospital|practice|surgery|medical|centre|center|health|referral|form|date|dob|sex|urgent|right|left|leg|legs|foot|the|this|patient|name|re|he|she|his|her|thank|diagnosis|history|vascular|department|dr|mr|mrs|ms|miss|and|with|is|was|has|of|for|born|male|female|address|phone|tel|fax|letter|new|old|both|bilateral|claudication|rest|pain|ulcer|ischaemia|ischemia|angiogram|limb|lower|circulation|your|our|ref|no|yes|nhs|mrn|request|appointment|opinion|gp|note|call|on|at|in|a|i|ct|cta|chart|service|details|number|id)");

    private PatientName() {}

    static void read(Page page, Findings findings) {
        var text = page.text;
        var surname = SURNAME.matcher(text);
        if (surname.find() && isName(surname.group(1))) {
            findings.put("patient.family", surname.group(1), new Span(surname.start(1), surname.end(1)));
            var forename = FORENAME.matcher(text);
            if (forename.find() && isName(forename.group(1))) {
                findings.put("patient.given", forename.group(1), new Span(forename.start(1), forename.end(1)));
            }
            return;
        }
        labelled(text)
                .or(() -> besideBirth(text))
                .or(() -> titled(page))
                .or(() -> ofRelative(text))
                .or(() -> names(HEADED.matcher(text)))
                .ifPresentOrElse(full -> put(text, full, findings), () -> inPart(page, findings));
    }

    /** "My father Horace Quill has a black toe": the name of whom a relative writes for. */
    private static Optional<Full> ofRelative(String text) {
        return Relative.patient(text).isEmpty() ? Optional.empty() : names(BESIDE_RELATIVE.matcher(text));
    }

    /** A surname with its title, or a name that is introduced without one. */
    private static void inPart(Page page, Findings findings) {
        var only = titledSurname(page);
        if (only.isPresent()) {
            var words = only.get();
            findings.put("patient.family", properly(page.original(words)), words);
        } else {
            names(INTRODUCED.matcher(page.text)).ifPresent(full -> put(page.text, full, findings));
        }
    }

    /** Where the given name and the surname begin and end. */
    private record Full(Span given, Span family) {
        static Full of(Matcher match, int given, int family) {
            return new Full(
                    new Span(match.start(given), match.end(given)), new Span(match.start(family), match.end(family)));
        }
    }

    private static Optional<Full> names(Matcher match) {
        while (match.find()) {
            if (isName(match.group(1)) && isName(match.group(2))) {
                return Optional.of(Full.of(match, 1, 2));
            }
        }
        return Optional.empty();
    }

    private static Optional<Full> labelled(String text) {
        var labelled = LABELLED.matcher(text);
        while (labelled.find()) {
            var turned = labelled.group(1) != null;
            var given = turned ? 2 : 3;
            var family = turned ? 1 : 4;
            if (isName(labelled.group(given))
                    && isName(labelled.group(family))
                    && !Fit.matches(text.substring(labelled.start(), labelled.start(given)), "(?is).*dear.*")
                    && !OF_A_RELATIVE.matcher(text.substring(labelled.end())).find()
                    && !underReferrer(text, labelled.start())
                    && labelled.group(given).length() > 1) {
                return Optional.of(Full.of(labelled, given, family));
            }
        }
        return Optional.empty();
    }

    /** Whether the part of a form that {@code at} lies in is headed as the referrer's. */
    static boolean underReferrer(String text, int at) {
        var lines = text.substring(Math.max(0, at - 400), at).split("\\R", -1);
        for (var i = lines.length - 2; i >= 0; i--) {
            if (lines[i].isBlank() || PATIENT_HEADING.matcher(lines[i]).matches()) {
                return false;
            }
            if (REFERRER_HEADING.matcher(lines[i]).matches()) {
                return true;
            }
        }
        return false;
    }

    private static Optional<Full> besideBirth(String text) {
        var beside = BESIDE_BIRTH.matcher(text);
        while (beside.find()) {
            var given = beside.group(1) != null ? 1 : 3;
            if (isName(beside.group(given))
                    && isName(beside.group(given + 1))
                    && !NOT_BEFORE_PATIENT
                            .matcher(text.substring(Math.max(0, beside.start() - 12), beside.start()))
                            .matches()) {
                return Optional.of(turned(text, beside, given).orElse(Full.of(beside, given, given + 1)));
            }
        }
        return Optional.empty();
    }

    /** "MCALLISTER, HORACE LEE   DOB": the surname stands before. */
    private static Optional<Full> turned(String text, Matcher names, int given) {
        var from = Math.max(0, names.start(given) - 40);
        var before = Fit.of("(?:^|[ \\t:|])(" + PART + "),[ \\t]*$").matcher(text.substring(from, names.start(given)));
        return before.find() && isName(before.group(1))
                ? Optional.of(new Full(
                        new Span(names.start(given), names.end(given + 1)),
                        new Span(from + before.start(1), from + before.end(1))))
                : Optional.empty();
    }

    private static Optional<Full> titled(Page page) {
        var titled = TITLED.matcher(page.text);
        while (titled.find()) {
            if (titled.group(3) != null
                    && isName(titled.group(2))
                    && isName(titled.group(3))
                    && !isDoctor(page, titled)
                    && !isRelative(page, titled)) {
                return Optional.of(Full.of(titled, 2, 3));
            }
        }
        return Optional.empty();
    }

    private static Optional<Span> titledSurname(Page page) {
        var titled = TITLED.matcher(page.text);
        while (titled.find()) {
            var group = titled.group(5) != null ? 5 : 2;
            if (isName(titled.group(group)) && !isDoctor(page, titled) && !isRelative(page, titled)) {
                return Optional.of(new Span(titled.start(group), titled.end(group)));
            }
        }
        return Optional.empty();
    }

    private static void put(String text, Full read, Findings findings) {
        // "PRYCE Anselm": capitals are for the family name.
        var turned = isInCapitals(text, read.given()) && !isInCapitals(text, read.family());
        var given = turned ? read.family() : read.given();
        var family = turned ? read.given() : read.family();
        findings.put("patient.given", properly(text.substring(given.start(), given.end())), given);
        findings.put("patient.family", properly(text.substring(family.start(), family.end())), family);
    }

    private static boolean isInCapitals(String text, Span name) {
        return Fit.matches(text.substring(name.start(), name.end()), "[A-Z\u00c0-\u00de'\u2019-]{3,}");
    }

    private static String properly(String name) {
        return name.replaceAll("\\s+", " ").replaceFirst("['\u2019]s$", "");
    }

    private static boolean isName(String word) {
        return word.length() > 1
                && !NOT_A_NAME.matcher(word).matches()
                && (word.indexOf(' ') < 0
                        || java.util.Arrays.stream(word.split("[ \\t]+"))
                                .noneMatch(part -> NOT_A_NAME.matcher(part).matches()));
    }

    /** "Dear Mr Vennor", "Mr Vennor, consultant surgeon", or a signature. */
    static boolean isDoctor(Page page, Matcher match) {
        var text = page.text;
        var before = text.substring(Math.max(0, match.start() - 24), match.start());
        var after = text.substring(match.end(), Math.min(text.length(), match.end() + 40));
        return Fit.matches(
                                before,
                                "(?is).*\\b(?:manager|secretary|chair|administrator|matron|warden|chaperone|interpreter|dear|thanks? to|attention(?: of)?|fao|attn|to|copy to|cc:?|consultant|surgeon|seen by|under|from|by)[: \\t]+$")
                        && !Fit.matches(before, "(?is).*\\b(?:refer(?:red)? to you|thank you for|listen to)[ \\t]+$")
                || Fit.matches(
                        after,
                        "(?is)[, \\t]*\\n?[ \\t]*(?:consultant|vascular surgeon|surgeon|FRCS|MD\\b|NP\\b|RN\\b|PA\\b|MBBS|specialist|practice nurse|nurse|podiatrist|registrar|Esq).*")
                || Fit.matches(
                        before, "(?is).*(?:sincerely|faithfully|truly|gratefully|respectfully|regards|wishes),?\\s*$");
    }

    /** "My mother, Mrs Tilda Orme", in the letter of her son. */
    private static boolean isTheirPatient(Page page, String before) {
        return Relative.patient(page.text).stream()
                .anyMatch(word -> Fit.of("(?is)\\b(?:my|our) (?:\\w+ )?" + Relative.WORD + "[, \\t\\n]+$")
                                .matcher(before)
                                .find()
                        && before.toLowerCase(java.util.Locale.ROOT).contains(word));
    }

    /** The husband, the neighbour, or another patient whom the letter names. */
    static boolean isRelative(Page page, Matcher match) {
        var before = page.text.substring(Math.max(0, match.start() - 40), match.start());
        if (isTheirPatient(page, before)) {
            return false;
        }
        return Fit.matches(
                                before,
                                "(?is).*\\b(?:husband|wife|son|daughter|neighbour|neighbor|friend|partner|carer|brother|sister|thanks for [a-z ]+|next of kin|nok|caller|sorting out|father|mother|nephew|niece)\\b[:,( \\t]*(?:of[ \\t]+)?$")
                        && !Fit.matches(
                                before,
                                "(?is).*\\b(?:husband|wife|son|daughter|neighbour|neighbor|carer|friend|partner|brother|sister|father|mother|niece|nephew)(?:['\u2019]s)?[ \\t]+of[ \\t]+$")
                || Fit.matches(before, "(?is).*\\b(?:caller|next of kin|nok|contact)[: \\t]+$");
    }
}
