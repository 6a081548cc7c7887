package limbqueue.reading;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Pain on walking: where, after how far, since when, and what it does to a life. */
final class ClaudicationRule implements Rule {

    private static final String SORENESS =
            "(?:pain(?:ful)?|cramps?|cramping|ache[sd]?|aching|achy|tightness|tightens?|tight|heaviness|discomfort|fatigue|gives? (?:out|way)|seizes?(?: up)?|burning|burns?|weakness|tired|grips?|gripping|soreness|stiffens?|locks|hurts?|hurting|sore|locks up|symptoms?)";
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

    /** "Right 100 yards, left 300 yards." */
    private static final Pattern SIDES_AND_DISTANCES = Pattern.compile(
            "(?:(?:left|right|bilateral)(?: leg| side)? ?[:=-]? ?(?:at |about |after )?\\d+ ?\\w+[ ,;.]*(?:and )?){1,2}");

    private static final Pattern LIMIT = Pattern.compile(
            "\\b(?:(?:claudication|walking|walk|exercise|pain[ -]?free|symptom[ -]?free|max(?:imum|imal)?|absolute|initial|total|treadmill)[ -]?(?:claudication )?(?:walking )?(?:distance|tolerance|range|limit)|(?:icd|acd|cd|mwd|pfwd|pwd)(?= ?[:=]? ?\\d)|"
                    + "(?:(?:has to|must|needs to|have to|had to) (?:stop|rest|sit|halt|pause|stand)|stops?(?: him| her| them)?|stopping|stopped|pulls (?:him|her) up|brings (?:him|her) to a (?:halt|stop|standstill)|limited to|(?:can|could|able to|manage[sd]?(?: to)?|walks?|only)(?: now| just| barely| about| only| walk| go| do| manage| for| around| roughly| maybe| perhaps| no more than| not more than| up to| approximately){1,4}(?= \\d| a | half| less| under| <)))\\b");
    private static final Pattern NO_LEG =
            Pattern.compile("\\b(?:breath\\w*|dyspn\\w+|angina|chest|sob|knee|osteoarthritis|arthritis|joint)\\b");

    private static final Pattern COURSE_WORSE = Pattern.compile(
            "\\b(?:worse(?:n(?:ing|ed|s)?)?|progressive(?:ly)?|progress(?:ing|ed)|deteriorat\\w+|getting shorter|shorten(?:ed|ing|s)|declin(?:ing|ed)|going downhill|(?:come|gone|went|came|is|now) down (?:from|to)|(?:distance|dist\\w*|walking) (?:is |now )?down|down (?:from|to) \\d|(?:used to be|it was|was) \\d{2,4}(?= (?:at|in|last|a year|before|metre|yard|block|block|when)|[.,;]|$)|(?:increasing|decreasing|reducing|falling|shrinking|dwindling)(?:ly)?|shorter (?:and shorter|every|each)|less and less|sooner every|dropped|fallen|crescendo)\\b");
    private static final Pattern COURSE_STABLE = Pattern.compile(
            "\\b(?:stable|unchanged|no change|not (?:changed|changing|worse|worsening|progressed|progressing|deteriorat\\w+)|hasn't (?:changed|progressed|worsened|got\\w* (?:any )?worse|deteriorated)|(?:don't|doesn't|never) change\\w*|not altered|hasn't altered|(?:don't|not) (?:think|believe|feel) (?:it|this|that it) has (?:altered|changed|worsened|progressed)|nothing has altered|static|steady|no worse|no (?:recent )?(?:progression|deterioration|worsening)|same (?:for|as|over)|(?:neither|no|not) (?:any )?(?:better,? (?:and |n?or |and no |and not )(?:no |not )?(?:any )?worse|worse,? (?:and |n?or )(?:no |not )?(?:any )?better)|isn't (?:getting |becoming |any |got )*worse|(?:no|not|hardly|isn't|any) (?:any )?different (?:from|than|to)|nothing has changed|(?:trend|course) ?:? ?(?:stable|unchanged|static)|much the same|has been the same)\\b");
    private static final Pattern COURSE_SUDDEN = Pattern.compile(
            "\\b(?:sudden(?:ly)?(?: onset)?|overnight|out of the blue|abrupt(?:ly)?|from one day to the next|came on (?:all )?at once)\\b");
    private static final Pattern SUBJECT = Pattern.compile(
            "\\b(?:claudication|walking|walk|distance|symptoms?|leg pain|pain|it|this|calf|complaint|things|nothing|its|trend|(?:the|his|her) leg (?:is|has)|course|cramp\\w*|tolerance|these)\\b");

