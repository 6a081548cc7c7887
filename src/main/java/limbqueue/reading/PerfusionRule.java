package limbqueue.reading;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import limbqueue.reading.Measures.Measure;

/** Indices and pressures of arms, ankles and toes, and waveforms. */
final class PerfusionRule implements Rule {

    private static final Pattern DECIMAL = Pattern.compile(
            "(?<![\\d.<>-])(?<!- )(?:\\d\\.\\d{1,3}|(?<=(?:left|right) )1(?= ?(?:[,;)]|\\.(?!\\d)|$)))(?![\\d%+]|\\.\\d| ?(?:%|-|to) ?\\d\\.| ?%| ?(?:cm|mm|mg|m\\b|mmhg|mile|kg|g/|umol|mmol))");
    private static final Pattern WHOLE = Pattern.compile(
            "(?<![\\d.<>-])\\d{1,3}(?![\\d+%]|\\.\\d|/\\d{1,2}/| ?(?:%|\\+|-|to) ?\\d|/(?:7|12|52)\\b| ?(?:cm|mm\\b|mg|m\\b|metre|yard|block|week|month|year|day|hour|minute|percent|%|degrees))");
    private static final Pattern ARM_VALUE = Pattern.compile("(?<![\\d./-])\\d{2,3}(?![\\d+%.]\\d|\\d)");

    private static final Pattern PAST_VALUE = Pattern.compile(
            "(?:previous(?:ly)?|was|formerly|last year|in (?:[a-z]+ )?(?:19|20)\\d\\d|compared (?:with|to)|down from|up from|from|before that|earlier|a year ago|\\d+ (?:months|years|month|year) ago)(?: (?:it|at|of|was|were|the|is|a))* ?\\(? ?$");
    private static final Pattern PAST_AFTER = Pattern.compile(
            "^ ?[,(]? ?(?:in (?:[a-z]+ )?(?:19|20)\\d\\d|last (?:year|spring|summer|autumn|winter|month)|a year ago|\\d+ (?:month|year|week)s? ago|previously(?! (?:it |of |was |were )*\\d)|(?:at|on|before|after) (?:discharge|baseline|admission|the (?:operation|angioplasty|stent|bypass))\\b|before\\b(?! that)|(?:19|20)\\d\\d\\b)");
    private static final Pattern EARLIER = Pattern.compile(
            "\\b(?:for comparison|comparison[^.;]{0,12}|(?:previous|prior|earlier|old|former|pre-?op(?:erative)?) (?:resting |left |right |bilateral |ankle )*$|(?:(?:in|ln|from|of) (?:[a-z]{3,9} )?|^)(?<y>(?:19|20)\\d\\d)(?:,(?! (?:left|right)))?[^.,;\\d]{0,25}$)");
    private static final Pattern EXERCISE = Pattern.compile(
            "\\b(?:after|post|following|on|with)[ -](?:a |the |\\d+ minutes? )?(?:exercise|exertion|treadmill|walking)|\\b(?:falling|fell|falls|dropping|dropped|drops|drop|fall)(?: \\w+){0,2} to\\b|\\bpost[ -]?ex\\b");

    /** "(R/L)": the order in which figures stand that are joined by a stroke. */
    private static final Pattern ORDER = Pattern.compile("\\b(left|right) ?/ ?(left|right)\\b(?! ?(?:leg|foot))");

