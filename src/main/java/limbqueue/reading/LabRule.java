package limbqueue.reading;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Laboratory values with their units as UCUM writes them. */
final class LabRule implements Rule {

    /** A test, its name in the format, and units as they are written with their UCUM codes. */
    private record Test(String code, Pattern name, List<Unit> units, double least, double most) {}

    private record Unit(Pattern written, String code) {
        static Unit of(String written, String code) {
            return new Unit(Fit.of("^ ?\\(?(?:" + written + ")(?![a-z])"), code);
        }
    }

    private static final String PER_1_73 =
            "ml ?/ ?min(?:ute)? ?(?:/|per)? ?\\(?(?:1[.,]73|173) ?(?:m2|m²|m\\^2|m 2|sq ?m|m)?|mls? ?/ ?min ?/ ?1\\.73 ?m?2?|ml/min per 1\\.73 ?m ?2?";

    private static final List<Test> TESTS = List.of(
            new Test(
                    "egfr",
                    Pattern.compile("\\begfr\\b"),
                    List.of(Unit.of(PER_1_73, "mL/min/{1.73_m2}"), Unit.of("mls? ?/ ?min(?:ute)?", "mL/min")),
                    1,
                    200),
            new Test(
                    "creatinine",
                    Pattern.compile("\\bcreatinine\\b"),
                    List.of(
                            Unit.of("mg ?/ ?dl|mg%|mg/100 ?ml", "mg/dL"),
                            Unit.of(
                                    "(?:µmol|umol|micromol|mcmol|micromoles|mmol(?=/l))\\w* ?(?:/|per) ?l(?:itre)?|(?:umol|µmol)/1\\b|µmol|umol",
                                    "umol/L")),
                    0.2,
                    2000),
            new Test(
                    "hba1c",
                    Pattern.compile("\\bhba1c\\b"),
                    List.of(Unit.of("%|percent|per cent", "%"), Unit.of("mmol ?/ ?mol", "mmol/mol")),
                    3,
                    180),
            new Test(
                    "haemoglobin",
                    Pattern.compile("\\bhaemoglobin\\b"),
                    List.of(
                            Unit.of("g ?/ ?dl|gm?/dl|gm%|g%", "g/dL"),
                            Unit.of("g ?/ ?l", "g/L"),
                            Unit.of("mmol ?/ ?l", "mmol/L")),
                    2,
                    240),
            new Test(
                    "platelets",
                    Pattern.compile("\\bplatelets\\b"),
                    List.of(
                            Unit.of(
                                    "(?:x ?)?(?:10|lo|1o|l0) ?[\\^*]? ?\\(?9\\)? ?/ ?l|x ?10e9/l|g/l|(?:x ?)?10⁹ ?/ ?l",
                                    "10*9/L"),
                            Unit.of(
                                    "k(?: ?/ ?(?:µl|ul|mcl|mm3|cumm))?|(?:x ?)?10 ?[\\^*]? ?\\(?3\\)? ?/ ?(?:µl|ul|mcl)|thou\\w*(?:/(?:ul|µl))?|(?:x ?)?10³ ?/ ?(?:µl|ul)",
                                    "10*3/uL")),
                    1,
                    2000),
            new Test("inr", Pattern.compile("\\binr\\b"), List.of(), 0.6, 15),
            new Test(
                    "potassium",
                    Pattern.compile("\\bpotassium\\b|(?<=[ ,;(]|^)k(?= ?[:=+]? ?\\d\\.\\d)"),
                    List.of(Unit.of("mmol ?/ ?l|mmol", "mmol/L"), Unit.of("meq ?/ ?l|meq", "meq/L")),
                    1.5,
                    9.5),
            new Test(
                    "whiteCells",
                    Pattern.compile("\\bwhite cells\\b"),
                    List.of(
                            Unit.of(
                                    "(?:x ?)?(?:10|lo|1o|l0) ?[\\^*]? ?\\(?9\\)? ?/ ?l|x ?10e9/l|g/l|(?:x ?)?10⁹ ?/ ?l",
                                    "10*9/L"),
                            Unit.of(
                                    "k(?: ?/ ?(?:µl|ul|mcl|mm3|cumm))?|(?:x ?)?10 ?[\\^*]? ?\\(?3\\)? ?/ ?(?:µl|ul|mcl)|thou\\w*(?:/(?:ul|µl))?|(?:x ?)?10³ ?/ ?(?:µl|ul)",
                                    "10*3/uL"),
                            Unit.of(
                                    "/ ?(?:µl|ul|mcl|mm3|cumm)|per (?:microlit\\w+|cubic mm|µl|ul)|cells/(?:µl|ul|mcl)",
                                    "/uL")),
                    0.3,
                    99_000),
            new Test(
                    "crp",
                    Pattern.compile("\\bcrp\\b"),
                    List.of(Unit.of("mg ?/ ?l", "mg/L"), Unit.of("mg ?/ ?dl", "mg/dL")),
                    0,
                    600),
            new Test(
                    "tsh",
                    Pattern.compile("\\btsh\\b"),
                    List.of(
                            Unit.of("(?:mu|miu|m ?iu|mlu|mlu) ?/ ?l", "m[IU]/L"),
                            Unit.of("(?:µiu|uiu|µu|uu|microiu)\\w* ?/ ?ml", "u[IU]/mL")),
                    0,
                    200));