    private static final Pattern LIMITS = Pattern.compile(
            "\\b(?:life ?-?style[- ]?(?:limiting|limited|altering)|limits (?:his|her|their) (?:life|lifestyle|work|daily)|limiting (?:his|her|their) (?:life|lifestyle|daily|work|activities|independence|quality)|life[- ](?:limiting|altering)|disabling|disabled by|severely limit(?:s|ed|ing)?|short[- ]distance disabling|"
                    + "significantly (?:limit|affect|impact|impair|restrict)\\w*|greatly (?:limit|restrict|affect)\\w*|(?:markedly|badly|seriously|profoundly|very|really) (?:limit|restrict|affect)\\w*|incapacitat\\w+|debilitating|affect(?:s|ing) (?:his|her|their) (?:work|job|daily|quality|life|livelihood|independence)|impact(?:s|ing)? (?:on |upon )?(?:his|her|their) (?:work|job|daily|quality|life|livelihood)|interfer(?:es|ing) with (?:his|her|their|work|daily)|"
                    + "(?:cannot|no longer|not able to|unable to|can no longer|can hardly|can barely)(?: now| longer| any longer| even)? (?:(?:\\w+ ){1,5}because of (?:it|this|the pain|his leg|her leg|the leg)|(?:complete|finish|deliver|carry) (?:his|her)|work|shop|do (?:his |her |the |any )?(?:job|work|shopping|shop|garden|allotment|alotment|own shopping|round\\w*|gardening|shop|allotment|alotment|housework|chores|hobby|hobbies)|get (?:to|round|around) (?:the )?(?:shops?|work|church|town)|walk (?:the|his|her) dogs?|play golf|get round the shops|manage (?:the|his|her) (?:shopping|job|work|garden)|go shopping|reach the shops|carry on working|keep up (?:his|her) (?:job|work))|"
                    + "(?:off|given up|gave up|had to give up|has had to give up|lost|stopped|had to stop) (?:his |her |the )?(?:work(?:ing)?|job|golf(?:ing)?|shopping|rounds?|gardening|dancing|bowls|allotment|employment)|housebound (?:by|because|due)|quality of life (?:is |has )?(?:poor|suffer\\w*|affected|ruined))\\b");
    private static final Pattern COPES = Pattern.compile(
            "\\b(?:not (?:really |particularly |unduly |much |greatly |overly |too )?(?:bothered|limiting|limited|life[- ]?style[- ]?limiting|lifestyle limiting|disabling|troubled|troubling|troublesome|bothersome|restricted|affecting (?:his|her) (?:life|daily)|limit\\w*|restrict\\w*|interfer\\w+)|isn't (?:really |particularly |unduly |much |overly )?(?:bothered|limiting|limited|life[- ]?style[- ]?limiting|disabling|troubled|troublesome|bothersome|affecting)|doesn't (?:really |particularly |unduly |much |greatly )?(?:seem to )?(?:bother|limit|trouble|restrict|affect|interfere|stop|keep|hold|worry|mind)|don't (?:limit|bother|trouble|stop|restrict)|(?:copes?|coping|manag(?:es|ing)) (?:well|all right|alright|fine|very well|happily|perfectly well|quite well|nicely|ok|okay)|non[- ]limiting|non[- ](?:life[- ]?style|lifestyle)[- ]limiting|no (?:real )?(?:bother|impact on (?:his|her) (?:life|daily)|limitation of (?:his|her)|trouble to (?:him|her)|effect on (?:his|her) (?:life|daily))|happy with (?:his|her|the|their) (?:current )?(?:walking|distance|lot|legs?)|(?:perfectly|quite|entirely) happy (?:with (?:it|things)|as (?:he|she) is)|takes it in (?:his|her) stride|(?:not|hardly|scarcely|little) (?:much )?(?:put out|inconvenienced)|lives with it happily|unbothered)\\b");