    /** "ABI at Westmere 2023 0.9; no signal today". */
    private static final Pattern NOT_TODAY = Pattern.compile(
            "\\b(?:today|now|here|this time|currently)\\b[^.;]{0,30}\\b(?:no|not|cannot|isn't|un(?:recordable|obtainable))\\b|\\b(?:no|not|cannot)\\b[^.;]{0,40}\\b(?:today|now|this time)\\b");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            if (!sentence.hasAny(
                    "abi",
                    "tbi",
                    "toe",
                    "dp",
                    "postib",
                    "tcpo2",
                    "arm",
                    "brachial",
                    "pressure",
                    "index",
                    "after",
                    "post",
                    "on ")) {
                continue;
            }
            pair(page, sentence, findings);
            var keys = Measures.in(sentence.plain);
            for (var i = 0; i < keys.size(); i++) {
                read(page, sentence, keys, i, findings);
            }
        }
        new WaveformRule().read(page, findings);
    }

    private static void read(Page page, Sentence sentence, List<Measures.Key> keys, int i, Findings findings) {
        var plain = sentence.plain;
        var key = keys.get(i);
        var to = i + 1 < keys.size()
                ? borderBefore(plain, key.end(), keys.get(i + 1).start())
                : plain.length();
        to = Math.min(to, key.end() + 130);
        to = otherMeasure(plain, key.end(), to);
        var values = key.measure().index() ? DECIMAL : key.measure() == Measure.ARM ? ARM_VALUE : WHOLE;
        var before = sidesBefore(plain, i == 0 ? 0 : keys.get(i - 1).end(), key.start(), key.measure());
        if (key.measure() == Measure.ARM
                && !Fit.matches(
                        plain.substring(Math.max(0, key.start() - 40), Math.min(plain.length(), key.end() + 40)),
                        "(?s).*\\d{2,3}.*")) {
            return;
        }
        if (Polarity.isOthers(sentence, key.start(), key.end())) {
            return;
        }
        if (key.measure() == Measure.ARM && armBehind(sentence, key, findings)) {
            return;
        }
        var ordered =
                key.measure() == Measure.ARM ? List.<SideValues.Shared>of() : inOrder(page, sentence, key, to, values);
        for (var shared : ordered.isEmpty()
                ? SideValues.share(plain, key.end(), to, values, plausible(key.measure()), before)
                : ordered) {
            put(page, sentence, key, shared, findings);
        }
    }

    /** "ABI (R/L) 0.71/0.95, after treadmill 0.32/0.88": figures without sides, in the order told before them. */
    private static List<SideValues.Shared> inOrder(
            Page page, Sentence sentence, Measures.Key key, int to, Pattern values) {
        var plain = sentence.plain;
        var pair = Fit.of("^[^a-z\\d]{0,4}(?:(?:is|are|was|were|test|at|to|fell|falling) ){0,3}(" + values.pattern()
                        + ") ?/ ?(" + values.pattern() + ")")
                .matcher(plain)
                .region(key.end(), to)
                .useTransparentBounds(true);
        if (!pair.find()
                || Fit.of("\\b(?:left|right|bilateral)\\b")
                        .matcher(plain)
                        .region(key.end(), to)
                        .find()) {
            return List.of();
        }
        var order = order(plain, key.start())
                .or(() -> page.before(sentence)
                        .filter(earlier -> sentence.paragraph - earlier.paragraph <= 1)
                        .flatMap(earlier -> order(earlier.plain, earlier.plain.length())));
        var shared = new ArrayList<SideValues.Shared>();
        var plausible = plausible(key.measure()).test(pair.group(1))
                && plausible(key.measure()).test(pair.group(2));
        for (var i = 0; i < 2 && plausible && order.isPresent(); i++) {
            shared.add(new SideValues.Shared(
                    pair.start(1),
                    pair.end(i + 1),
                    pair.group(i + 1),
                    EnumSet.of(order.get().get(i))));
        }
        return shared;
    }

    private static Optional<List<Side>> order(String plain, int to) {
        var match = ORDER.matcher(plain).region(0, to);
        return match.find() && !match.group(1).equals(match.group(2))
                ? Optional.of(
                        match.group(1).equals("left") ? List.of(Side.LEFT, Side.RIGHT) : List.of(Side.RIGHT, Side.LEFT))
                : Optional.empty();
    }

    private static final String ARM_PRESSURE = "(?<![\\d./])(\\d{2,3})(?:/\\d{2,3})?(?: ?mmhg)?(?: systolic)? ?\\(?"
            + "(?:in|on|from|at)?(?: the| his| her)? ?\\(?(left|right)";

    private static final Pattern BEFORE_ARM = Pattern.compile(ARM_PRESSURE + " $");

    private static final Pattern OTHER_ARM =
            Pattern.compile("^ ?[,;)]? ?(?:and |but |versus |vs )?" + ARM_PRESSURE + "\\b(?! (?:arm|brachial))");

    /** "142/80 in the right arm and 138/80 in the left": whether the pressure stands before its arm. */
    private static boolean armBehind(Sentence sentence, Measures.Key key, Findings findings) {
        var match = BEFORE_ARM.matcher(sentence.plain.substring(0, key.start()));
        if (!match.find() || !plausible(Measure.ARM).test(match.group(1))) {
            return false;
        }
        findings.put(
                "armPressures." + match.group(2),
                Integer.valueOf(match.group(1)),
                sentence.span(match.start(), key.end()));
        var other = OTHER_ARM.matcher(sentence.plain.substring(key.end()));
        if (other.find()
                && plausible(Measure.ARM).test(other.group(1))
                && !other.group(2).equals(match.group(2))) {
            findings.put(
                    "armPressures." + other.group(2),
                    Integer.valueOf(other.group(1)),
                    sentence.span(key.end() + other.start(1), key.end() + other.end()));
        }
        return true;
    }

    /** "ABI left above 1.3, toe 0.4". */
    private static final Pattern OF_THE_TOE = Pattern.compile("\\b(?:toe|hallux|digit|tbi)(?: index)? ?[:=]? ?$");

    /** "Left 95, arm 150": the side is that of another figure. */
    private static boolean isAnkles(String plain, Measures.Key key, SideValues.Shared shared) {
        return Fit.matches(
                        plain.substring(0, key.start()),
                        "(?s).*\\b(?:left|right)(?: ankle)? ?[:=]? ?\\d{2,3} ?(?:mmhg)?[,;]? ")
                && !Fit.matches(plain.substring(key.start(), shared.end()), "(?s).*\\b(?:left|right)\\b.*");
    }

    /** Sides just before the measure; what stands before an earlier measure belongs to that. */
    private static Set<Side> sidesBefore(String plain, int from, int start, Measure measure) {
        var piece = plain.substring(from, start);
        var match = Fit.of("\\b(left|right|bilateral)\\b").matcher(piece);
        Set<Side> sides = EnumSet.noneOf(Side.class);
        var at = 0;
        while (match.find()) {
            sides = match.group().equals("bilateral")
                    ? Side.both()
                    : EnumSet.of(match.group().equals("left") ? Side.LEFT : Side.RIGHT);
            at = match.end();
        }
        var between = piece.substring(at);
        if (sides.isEmpty()
                || measure == Measure.ARM && between.length() > 12
                || Fit.matches(between, "(?s).*(?:; |\\. | but | and (?!foot|great)).*")
                || Fit.matches(between, "(?s)[^a-z]*\\d.*") && from > 0) {
            return Set.of();
        }
        return between.length() > 60 ? Set.of() : sides;
    }

    /** Where the words before the next measure begin: a side just before it belongs to it. */
    private static int borderBefore(String plain, int from, int next) {
        var border = Fit.of(
                        "\\b(?:left|right|bilateral)(?: (?:leg|foot|side|ankle|great|resting|toe))*,? ?[:=-]? ?(?:the )?$")
                .matcher(plain.substring(from, next));
        return border.find() ? from + border.start() : next;
    }

    /** Values of other things do not belong to this measure. */
    private static int otherMeasure(String plain, int from, int to) {
        var match = Fit.of(
                        "\\b(?:creatinine|egfr|haemoglobin|platelets|inr|potassium|hba1c|crp|bmi|bp|blood pressure|hr|pulse|temp\\w*|distance|stenosis|claudication|walk\\w*|psv|ratio|velocity|aged?|weight|height|duplex|cta|mra)\\b|\\. [a-z]|; (?!left|right)")
                .matcher(plain)
                .region(from, to);
        return match.find() ? match.start() : to;
    }

    private static Predicate<String> plausible(Measure measure) {
        return text -> {
            var value = Double.parseDouble(text);
            return switch (measure) {
                case ABI, TBI, EXERCISE_ABI -> value <= 2.5;
                case OXYGEN -> value <= 120;
                case ARM -> value >= 70 && value <= 260;
                default -> value >= 6 && value <= 300;
            };
        };
    }

    private static void put(
            Page page, Sentence sentence, Measures.Key key, SideValues.Shared shared, Findings findings) {
        var plain = sentence.plain;
        var measure = key.measure();
        var between = plain.substring(key.end(), Math.max(key.end(), shared.start()));
        var valueStart = plain.lastIndexOf(shared.text(), shared.end() - 1);
        var lead = plain.substring(Math.max(key.end(), valueStart - 40), Math.max(key.end(), valueStart))
                .replace("->", " to ");
        var after = plain.substring(shared.end(), Math.min(plain.length(), shared.end() + 30));
        if (measure.index()
                        && Fit.matches(
                                between,
                                "(?s).*\\b(?:target|normal (?:is|range|value)|above|below|greater|less|under|over|more than|between)\\b.*")
                || Fit.matches(
                        shared.sides().isEmpty() || valueStart < shared.start()
                                ? between
                                : plain.substring(shared.start(), valueStart),
                        "(?s).*(?:falsely|spurious|artefact|unreliabl|non compressible|calcified|could not|cannot|unrecordable|not (?:be )?(?:recorded|measured|obtained|done)|heart|diagnos).*")) {
            return;
        }
        if (plain.startsWith("<", Math.max(0, valueStart - 1))
                || plain.startsWith(">", Math.max(0, valueStart - 1))
                || Fit.matches(
                        lead,
                        "(?s).*(?:[<>~]|\\b(?:between|less than|more than|greater than|over|under|about \\d\\.\\d+ (?:or|to))) ?$")) {
            return;
        }
        if (measure.index() && Fit.matches(lead, "(?s).*\\b(?:falsely|spurious(?:ly)?) .*")) {
            return;
        }
        if (measure.index() && (ofOneArtery(after) || inBracketsOfThePast(plain, valueStart))) {
            return;
        }
        if (measure == Measure.ABI && OF_THE_TOE.matcher(lead).find()) {
            return;
        }
        if (measure.index()
                && (ofEarlierYear(page, plain.substring(0, key.start()))
                        || NOT_TODAY.matcher(plain).find()
                                && Fit.matches(between, "(?s)[^.;]*\\b(?:19|20)\\d\\d\\b[^.;]*"))) {
            return;
        }
        var several = DECIMAL.matcher(between).find() || WHOLE.matcher(between).find();
        if (measure.index() && several && PAST_VALUE.matcher(lead).find()
                || PAST_AFTER.matcher(after).find() && !measure.equals(Measure.ARM)) {
            return;
        }
        if (measure == Measure.ABI
                && Fit.matches(lead, "(?s).*\\bfrom ?")
                && Fit.matches(after, "(?s) to \\d\\.\\d.*")) {
            return;
        }
        if (measure == Measure.ABI && EXERCISE.matcher(lead).find()
                || measure == Measure.ABI
                        && Fit.matches(
                                after,
                                "(?s) (?:after|post|following|on)[ -](?:exercise|treadmill|walking)(?! ?(?:tests? )?[:=(]? ?(?:(?:was|is|to|left|right) ){0,2}\\d\\.\\d).*")) {
            measure = Measure.EXERCISE_ABI;
        }
        if ((measure == Measure.DORSALIS_PEDIS || measure == Measure.POSTERIOR_TIBIAL)
                && (Fit.matches(
                                between,
                                "(?s).*(?:pulse|biphasic|monophasic|triphasic|palpable|absent|weak|velocity|stenosis|occlu).*")
                        || Fit.matches(after, "(?s) ?(?:\\+|cm|%|mm\\b).*"))) {
            return;
        }
        var number = new BigDecimal(shared.text());
        if (measure == Measure.ARM) {
            if (isAnkles(plain, key, shared)
                    || Fit.matches(between, "(?s).*[a-z]{4,}.*")
                            && !Fit.matches(
                                    between,
                                    "(?s)(?:[^a-z]|left|right|arm|measured|gave|read|reads|reading|showed|both|side|was|were|is|bp|brachial|pressure|systolic|mmhg|and|in|on|of|the|at)*")) {
                return;
            }
            for (var side : shared.sides()) {
                if (shared.sides().size() == 1) {
                    findings.put("armPressures." + side.word, number, sentence.span(shared.start(), shared.end()));
                }
            }
            return;
        }
        var sides = shared.sides();
        var ground = Findings.Ground.WORDS;
        if (sides.isEmpty()) {
            var place = before(page, sentence, key);
            sides = place.sides();
            ground = place.ground();
            if (sides.size() != 1) {
                return;
            }
        }
        var start = shared.start() - key.end() < 60 ? key.start() : shared.start();
        for (var side : sides) {
            findings.put(
                    side.leg(measure.field),
                    number,
                    sentence.span(several ? shared.start() : start, shared.end()),
                    ground);
        }
    }

    /** "0.55 (DP)": there is one index for each artery, and the higher counts. */
    private static boolean ofOneArtery(String after) {
        return Fit.matches(after, "(?s) ?[(]?(?:at |by |from )?(?:the )?(?:dp|postib)\\b.*");
    }

    private static final Pattern PAST_IN_BRACKETS = Pattern.compile(
            "^[^()]*\\b(?:(?:19|20)\\d\\d|previous\\w*|before|ago|discharge|was|were|baseline|formerly|last (?:year|month|week))\\b");

    /** "0.94 (0.91 at discharge)". */
    private static boolean inBracketsOfThePast(String plain, int at) {
        var open = plain.lastIndexOf('(', at);
        return open >= 0
                && plain.indexOf(')', open) > at
                && PAST_IN_BRACKETS.matcher(plain.substring(open + 1)).find();
    }

    /** "In 2017 the ABI was 0.8", in a letter of a later year. */
    private static boolean ofEarlierYear(Page page, String before) {
        var earlier = EARLIER.matcher(before);
        return earlier.find()
                && (earlier.group("y") == null
                        || page.year
                                .map(year -> Integer.parseInt(earlier.group("y")) < year)
                                .orElse(true));
    }

    /** The leg named before the measure, in its sentence or before. */
    private static Legs.Place before(Page page, Sentence sentence, Measures.Key key) {
        if (Fit.of("\\b(?:that|this|the same|same) (?:side|leg|foot|limb)\\b")
                .matcher(sentence.plain)
                .find()) {
            return page.legs.carriedTo(sentence);
        }
        var mentions = page.legs.mentions(sentence);
        var before = mentions.stream()
                .filter(mention -> mention.end() <= key.start())
                .toList();
        if (!before.isEmpty()) {
            return new Legs.Place(before.getLast().sides(), Findings.Ground.SENTENCE);
        }
        return mentions.isEmpty() ? page.legs.carriedTo(sentence) : Legs.UNKNOWN;
    }

    private static final Pattern PAIR = Pattern.compile(
            "\\b(dp|postib) ?(?:/|and|&|,|\\+) ?(dp|postib)\\b(?: pressure| systolic|s)*(?: were| was| of| are| is)? ?[:=]? ?");
    private static final Pattern PAIR_VALUES = Pattern.compile(
            "(?:(left|right)(?: leg| foot| side)? ?[:=]? ?(?:were |was |are )?)?(?<![\\d.])(\\d{2,3}) ?(?:mmhg )?(?:/|and|&|,) ?(\\d{2,3})(?![\\d.%+])(?: ?mmhg)?(?: ?\\(?(?:on |in )?(?:the )?(left|right)\\b)?");

    /** "DP/PT 80/76 on the right". */
    private static void pair(Page page, Sentence sentence, Findings findings) {
        var keys = PAIR.matcher(sentence.plain);
        if (!keys.find() || keys.group(1).equals(keys.group(2))) {
            return;
        }
        var values = PAIR_VALUES
                .matcher(sentence.plain)
                .region(keys.end(), Math.min(sentence.plain.length(), keys.end() + 90));
        while (values.find()) {
            var word = values.group(1) != null ? values.group(1) : values.group(4);
            Set<Side> sides = word == null
                    ? page.legs.of(sentence, keys.start(), keys.start() + 1).sides()
                    : EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT);
            if (sides.size() != 1) {
                continue;
            }
            var side = sides.iterator().next();
            for (var i = 1; i <= 2; i++) {
                var measure = keys.group(i).equals("dp") ? Measure.DORSALIS_PEDIS : Measure.POSTERIOR_TIBIAL;
                findings.put(side.leg(measure.field), new BigDecimal(values.group(i + 1)), sentence.span(values));
            }
        }
    }
}
