package limbqueue.reading;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Pain on walking: where, after how far, since when, and what it does to a life. */
final class ClaudicationRule implements Rule {

    private static final String SORENESS =
            "(?:pain(?:ful)?|cramps?|cramping|ache[sd]?|aching|achy|tightness|tightens?|tight|heaviness|discomfort|fatigue|tires?|gives? (?:out|way)|seizes?(?: up)?|burning|burns?|weakness|tired|grips?|gripping|soreness|stiffens?|locks|hurts?|hurting|sore|locks up|symptoms?)";
    private static final String WALKING =
            "(?:walk(?:s|ed|ing)?|exert\\w*|exercis\\w+|stairs|uphill|hills?|inclines?|on the flat|on the level|treadmill|mobilis\\w+|ambulat\\w+|steps|strides|stroll\\w*|march\\w*|runs?|running|jog\\w*|climb\\w*|cycl(?:es|ing))";

    private static final Pattern NAMED =
            Pattern.compile("\\b(?<!neurogenic )(?<!spinal )(?<!venous )(?<!pseudo)(?<!pseudo )claudication\\b");
    private static final Pattern DESCRIBED = Pattern.compile("\\b(?:" + SORENESS + "\\b[^.;]{0,80}?\\b" + WALKING + "|"
            + WALKING + "\\b[^.;]{0,90}?\\b" + SORENESS + ")\\b");
    private static final Pattern AT_DISTANCE = Pattern.compile(
            "\\b(?:buttock|thigh|calf|leg|hip)s?\\b[^.;]{0,60}?\\b(?:" + SORENESS
                    + ")\\b[^.;]{0,60}?\\b(?:at|after|within|by|beyond|for)\\b|\\b" + SORENESS
                    + "\\b[^.;]{0,60}?\\b(?:buttock|thigh|calf|leg|hip)s?\\b[^.;]{0,60}?\\b(?:at|after|within|by|beyond)\\b");
    private static final Pattern SORE_MUSCLE = Pattern.compile("\\b(?:buttock|thigh|calf)s?\\b[^.;]{0,60}?\\b"
            + SORENESS + "\\b|\\b" + SORENESS + "\\b[^.;]{0,40}?\\b(?:buttock|thigh|calf)s?\\b");
    private static final Pattern MUSCLE = Pattern.compile("\\b(buttock|thigh|calf|hip|leg|foot|instep)s?\\b");
    /** Pain of the foot is that of walking only where rest or a distance says so. */
    private static final Pattern FOOT_CLAUDICATION = Pattern.compile(
            "\\bwalk\\w*\\b.*\\b(?:stops?|eases?|goes|settles|relie\\w+|passes)\\b[^.;]{0,20}\\b(?:rests?|stands?|standing|stops|resting|stopping)\\b"
                    + "|\\bwalk\\w*\\b[^.;]{0,30}\\b\\d+ ?(?:m|metre|yard|feet_unit|foot|block|mile)s?\\b");

    private static final Pattern LIMIT = Pattern.compile(
            "\\b(?:(?:claudication|walking|walk|exercise|pain[ -]?free|symptom[ -]?free|max(?:imum|imal)?|absolute|initial|total|treadmill)[ -]?(?:claudication )?(?:walking )?(?:distance|tolerance|range|limit)|(?:icd|acd|cd|mwd|pfwd|pwd)(?= ?[:=]? ?\\d)|"
                    + "(?:(?:has to|must|needs to|have to|had to) (?:stop|rest|sit|halt|pause|stand)|stops?(?: him| her| them)?|stopping|stopped|pulls (?:him|her) up|brings (?:him|her) to a (?:halt|stop|standstill)|limited to|(?:can|could|able to|manage[sd]?(?: to)?|walks?|only)(?: now| just| barely| about| only| walk| go| do| manage| for| around| roughly| maybe| perhaps| no more than| not more than| up to| approximately){1,4}(?= \\d| a | half| less| under| <)))\\b");
    private static final Pattern NO_LEG =
            Pattern.compile("\\b(?:breath\\w*|dyspn\\w+|angina|chest|sob|knee|osteoarthritis|arthritis|joint)\\b");