    private static final Pattern VALUE = Pattern.compile(
            "^\\.?(?: ?\\((?:[a-z0-9 /.-]{1,30})\\))?(?: ?(?:level|count|result|value|today|now|currently|yesterday|recently|was|is|were|of|at|last|came back(?: as)?|measured|checked|stable|steady|up to|down to|up|fell to|rose to|has (?:fallen|risen) to|raised|elevated|low|normal|high|good|only|just|about|around|approximately|remains|currently|most recent|latest|recent|this (?:week|month|morning)|estimated|his|her|the|on|and|:|=|-|,|~|\\()){0,6} ?(?<v>\\d{1,3}(?:,\\d{3})+|\\d{1,6}(?:\\.\\d{1,3})?)(?!\\d|\\.\\d| ?(?:-|to) ?\\d|/\\d{1,2}/\\d| ?(?:week|month|year|day|hour)s?\\b|:\\d\\d)");
    /** A value that a sentence comes to later: "creatinine rose after the contrast but is 109 umol/l". */
    private static final Pattern LATER = Pattern.compile(
            "^[^\\d.;:]{0,60}\\b(?:is|was|now|at) (?<v>\\d{1,6}(?:\\.\\d{1,3})?)(?!\\d|\\.\\d| ?(?:-|to) ?\\d|/\\d| ?(?:week|month|year|day|hour)s?\\b)");

    /** "Creatinine 1.4 last year, 1.9 today". */
    private static final Pattern EARLIER_THAN = Pattern.compile(
            "^[^.;\\d]{0,14}\\b(?:last (?:year|month|week|spring|summer|autumn|fall|winter|time)|(?:a|\\d+) (?:year|month|week|day)s? ago|previously|before|yesterday|on admission|at baseline)\\b[^.;\\d]{0,20}(?<v>\\d{1,6}(?:\\.\\d{1,3})?)(?= ?[a-zµ/%]{0,8} ?(?:now|today|currently|(?:at|on) discharge|this (?:week|month|morning))\\b)");

    /** "92 in the autumn and is now 71": the later value counts. */
    private static final Pattern NOW_LATER = Pattern.compile(
            "^[^.;\\d]{0,12}(?:\\b(?:in|of|on|last|this) )?[^.;\\d]{0,25}(?:(?:19|20)\\d\\d)?[^.;\\d]{0,12}\\b(?:now|today|currently|latest|latterly|this (?:week|month|morning))(?: (?:is|it is|was|at|up|down|to|back|only)){0,3}:? ?(?<v>\\d{1,6}(?:\\.\\d{1,3})?)(?!\\d|\\.\\d| ?(?:week|month|year|day|hour)s?\\b|/\\d)");

    /** "Fell from 12.1 to 9.8", "12.1 -> 9.8": the end of it counts. */
    private static final Pattern FROM_TO = Pattern.compile(
            "^(?:(?![^.;\\d]{0,30}\\b(?:rang|var|fluctuat))[^.;\\d]{0,30}\\bfrom \\d{1,6}(?:\\.\\d{1,3})? ?[a-zµ/%]{0,8}(?: to | ?(?:-+ ?>|=+ ?>|\u2192) ?)|[ :=]{0,3}\\d{1,6}(?:\\.\\d{1,3})? ?[a-zµ/%]{0,8} ?(?:-+ ?>|=+ ?>|\u2192) ?)(?<v>\\d{1,6}(?:\\.\\d{1,3})?)(?!\\d|\\.\\d|/\\d| ?(?:-+>|=+>|\u2192))");