    private static final Pattern STANDING = Pattern.compile(
            "\\b(?:waits standing|relief ?:? standing|(?:eases?|relie\\w+|settles?|goes(?: off| away)?|resolves?|better|gone|disappears?|passes|subsides|improves|recovers?|stops?|abates?|wears off|clears|(?:has|must|have) to (?:stop|stand))\\b[^.;]{0,40}?\\b(?:stand(?:s|ing)?(?: still)?|stops?(?: walking)?|stopping|halts?|paus\\w+|rests?(?: for| briefly)?|resting|short rest|brief rest|a rest|rest)|(?:stands?|standing|stops?|stopping|rest|resting|pauses?|halts?)\\b[^.;]{0,40}?\\b(?:eases?|relieves?|settles?|goes|passes|helps?|fixes|sorts|clears|disappears|gone)|comes to nothing (?:once|when|as soon as) (?:he|she|they) (?:stands?|stops?|halts?|rests?))\\b");
    private static final Pattern STANDING_SAID = Pattern.compile(
            "\\bstand(?:s|ing)?\\b|\\bstops?\\b(?! (?:when|if|after|on|with|by|as|once)\\b)|\\bstopping\\b|\\bpaus\\w+|\\bhalts?\\b|\\bshop window\\b");
    private static final Pattern SITTING = Pattern.compile(
            "\\b(?:relief ?:? sitting|(?:only |just )?(?:when|by|on|after|until|if|with|to) (?:he |she |they )?(?:\\w+ )?(?:sit(?:s|ting)?(?: down)?|lean(?:s|ing)?(?: forwards?)?|bend(?:s|ing)?(?: forwards?)?|flex\\w+|stoop\\w*)|(?:must|has to|needs to|have to) sit|(?:only |just )?(?:settles|eases|goes|stops|relieved|better|relief)(?: only)? (?:on |by |with |when )?(?:sitting|leaning|bending|flexing|stooping|crouching|squatting)|sitting (?:down )?(?:helps|relieves|eases)|(?:leaning|bending) (?:forwards? )?(?:on|over|helps|relieves|eases)|relieved by (?:sitting|leaning|bending|flexion))\\b");

    private static final Pattern FORMER = Pattern.compile(
            "\\b(?:used to|previously|formerly|before (?:this|that)|was able|could (?:once|previously)|normally walked|always walked|a year ago|it was)\\b[^,;.]{0,40}$|\\bfrom (?:about |roughly |approximately |some )?$");
    private static final Pattern ELSEWHERE =
            Pattern.compile("\\b(?:lives?|away|drives?|from (?:the|us|here|his home|her home)|travel\\w*|live)\\b");

    @Override
    public void read(Page page, Findings findings) {
        Optional<Topic> topic = Optional.empty();
        for (var sentence : page.sentences) {
            var found = find(page, sentence, topic, findings);
            if (found.isPresent()) {
                topic = found;
            } else if (topic.isPresent()) {
                var known = topic.get();
                if (sentence.number - known.sentence() <= 3
                        && sentence.paragraph - known.paragraph() <= 1
                        && !changesSubject(sentence)) {
                    details(page, sentence, known, 0, findings, true);
                }
            }
        }
        loneLimits(page, findings, topic);
    }

    /** What was spoken of last: the claudication of these legs. */
    private record Topic(Set<Side> sides, int sentence, int paragraph, Findings.Ground ground) {}

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
            details(page, sentence, topic0, 0, findings, false);
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
            if (pattern != DESCRIBED && Distances.in(plain, 0, plain.length()).isEmpty()) {
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
                    && Polarity.of(sentence, muscle) == Polarity.STATED) {
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
                || Fit.matches(plain.substring(0, start), "(?s).*\\b(?:jaw|arm|upper limb|tongue) ");
    }