    @Override
    public void read(Page page, Findings findings) {
        Optional<Topic> topic = Optional.empty();
        for (var sentence : page.sentences) {
            var found = find(page, sentence, topic, findings);
            if (topic.isPresent() && sentence.number - topic.get().sentence() <= 2) {
                noneThere(sentence, topic.get(), findings);
            }
            if (found.isPresent()) {
                topic = found;
            } else if (topic.isPresent()) {
                var known = topic.get();
                if (sentence.number - known.sentence() <= 3
                        && sentence.paragraph - known.paragraph() <= 1
                        && !changesSubject(sentence)) {
                    ClaudicationDetails.read(page, sentence, known, 0, findings, true);
                }
            }
        }
        loneLimits(page, findings, topic);
    }

    /** "R leg none." behind the claudication of the left. */
    private static final Pattern NONE_THERE = Pattern.compile(
            "(?:the )?(?<side>left|right)(?: leg| side| calf)? ?[:=,-]? ?(?:none|nil|has none|no(?:ne)? claudication)[ .]*");

    private static void noneThere(Sentence sentence, Topic topic, Findings findings) {
        var none = NONE_THERE.matcher(sentence.plain);
        if (none.matches()) {
            var side = none.group("side").equals("left") ? Side.LEFT : Side.RIGHT;
            if (!topic.sides().contains(side)) {
                findings.put(side.leg("claudication.present"), false, sentence.span(none));
            }
        }
    }

    /** What was spoken of last: the claudication of these legs. */
    record Topic(Set<Side> sides, int sentence, int paragraph, Findings.Ground ground) {}

    private static boolean changesSubject(Sentence sentence) {
        return Fit.matches(
                sentence.plain,
                "(?s).*\\b(?:rest pain|ulcer|wound|gangrene|smok\\w+|cigarettes|diabetes|abi|medication|pulses?|stroke|surgery|bypass|angiogram|knee|sore|infection|breath\\w*)\\b.*");
    }