    /** "CRP 8, 15, 34 mg/l over three weeks": which of them is the last is not said. */
    private static final Pattern SERIES = Pattern.compile(
            "^(?:, ?\\d{1,4}(?:\\.\\d{1,2})?){1,6} ?(?:and|then|to|over|in|on|during|[a-zµ%]{1,6}/[a-z\\d]{1,4})\\b(?! (?:19|20)\\d\\d)");

    private static final Pattern AIM = Pattern.compile(
            "\\b(?:target|aim(?:ing)?(?: for)?|range|goal|therapeutic|monthly|weekly|usual|keep|maintain)\\b[^.;]{0,20}$");
    /** What heads a list of values. */
    private static final String LIST_HEAD =
            "(?:(?:labs?|bloods?|results?|blood tests?|laboratory|blood results?|recent bloods|date)(?: (?:of|from|on|dated|taken|drawn|were))*)";

    private static final Pattern OTHER_EXAMINATION =
            Pattern.compile("\\b(?:duplex|cta|abi|angiogram|mra|radiograph)\\b");
    private static final Pattern DATE_LEAD = Pattern.compile(
            "^[ ,(;:]*(?:on|dated|taken|from|as of|of|checked|measured|drawn|\\(| |the|sampled|collected|date|,)*$");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            if (sentence.section == Sentence.Section.FAMILY) {
                continue;
            }
            for (var test : TESTS) {
                var name = test.name().matcher(sentence.plain);
                while (name.find()) {
                    read(page, sentence, test, name.start(), name.end(), findings);
                }
            }
        }
    }

    private static void read(Page page, Sentence sentence, Test test, int start, int end, Findings findings) {
        var plain = sentence.plain;
        var rest = plain.substring(end);
        var value = FROM_TO.matcher(rest);
        var found = value.find();
        if (!found) {
            value = VALUE.matcher(rest);
            found = value.find();
        }
        if (!found) {
            value = LATER.matcher(rest);
            var later = value;
            found = value.find()
                    && test.units().stream()
                            .anyMatch(known -> known.written()
                                    .matcher(rest.substring(later.end()))
                                    .find())
                    && TESTS.stream()
                            .noneMatch(
                                    other -> other.name().matcher(later.group()).find());
        }
        if (!found
                || AIM.matcher(plain.substring(Math.max(0, start - 30), start)).find()
                || Fit.matches(value.group(), "(?s).*\\b(?:target|aim|range|goal)\\b.*")
                || Polarity.isOthers(sentence, start, end)
                || Fit.matches(
                        rest.substring(value.start("v")),
                        "(?s)\\d+ ?(?:mg|mcg|units?) ?(?:od|bd|daily|tds|iv|po)\\b.*")) {
            return;
        }
        var before = plain.substring(sentence.clauseStart(start), start);
        if (Fit.matches(before, "(?s).*\\b(?:if|when|once|until|unless|should|provided|allows?)\\b[^,;]*$")) {
            return;
        }
        var later = later(rest, value.end());
        var number = new BigDecimal(
                later.map(match -> match.group("v")).orElse(value.group("v")).replace(",", ""));
        var until = value.end() + later.map(Matcher::end).orElse(0);
        var text = rest.substring(until);
        var first = rest.substring(value.end());
        var unit = Stream.of(text, first)
                .flatMap(behind -> test.units().stream()
                        .filter(known -> known.written().matcher(behind).find()))
                .findFirst();
        if (number.doubleValue() < test.least()
                || number.doubleValue() > test.most()
                || Fit.matches(text, "(?s)/\\d.*")) {
            return;
        }
        if (SERIES.matcher(first).find() && later.isEmpty()) {
            return;
        }
        if (rest.startsWith("<") || value.group().contains("<")) {
            return;
        }
        if (findings.entries("labs").stream()
                .anyMatch(lab -> lab.text("test").equals(Optional.of(test.code()))
                        && lab.text("value")
                                .equals(Optional.of(number.stripTrailingZeros().toPlainString())))) {
            return;
        }
        var unitEnd = unit.map(known -> {
                    var written = known.written().matcher(text);
                    return written.find() ? written.end() : 0;
                })
                .orElse(0);
        var words = sentence.span(start, end + until + unitEnd);
        var lab = findings.add("labs");
        lab.put("test", test.code(), words);
        lab.put("value", number, words);
        unit.filter(known -> plausible(test.code(), known.code(), number.doubleValue()))
                .ifPresent(known -> lab.put("unit", known.code(), words));
        taken(page, sentence, end + until + unitEnd, start, lab, words);
    }

    /** A value that counts instead of the one that ends at {@code end}, since it is the later one. */
    private static Optional<Matcher> later(String rest, int end) {
        var behind = rest.substring(end);
        for (var pattern : List.of(EARLIER_THAN, NOW_LATER)) {
            var match = pattern.matcher(behind);
            if (match.find()
                    && TESTS.stream()
                            .noneMatch(
                                    test -> test.name().matcher(match.group()).find())) {
                return Optional.of(match);
            }
        }
        return Optional.empty();
    }

    /** Whether the value can be in that unit; limits as the format has them. */
    private static boolean plausible(String test, String unit, double value) {
        return switch (test + " " + unit) {
            case "creatinine mg/dL" -> value <= 20;
            case "creatinine umol/L" -> value >= 22;
            case "haemoglobin g/dL" -> value <= 24;
            case "haemoglobin g/L" -> value >= 25;
            case "hba1c %" -> value <= 20;
            case "hba1c mmol/mol" -> value >= 21;
            default -> true;
        };
    }

    /** A full date just behind the value, or one that heads the list of values. */
    private static void taken(Page page, Sentence sentence, int end, int start, Findings.Entry lab, Span words) {
        var plain = sentence.plain;
        var dates = page.dates.in(plain);
        for (var date : dates) {
            if (date.full()
                    && date.start() >= end
                    && DATE_LEAD.matcher(plain.substring(end, date.start())).matches()) {
                lab.put("taken", date.date().orElseThrow().toString(), words);
                return;
            }
        }
        for (var date : dates) {
            if (date.full()
                    && date.end() <= start
                    && Fit.matches(
                            plain.substring(0, date.start()),
                            LIST_HEAD + "?[ :,(]*(?:of|from|on|dated|taken|taken on|drawn|\\()?[ :(]*(?:the )?")
                    && !plain.substring(date.end(), start).contains(". ")
                    && !Fit.matches(plain.substring(date.end(), start), "(?s).*\\b(?:duplex|cta|abi|angiogram)\\b.*")) {
                lab.put("taken", date.date().orElseThrow().toString(), words);
                return;
            }
        }
        var inside = dates.stream()
                .filter(date -> date.full() && date.start() > start && date.end() < end)
                .findFirst();
        inside.or(() -> ofAll(page, sentence, end))
                .ifPresent(date -> lab.put("taken", date.date().orElseThrow().toString(), words));
    }

    /** The day of a whole list of values: in brackets at its end, or in the words behind it. */
    private static Optional<Dates.Found> ofAll(Page page, Sentence sentence, int end) {
        var plain = sentence.plain;
        var closing = page.dates.in(plain).stream()
                .filter(date -> date.full() && date.start() >= end)
                .filter(date -> Fit.matches(
                                plain.substring(0, date.start()),
                                "(?s).*\\d[^()]{0,30}\\( ?(?:all |all on |taken |on )*")
                        && Fit.matches(plain.substring(date.end()), "\\)[. ]*")
                        && !OTHER_EXAMINATION
                                .matcher(plain.substring(end, date.start()))
                                .find())
                .findFirst();
        if (closing.isPresent()) {
            return closing;
        }
        for (var next = page.after(sentence);
                next.isPresent()
                        && next.get().paragraph == sentence.paragraph
                        && next.get().number <= sentence.number + 3;
                next = page.after(next.get())) {
            var words = next.get().plain;
            var all = page.dates.in(words).stream()
                    .filter(Dates.Found::full)
                    .filter(date -> Fit.matches(
                                    words.substring(0, date.start()),
                                    "(?s).*\\d[^()]{0,30}\\( ?all (?:on |taken |of )*")
                            || Fit.matches(words.substring(0, date.start()), LIST_HEAD + "[ :]*")
                                    && Fit.matches(words.substring(date.end()), "[. )]*"))
                    .findFirst();
            if (all.isPresent()) {
                return all;
            }
        }
        return Optional.empty();
    }
}