    private static void deny(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.ofDenial(sentence, start, end);
        for (var side : place.sides()) {
            findings.put(
                    side.leg("claudication.present"),
                    false,
                    sentence.span(negationStart(sentence, start), end),
                    place.ground());
        }
    }

    /** Where the denial begins that {@code start} lies in, if it is near. */
    static int negationStart(Sentence sentence, int start) {
        var before = sentence.plain.substring(Math.max(sentence.clauseStart(start), start - 60), start);
        var match = Fit.of(
                        "\\b(?:no|denies|without|not|nor|never|nil|neither|doesn't|hasn't|don't|isn't|free of)\\b[^.;]*$")
                .matcher(before);
        return match.find() ? start - before.length() + match.start() : start;
    }

    private static Optional<Topic> present(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.of(sentence, start, end);
        if (!place.known()) {
            place = ahead(page, sentence);
        }
        if (!place.known()) {
            findings.ask("Claudication is mentioned: ask in which leg.", sentence.span(start, end));
            return Optional.empty();
        }
        for (var side : place.sides()) {
            findings.put(side.leg("claudication.present"), true, sentence.span(start, end), place.ground());
        }
        page.legs.without(sentence, end).ifPresent(other -> other.sides()
                .forEach(side -> findings.put(
                        side.leg("claudication.present"), false, sentence.span(other.start(), other.end()))));
        var topic = new Topic(place.sides(), sentence.number, sentence.paragraph, place.ground());
        details(page, sentence, topic, start, findings, false);
        return Optional.of(topic);
    }

    /** "He claudicates at 80 m. It is the left calf." */
    static Legs.Place ahead(Page page, Sentence sentence) {
        var next = page.after(sentence)
                .filter(after -> Fit.matches(
                        after.plain,
                        "(?s)(?:it|this|pain|the pain|mainly|mostly|worse|always|in the|left|right|he|she|calf)\\b.*"));
        if (next.isPresent() && page.legs.mentions(next.get()).size() == 1) {
            return new Legs.Place(page.legs.mentions(next.get()).getFirst().sides(), Findings.Ground.CARRIED);
        }
        return Legs.UNKNOWN;
    }

    private static void details(Page page, Sentence sentence, Topic topic, int at, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (later && Polarity.isOthers(sentence, 0, Math.min(plain.length(), 30))) {
            return;
        }
        var from = 0;
        var to = plain.length();
        distance(page, sentence, topic, from, to, findings, later);
        site(page, sentence, topic, findings, later);
        since(page, sentence, topic, at, findings, later);
        course(page, sentence, topic, findings, later);
        life(sentence, topic, findings);
        relief(sentence, topic, findings, later);
    }

    private static void put(
            Page page,
            Sentence sentence,
            Topic topic,
            String field,
            Object value,
            int start,
            int end,
            Findings findings) {
        var near = page.legs.near(sentence, start, end);
        var sides = near.known() && topic.sides().containsAll(near.sides()) ? near.sides() : topic.sides();
        for (var side : sides) {
            if (findings.get(side.leg(field)).isEmpty()
                    || near.known() && near.sides().size() == 1) {
                findings.put(
                        side.leg(field),
                        value,
                        sentence.span(start, end),
                        near.known() ? Findings.Ground.WORDS : Findings.Ground.SENTENCE);
            }
        }
    }