    private static Optional<Topic> find(Page page, Sentence sentence, Optional<Topic> topic, Findings findings) {
        var plain = sentence.plain;
        if (sentence.section == Sentence.Section.PLAN && !plain.contains("claudication")) {
            return Optional.empty();
        }
        var result = Optional.<Topic>empty();
        var formed = FormRule.present(sentence, "claudication");
        if (formed.isPresent()) {
            var topic0 = new Topic(formed.get(), sentence.number, sentence.paragraph, Findings.Ground.WORDS);
            if (formed.get().isEmpty()) {
                return Optional.empty();
            }
            ClaudicationDetails.read(page, sentence, topic0, 0, findings, false);
            return Optional.of(topic0);
        }
        var named = NAMED.matcher(plain);
        while (named.find()) {
            var polarity = Polarity.of(sentence, named);
            if (polarity == Polarity.DENIED) {
                deny(page, sentence, named.start(), named.end(), findings);
            } else if (polarity == Polarity.STATED && !isGeneral(plain, named.start(), named.end())) {
                result = present(page, sentence, named.start(), named.end(), findings);
            }
        }
        if (result.isPresent() || plain.contains("claudication") && !plain.contains("neurogenic")) {
            return result;
        }
        var denial = Fit.of(
                        "\\b(?:no|without|denies(?: any)?) (?:leg |calf |exertional |walking |muscle )*(?:pain|cramps?|discomfort|symptoms) (?:on|when|with|while|during) (?:walking|exertion|exercise)\\b|\\bno exertional (?:leg |calf )?(?:pain|symptoms)\\b|\\bno walking pain\\b|\\b(?:leg|side|calf) (?:gives|causes) (?:him|her|them) no (?:trouble|pain|problems?|bother)(?: at all)? (?:in|on|when|with|while) walking\\b|\\bwalks without (?:any )?(?:pain|limitation|difficulty)\\b|\\b(?:leg|side|calf|right|left) (?:\\w+ ){0,3}?(?:doesn't|don't|never|no|nothing|gives no|isn't|hasn't)\\b[^.;,]{0,40}\\b(?:on|when|with|during|while) (?:walking|exertion|exercise|he walks|she walks)\\b|\\b(?:nothing wrong with|no (?:trouble|problem|complaint|symptom)s? (?:in|from|with|of)) (?:the |his |her )?(?:left|right|contralateral|bilateral) (?:leg|side|calf)?[^.;,]{0,20}\\b(?:on|when|with) (?:walking|exertion|exercise|he walks|she walks)")
                .matcher(plain);
        if (denial.find() && !Polarity.isOthers(sentence, denial.start(), denial.end())) {
            deny(page, sentence, denial.start(), denial.end(), findings);
            return Optional.empty();
        }
        for (var pattern : new Pattern[] {DESCRIBED, AT_DISTANCE, SORE_MUSCLE}) {
            var described = pattern.matcher(plain);
            if (!described.find()) {
                continue;
            }
            var muscle = MUSCLE.matcher(plain);
            var at = -1;
            var site = "";
            while (muscle.find()) {
                if ((!Fit.matches(muscle.group(1), "foot|instep")
                                || FOOT_CLAUDICATION.matcher(plain).find())
                        && !(muscle.group(1).equals("hip") && plain.contains("hip replacement"))) {
                    at = muscle.start();
                    site = muscle.group(1);
                    break;
                }
            }
            if (at < 0
                    || NO_LEG.matcher(plain).find() && !site.equals("calf")
                    || plain.contains("rest pain") && !plain.contains("calf")
                    || Fit.matches(
                            plain,
                            "(?s).*\\b(?:ulcer|wound|gangrene|at rest|sudden\\w*|swelling|sciatica|joint)\\b.*")) {
                continue;
            }
            if (pattern != DESCRIBED
                    && Distances.in(plain, 0, plain.length()).isEmpty()
                    && !(pattern == SORE_MUSCLE && ClaudicationDetails.easesOnStanding(sentence))) {
                continue;
            }
            var next = page.after(sentence)
                    .filter(after -> after.paragraph == sentence.paragraph
                            && !Distances.in(after.plain, 0, after.plain.length())
                                    .isEmpty());
            if (site.equals("leg")
                    && Distances.in(plain, 0, plain.length()).isEmpty()
                    && next.isEmpty()
                    && !Fit.matches(plain, "(?s).*\\b(?:relie\\w+|eases|rest|stops?|standing)\\b.*")) {
                continue;
            }
            var start = Math.min(at, described.start());
            var polarity = Polarity.of(sentence, described.start(), described.end());
            if (polarity == Polarity.STATED) {
                return present(page, sentence, start, Math.max(described.end(), at + site.length()), findings);
            }
        }
        var limit = LIMIT.matcher(plain);
        if (limit.find() && topic.isEmpty()) {
            var muscle = MUSCLE.matcher(plain);
            if (muscle.find()
                    && Fit.matches(muscle.group(1), "calf|thigh|buttock")
                    && !Distances.in(plain, 0, plain.length()).isEmpty()
                    && (Polarity.of(sentence, muscle) == Polarity.STATED
                            || Fit.matches(
                                    plain.substring(0, muscle.start()),
                                    "(?s).*\\b(?:before|until) (?:the |his |her )?(?:left |right )?"))) {
                return present(page, sentence, muscle.start(), muscle.end(), findings);
            }
        }
        var terse = Fit.of("\\b(calf|thigh|buttock)\\b[^.;]{0,30}\\b(?:ache|pain|cramp\\w*|tightness|)\\b")
                .matcher(plain);
        if (terse.find()
                && !Distances.in(plain, terse.start(), Math.min(plain.length(), terse.end() + 60))
                        .isEmpty()
                && Polarity.of(sentence, terse) == Polarity.STATED
                && !Fit.matches(plain, "(?s).*\\b(?:ulcer|wound|cm|swelling|dvt|oedema)\\b.*")) {
            return present(page, sentence, terse.start(), terse.end(), findings);
        }
        return Optional.empty();
    }

    /** "Claudication clinic", "claudication exercise class": a name, not a complaint. */
    private static boolean isGeneral(String plain, int start, int end) {
        var after = plain.substring(end);
        return Fit.matches(
                        after,
                        "(?s) (?:clinic|exercise|programme|program|class|questionnaire|service|leaflet|nurse|history (?:is )?(?:unclear|unobtainable)).*")
                || Polarity.isOver(plain, start, end)
                || Fit.matches(plain.substring(0, start), "(?s).*\\b(?:jaw|arm|upper limb|tongue) ");
    }

    private static void deny(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.ofDenial(sentence, start, end);
        for (var side : place.sides()) {
            findings.put(
                    side.leg("claudication.present"),
                    false,
                    sentence.span(Polarity.denialStart(sentence, start), end),
                    place.ground());
        }
    }

    private static final String ABOUT = "(?:(?:at|after|about|around|to|is|only|:|=|-) ?)*";
    private static final String SOME_WAY = "\\d{2,4} ?(?:m|metre|yard|feet_unit)s?";

    /** A distance for each leg: "100 m on the right and 300 on the left". */
    private static final Pattern OF_BOTH_LEGS = Pattern.compile("\\b" + SOME_WAY
            + " (?:on|in) the (?:left and " + ABOUT + "\\d{2,4}(?: ?\\w+)? (?:on|in) the right|right and " + ABOUT
            + "\\d{2,4}(?: ?\\w+)? (?:on|in) the left)\\b");

    private static Optional<Topic> present(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.of(sentence, start, end);
        if (!place.known()) {
            place = page.legs.ahead(sentence);
        }
        if (!place.known()) {
            findings.ask("Claudication is mentioned: ask in which leg.", sentence.span(start, end));
            return Optional.empty();
        }
        if (place.sides().size() == 1 && OF_BOTH_LEGS.matcher(sentence.plain).find()) {
            place = new Legs.Place(Side.both(), place.ground());
        }
        for (var side : place.sides()) {
            findings.put(side.leg("claudication.present"), true, sentence.span(start, end), place.ground());
        }
        page.legs
                .without(sentence, end)
                .ifPresent(other -> other.sides()
                        .forEach(side -> findings.put(
                                side.leg("claudication.present"), false, sentence.span(other.start(), other.end()))));
        var topic = new Topic(place.sides(), sentence.number, sentence.paragraph, place.ground());
        ClaudicationDetails.read(page, sentence, topic, start, findings, false);
        return Optional.of(topic);
    }

    /** A walking distance told without a complaint, where the letter has named the claudication elsewhere. */
    private static void loneLimits(Page page, Findings findings, Optional<Topic> topic) {
        if (topic.isEmpty()) {
            return;
        }
        var known = topic.get();
        Set<Side> without = EnumSet.noneOf(Side.class);
        for (var side : Side.values()) {
            if (findings.isTrue(side.leg("claudication.present"))
                    && findings.get(side.leg("claudication.distanceMetres")).isEmpty()) {
                without.add(side);
            }
        }
        if (without.isEmpty()) {
            return;
        }
        for (var sentence : page.sentences) {
            var limit = LIMIT.matcher(sentence.plain);
            if (!limit.find()
                    || NO_LEG.matcher(sentence.plain).find()
                    || Polarity.of(sentence, limit) == Polarity.OPEN) {
                continue;
            }
            var found =
                    Distances.in(sentence.plain, limit.start(), Math.min(sentence.plain.length(), limit.end() + 50))
                            .stream()
                            .filter(distance -> !ClaudicationDetails.isFormer(sentence, distance))
                            .filter(distance -> {
                                var near = page.legs.near(sentence, distance.start(), distance.end());
                                return !near.known() || near.sides().containsAll(without);
                            })
                            .findFirst();
            if (found.isPresent()) {
                ClaudicationDetails.put(
                        page,
                        sentence,
                        new Topic(without, known.sentence(), known.paragraph(), Findings.Ground.CARRIED),
                        "claudication.distanceMetres",
                        found.get().metres(),
                        found.get().start(),
                        found.get().end(),
                        findings);
                return;
            }
        }
    }
}