    private static void distance(
            Page page, Sentence sentence, Topic topic, int from, int to, Findings findings, boolean later) {
        var plain = sentence.plain;
        var candidates = Distances.in(plain, from, to).stream()
                .filter(found -> !ELSEWHERE
                                .matcher(plain.substring(Math.max(0, found.start() - 18), found.start()))
                                .find()
                        && !ELSEWHERE
                                .matcher(plain.substring(found.end(), Math.min(plain.length(), found.end() + 14)))
                                .find())
                .filter(found -> !FORMER.matcher(plain.substring(sentence.pieceStart(found.start()), found.start()))
                        .find())
                .filter(found -> Polarity.of(sentence, found.start(), found.end()) != Polarity.OPEN
                        || Fit.matches(
                                plain.substring(Math.max(0, found.start() - 25), found.start()),
                                "(?s).*(?:could|might|may) .*"))
                .toList();
        if (later
                && !SIDES_AND_DISTANCES.matcher(plain).matches()
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:walk\\w*|distance|claudication|stop\\w*|manage\\w*|pain|cramp\\w*|calf|limit\\w*|flat|exercise|after|comes on|symptoms?)\\b.*")) {
            return;
        }
        if (candidates.isEmpty()) {
            return;
        }
        var pain = Fit.of(
                "\\b(?:pain|cramps?|claudication|initial|onset|starts?|begins?|comes on|ache|symptoms?|tight\\w*|icd|pain[ -]free)\\b");
        var taken = new java.util.ArrayList<Set<Side>>();
        var chosen = candidates.size() == 1
                ? candidates.getFirst()
                : candidates.stream()
                        .filter(found ->
                                pain.matcher(plain.substring(sentence.pieceStart(found.start()), found.start()))
                                                .find()
                                        && !Fit.matches(
                                                plain.substring(Math.max(0, found.start() - 30), found.start()),
                                                "(?s).*\\b(?:stop\\w*|absolute|max\\w*|rest|halt)\\b[a-z ]*"))
                        .findFirst()
                        .orElse(candidates.getFirst());
        for (var found : candidates) {
            var near = page.legs.near(sentence, found.start(), found.end());
            if (near.sides().size() == 1 && candidates.size() > 1 && !taken.contains(near.sides())) {
                taken.add(near.sides());
            }
        }
        if (taken.size() == 2) {
            for (var found : candidates) {
                put(
                        page,
                        sentence,
                        topic,
                        "claudication.distanceMetres",
                        found.metres(),
                        found.start(),
                        found.end(),
                        findings);
            }
            return;
        }
        put(
                page,
                sentence,
                topic,
                "claudication.distanceMetres",
                chosen.metres(),
                chosen.start(),
                chosen.end(),
                findings);
    }

    private static void site(Page page, Sentence sentence, Topic topic, Findings findings, boolean later) {
        var muscle = Fit.of(
                        "\\b(buttock|thigh|calf|foot(?= claudication| and (?:calf|toe)| pain (?:on|after|with|when)| cramp)|instep|arch of the foot)s?\\b")
                .matcher(sentence.plain);
        if (later
                && !Fit.matches(
                        sentence.plain,
                        "(?s).*\\b(?:pain|cramp\\w*|it|ache|claudication|this|tight\\w*|symptoms)\\b.*|(?:(?:buttock|thigh|calf|and|&|\\+|/|only|mainly|both|,)s?[ .]*){1,5}")) {
            return;
        }
        while (muscle.find()) {
            var beforeIt = Fit.matches(
                    sentence.plain.substring(0, muscle.start()),
                    "(?s).*\\bbefore (?:the |his |her )?(?:left |right )?");
            if (Polarity.of(sentence, muscle) != Polarity.STATED && !beforeIt
                    || Fit.matches(
                            sentence.plain.substring(muscle.end()),
                            "(?s) (?:wasting|ulcer|tenderness|is soft|are soft|swelling|wound|soft|muscle bulk|vein).*")) {
                continue;
            }
            var site = Fit.matches(muscle.group(1), "foot|instep|arch.*") ? "foot" : muscle.group(1);
            var near = page.legs.near(sentence, muscle.start(), muscle.end());
            if (near.known() && !topic.sides().containsAll(near.sides())) {
                continue;
            }
            var known = near.known() ? near.sides() : topic.sides();
            if (known.stream()
                    .allMatch(side ->
                            findings.words(side.leg("claudication.site")).isEmpty())) {
                put(page, sentence, topic, "claudication.site", site, muscle.start(), muscle.end(), findings);
            }
            if (!near.known() || near.sides().size() != 1) {
                return;
            }
        }
    }

    private static void since(Page page, Sentence sentence, Topic topic, int at, Findings findings, boolean later) {
        var plain = sentence.plain;
        for (var found : Durations.in(plain, 0, plain.length())) {
            var between = later ? "" : plain.substring(Math.min(at, found.start()), Math.max(at, found.start()));
            if (since(sentence, found, at, later)
                    && !Fit.matches(between, "(?s).*\\b(?:ulcer|wound|rest pain|gangrene|sore|necrosis)\\b.*")
                    && !(found.end() <= at
                            && between.contains(",")
                            && Fit.matches(
                                    plain.substring(0, found.start()),
                                    "(?s).*\\b(?:ulcer|wound|rest pain|gangrene|sore|necrosis)\\b.*"))
                    && !Fit.matches(
                            plain.substring(found.end()),
                            "(?s) (?:of )?(?:supervised|exercise|programme|smok|course|walking programme|aged).*")) {
                put(
                        page,
                        sentence,
                        topic,
                        "claudication.sinceDays",
                        found.days(),
                        found.start(),
                        found.end(),
                        findings);
                return;
            }
        }
        for (var date : page.dates.in(plain)) {
            var before = plain.substring(0, date.start());
            if (Fit.matches(before, "(?s).*\\b(?:since|started on|began on|from)(?: the)? $")
                    && page.written.isPresent()) {
                Dates.past(date, page.written).ifPresent(day -> {
                    var days = java.time.temporal.ChronoUnit.DAYS.between(day, page.written.get());
                    if (days >= 0 && days < 30_000) {
                        put(
                                page,
                                sentence,
                                topic,
                                "claudication.sinceDays",
                                (int) days,
                                date.start(),
                                date.end(),
                                findings);
                    }
                });
                return;
            }
        }
    }

    /** Whether a duration tells how long a complaint has lasted, and not how long something else took. */
    static boolean since(Sentence sentence, Durations.Found found, int at, boolean later) {
        var plain = sentence.plain;
        var piece = sentence.pieceStart(found.start());
        var before = plain.substring(piece, found.start());
        var wide = plain.substring(sentence.clauseStart(found.start()), found.start());
        var after = plain.substring(found.end(), Math.min(plain.length(), found.end() + 40));
        if (Fit.matches(
                        before,
                        "(?s).*\\b(?:worse|worsen\\w*|progress\\w*|deteriorat\\w*|increas\\w*|smok\\w*|quit|stopped|stop|review|follow\\w*|last (?:\\w+ )?changed|shorten\\w*|drop\\w*|until|treated|dressed|bandaged|offload\\w*|healed|antibiotics|than|doubled)\\b[^,]{0,30}$")
                && !Fit.matches(
                        before,
                        "(?s).*\\b(?:worse|progress\\w+|worsening|increasing)[a-z ]*(?:pain|claudication|ulcer|wound)[a-z ]*(?:for|x|since|over the (?:past|last)|over)(?: the)?(?: (?:past|last))?[a-z ]{0,12}$")) {
            return false;
        }
        if (Fit.matches(
                before,
                "(?s).*\\b(?:every|each|aged?|after|within|next|in)(?: the(?: next| last)?)?(?: about| some)? ?$|(?s).*\\b(?:put (?:\\w+ )?off|postpon\\w*|delay\\w*|deferr?\\w*|wait\\w*|list|cancel\\w*|has changed|married|lived|known)\\b.*|(?s).*\\b(?:from|was|than) (?:about )?\\d+ (?:block|metre|yard|m|feet_unit|foot|mile)s? ")) {
            return false;
        }
        if (after.startsWith(" old")
                && Fit.matches(wide, "(?s).*\\b(?:occlu\\w*|thromb\\w*|stent|graft|stenosis|lesion|clot)\\b.*")) {
            return false;
        }
        if (Fit.matches(wide, "(?s).*\\b(?:pregnant|gestation),? ")
                || Fit.matches(after, "(?s) (?:pregnant|gestation|of pregnancy).*")) {
            return false;
        }
        if (Fit.matches(
                        before.substring(Math.max(0, before.length() - 45)),
                        "(?s).*\\b(?:weight|work|retired|married|widowed|diabet\\w*|stent\\w*|bypass\\w*|angioplasty|operation|surgery|stroke|infarct\\w*|dialysis|statin|aspirin|clopidogrel|mg|exercise|programme)\\b.*")
                && !Fit.matches(before, "(?s).*\\b(?:for|since|history of)\\b.*(?:claudication|pain|ulcer|wound).*")) {
            return false;
        }
        if (Fit.matches(after, "(?s)[ ,-]*(?:history|hx|h/o|duration|ago|now|onset)\\b.*")) {
            return !Fit.matches(
                            after,
                            "(?s) history of (?!.*(?:pain|claudication|ulcer|wound|cramp|sore|gangrene|discolou?r|leg|calf|foot|toe|walking|numb|cold|limp|intermittent)).*")
                    && !Fit.matches(
                            wide,
                            "(?s).*\\b(?:stopped|quit|smok\\w+|stent\\w*|bypass|operat\\w+|amput\\w+|stroke)\\b.*");
        }
        if (Fit.matches(
                        before,
                        "(?s).*\\b(?:for|x|since|over|past|last|these|duration|of|present|unchanged|stable|constant|static|going on|started|began|about|nearly|almost|troubled|bothered|history|had|now|been|is|some|well over|least|than)\\b[ :a-z]{0,22}$")
                || before.isBlank()
                || Fit.matches(before, "(?s)[ (]*(?:x|for)? ?")
                || Fit.matches(found.unit(), "7|52|12")) {
            return true;
        }
        return Fit.matches(
                        before,
                        "(?s).*(?:claudication|ulcer|wound|pain|calf|heel|toe|foot|gangrene|sore|\\d ?(?:m|metre|yard|block)s?) [(]?$")
                || before.endsWith(" x ");
    }

    private static void course(Page page, Sentence sentence, Topic topic, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (later
                && !SUBJECT.matcher(plain).find()
                && !Fit.matches(
                        plain,
                        "(?s)(?:(?:x ?)?\\d+ ?/ ?\\d+,? |(?:left|right)(?: leg| side| one)? ?[:=]? ?(?:is |now |getting )*)?(?:slowly |gradually |now |steadily |no |not )?(?:getting|worse|progress|deteriorat|stable|unchanged|static|change).*")) {
            return;
        }
        if (Fit.matches(plain, "(?s).*\\b(?:rest pain|ulcer|wound)\\b.*") && later) {
            return;
        }
        String value;
        var match = COURSE_SUDDEN.matcher(plain);
        if (match.find() && !plain.contains("claudication stable") && Polarity.of(sentence, match) == Polarity.STATED) {
            value = "sudden";
        } else {
            match = COURSE_STABLE.matcher(plain);
            if (match.find() && sameSubject(sentence, match.start(), match.end())) {
                value = "stable";
            } else {
                match = COURSE_WORSE.matcher(plain);
                if (!match.find()
                        || Polarity.of(sentence, match) != Polarity.STATED
                        || plain.substring(Math.max(0, match.start() - 6), match.start())
                                .contains("no ")
                        || Fit.matches(
                                plain.substring(match.end()),
                                "(?s) (?:(?:on|than|at|with|if|when|after|going|during|walking) .*|in (?:the )?(?:left|right|cold|morning|winter).*|uphill.*)")
                        || !sameSubject(sentence, match.start(), match.end())
                        || Fit.matches(match.group(), "dropped|fallen|falling|increasing|decreasing|reducing")
                                && !Fit.matches(
                                        plain,
                                        "(?s).*\\b(?:distance|walking|claudication|\\d ?(?:metre|yard|m|block)s?)\\b.*")) {
                    return;
                }
                value = "worse";
            }
        }
        if (eachItsOwn(page, sentence, topic, findings)) {
            return;
        }
        for (var side : topic.sides()) {
            findings.putIfUnknown(side.leg("claudication.course"), value, sentence.span(match));
        }
    }

    /** "Right worse lately, left stable". */
    private static boolean eachItsOwn(Page page, Sentence sentence, Topic topic, Findings findings) {
        var own = new java.util.EnumMap<Side, java.util.Map.Entry<String, Span>>(Side.class);
        for (var value :
                java.util.Map.of("worse", COURSE_WORSE, "stable", COURSE_STABLE).entrySet()) {
            var match = value.getValue().matcher(sentence.plain);
            while (match.find()) {
                var near = page.legs.near(sentence, match.start(), match.end());
                if (near.sides().size() == 1
                        && topic.sides().containsAll(near.sides())
                        && Polarity.of(sentence, match) == Polarity.STATED) {
                    own.put(near.sides().iterator().next(), java.util.Map.entry(value.getKey(), sentence.span(match)));
                }
            }
        }
        if (own.size() != 2) {
            return false;
        }
        own.forEach((side, value) ->
                findings.putIfUnknown(side.leg("claudication.course"), value.getKey(), value.getValue()));
        return true;
    }

    /** Whether no other complaint stands nearer to the words than the claudication. */
    private static boolean sameSubject(Sentence sentence, int start, int end) {
        var piece = sentence.plain.substring(sentence.pieceStart(start), sentence.pieceEnd(end));
        return !Fit.matches(
                piece,
                "(?s).*\\b(?:renal|kidney|angina|cardiac|copd|ulcer|wound|ckd|egfr|creatinine|heart|rest pain|weight|aneurysm|diabetes|hba1c|asthma|breath\\w*|infection|bp|blood pressure|haemodynamically|vision|memory)\\b.*");
    }

    private static void life(Sentence sentence, Topic topic, Findings findings) {
        var plain = sentence.plain;
        var copes = COPES.matcher(plain);
        if (copes.find()) {
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("claudication.limitsLife"), false, sentence.span(copes));
            }
            return;
        }
        var limits = LIMITS.matcher(plain);
        if (limits.find() && !Polarity.isDenied(sentence, limits.start(), limits.end())
                || limits.reset().find() && limits.group().startsWith("cannot")) {
            if (Polarity.isOpen(sentence, limits.start()) && !limits.group().startsWith("life")
                    || Polarity.isOthers(sentence, limits.start(), limits.end())) {
                return;
            }
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("claudication.limitsLife"), true, sentence.span(limits));
            }
        } else if (limits.reset().find() && Polarity.isDenied(sentence, limits.start(), limits.end())) {
            for (var side : topic.sides()) {
                findings.putIfUnknown(
                        side.leg("claudication.limitsLife"),
                        false,
                        sentence.span(ClaudicationRule.negationStart(sentence, limits.start()), limits.end()));
            }
        }
    }

    private static void relief(Sentence sentence, Topic topic, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (plain.contains("rest pain") && later) {
            return;
        }
        var sitting = SITTING.matcher(plain);
        var standing = STANDING.matcher(plain);
        String value;
        Span words;
        if (sitting.find()
                && !Fit.matches(plain.substring(Math.max(0, sitting.start() - 30), sitting.start()), "(?s).*\\bnot .*")
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:without (?:having to )?sit|no need to sit|doesn't (?:need|have) to sit)\\b.*")) {
            value = "sitting";
            words = sentence.span(sitting);
        } else if (standing.find()
                && STANDING_SAID.matcher(standing.group()).find()
                && !Polarity.isDenied(sentence, standing.start(), standing.end())) {
            value = "standing";
            words = sentence.span(standing);
        } else {
            return;
        }
        for (var side : topic.sides()) {
            findings.putIfUnknown(side.leg("claudication.relief"), value, words);
        }
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
                            .filter(distance -> !FORMER.matcher(sentence.plain.substring(
                                            sentence.pieceStart(distance.start()), distance.start()))
                                    .find())
                            .findFirst();
            if (found.isPresent()) {
                put(
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
