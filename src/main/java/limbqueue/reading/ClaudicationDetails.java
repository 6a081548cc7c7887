package limbqueue.reading;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Set;
import java.util.regex.Pattern;

/** What a letter says of a claudication it has told: after how far, where, since when, what it does to a life and what eases it. */
final class ClaudicationDetails {

    /** "Right 100 yards, left 300 yards." */
    private static final Pattern SIDES_AND_DISTANCES = Pattern.compile(
            "(?:(?:left|right|bilateral)(?: leg| side)? ?[:=-]? ?(?:at |about |after )?\\d+ ?\\w+[ ,;.]*(?:and )?){1,2}");

    private static final Pattern LIMITS = Pattern.compile(
            "\\b(?:life ?-?style[- ]?(?:limiting|limited|altering)|limits (?:his|her|their) (?:life|lifestyle|work|daily)|limiting (?:his|her|their) (?:life|lifestyle|daily|work|activities|independence|quality)|life[- ](?:limiting|altering)|disabling|disabled by|severely limit(?:s|ed|ing)?|short[- ]distance disabling|"
                    + "significantly (?:limit|affect|impact|impair|restrict)\\w*|greatly (?:limit|restrict|affect)\\w*|(?:markedly|badly|seriously|profoundly|very|really) (?:limit|restrict|affect)\\w*|incapacitat\\w+|debilitating|affect(?:s|ing) (?:his|her|their) (?:work|job|daily|quality|life|livelihood|independence)|impact(?:s|ing)? (?:on |upon )?(?:his|her|their) (?:work|job|daily|quality|life|livelihood)|interfer(?:es|ing) with (?:his|her|their|work|daily)|"
                    + "(?:cannot|no longer|not able to|unable to|can no longer|can hardly|can barely)(?: now| longer| any longer| even)? (?:(?:\\w+ ){1,5}because of (?:it|this|the pain|his leg|her leg|the leg)|(?:complete|finish|deliver|carry) (?:his|her)|work|shop|do (?:his |her |the |any )?(?:job|work|shopping|shop|garden|allotment|alotment|own shopping|round\\w*|gardening|shop|allotment|alotment|housework|chores|hobby|hobbies)|get (?:to|round|around) (?:the )?(?:shops?|work|church|town)|walk (?:the|his|her) dogs?|play golf|get round the shops|manage (?:the|his|her) (?:shopping|job|work|garden)|go shopping|reach the shops|carry on working|keep up (?:his|her) (?:job|work))|"
                    + "(?:off|given up|gave up|had to give up|has had to give up|lost|stopped|had to stop) (?:his |her |the )?(?:work(?:ing)?|job|golf(?:ing)?|shopping|rounds?|gardening|dancing|bowls|allotment|employment)|(?:stops|stopping|prevents|preventing) (?:him|her|them) (?:from )?(?!walking|sleeping)\\w+ing\\b|housebound (?:by|because|due)|quality of life (?:is |has )?(?:poor|suffer\\w*|affected|ruined))\\b");

    private static final Pattern COPES = Pattern.compile(
            "\\b(?:not (?:really |particularly |especially |terribly |unduly |much |greatly |overly |too |at all )*+(?:bothered|limiting|limited|life[- ]?style[- ]?limiting|lifestyle limiting|disabling|troubled|troubling|troublesome|bothersome|restricted|affecting (?:his|her) (?:life|daily)|limit\\w*|restrict\\w*|interfer\\w+)|isn't (?:really |particularly |especially |terribly |unduly |much |overly |too |at all )*+(?:bothered|limiting|limited|life[- ]?style[- ]?limiting|disabling|troubled|troublesome|bothersome|affecting)|doesn't (?:really |particularly |unduly |much |greatly )?(?:seem to )?(?:bother|limit|trouble|restrict|affect|interfere|stop|keep|hold|worry|mind)|don't (?:limit|bother|trouble|stop|restrict)|(?:copes?|coping|manag(?:es|ing)) (?:well|all right|alright|fine|very well|happily|perfectly well|quite well|nicely|ok|okay)|non[- ]limiting|non[- ](?:life[- ]?style|lifestyle)[- ]limiting|no (?:real )?(?:bother|impact on (?:his|her) (?:life|daily)|limitation of (?:his|her)|trouble to (?:him|her)|effect on (?:his|her) (?:life|daily))|happy with (?:his|her|the|their) (?:current )?(?:walking|distance|lot|legs?)|(?:perfectly|quite|entirely) happy (?:with (?:it|things)|as (?:he|she) is)|takes it in (?:his|her) stride|(?:not|hardly|scarcely|little) (?:much )?(?:put out|inconvenienced)|lives with it happily|unbothered)\\b");

    private static final Pattern STANDING = Pattern.compile(
            "\\b(?:waits standing|relief ?:? standing|(?:eases?|relie\\w+|settles?|goes(?: off| away)?|resolves?|better|gone|disappears?|passes|quits?|ceases?|lets? up|fades|pass(?: off)?|subsides|improves|recovers?|stops?|abates?|dies down|wears off|clears|(?:has|have) to (?:stop|stand)|must (?:stop|stand))\\b[^.;]{0,40}?\\b(?:stand(?:s|ing)?(?: still)?|stops?(?: walking)?|stopping|halts?|paus\\w+|rests?(?: for| briefly)?|resting|short rest|brief rest|a rest|rest)|(?:stands?|standing|stops?|stopping|rest|resting|pauses?|halts?)\\b[^.;]{0,40}?\\b(?:eases?|relieves?|settles?|goes|passes|helps?|fixes|sorts|clears|disappears|gone)|comes to nothing (?:once|when|as soon as) (?:he|she|they) (?:stands?|stops?|halts?|rests?))\\b");

    private static final Pattern STANDING_SAID = Pattern.compile(
            "\\bstand(?:s|ing)?\\b|\\bstops?\\b(?! (?:when|if|after|on|with|by|as|once)\\b)|\\bstopping\\b|\\bpaus\\w+|\\bhalts?\\b|\\bshop window\\b");

    private static final Pattern SITTING = Pattern.compile(
            "\\b(?:relief ?:? sitting|(?:only |just )?(?:when|by|on|after|until|if|with|to) (?:he |she |they )?(?:\\w+ )?(?:sit(?:s|ting)?(?: down)?|lean(?:s|ing)?(?: forwards?)?|bend(?:s|ing)?(?: forwards?)?|flex\\w+|stoop\\w*)|(?:must|has to|needs to|have to) sit|(?:only |just )?(?:settles|eases|goes|stops|relieved|better|relief)(?: only)? (?:on |by |with |when )?(?:sitting|leaning|bending|flexing|stooping|crouching|squatting)|sitting (?:down )?(?:helps|relieves|eases)|(?:leaning|bending) (?:forwards? )?(?:on|over|helps|relieves|eases)|(?:leans?|bends?|sits?|squats?)(?: forwards?| down| over)? to (?:ease|relieve|recover|get relief)(?! ?\\?)|relieved by (?:sitting|leaning|bending|flexion))\\b");

    private static final Pattern ELSEWHERE =
            Pattern.compile("\\b(?:lives?|away|drives?|from (?:the|us|here|his home|her home)|travel\\w*|live)\\b");

    private static final Pattern FORMER = Pattern.compile(
            "\\b(?:used to|previously|formerly|before (?:this|that)|was able|could (?:once|previously)|normally walked|always walked|a year ago|it was)\\b[^,;.]{0,40}$|\\bfrom (?:about |roughly |approximately |some )?$");

    /** "400 m two years ago": a distance of that time. */
    private static final Pattern FORMER_AFTER = Pattern.compile(
            " ?(?:(?:->|=>|\u2192) ?(?=\\d|now)|[(]?(?:about |only |some )?(?:(?:\\d+|a|a few|several) (?:year|yr|month|mth|week|wk)s? (?:ago|back|earlier)|last (?:year|yr|spring|summer|autumn|winter|month|christmas)|in (?:19|20)\\d\\d|previously|(?:at|in) the (?:start|beginning|outset)|at (?:start|first|onset)|then(?= ?[.,;)]|$)|before (?:christmas|that|this|the (?:stent|bypass|angioplasty|operation|summer|winter|fall)))\\b)");

    private static final String AN_EARLIER_TIME =
            "(?:(?<!since )(?:last|early last|late last) (?:year|spring|summer|autumn|fall|winter|month|christmas|time)|(?:\\d+|a|a few|several|some) (?:year|month|week)s? (?:ago|back|earlier|before)|"
                    + "(?<!since )in (?:[a-z]+ )?(?:19|20)\\d\\d|before (?:the|his|her|that|this|christmas)\\b[^.;,]{0,25}|(?:when|after) (?:i|we|you) (?:first |last )?(?:saw|met|wrote)[^.;,]{0,20})";

    /** "Last spring she could go half a mile", "at first it came on at half a mile". */
    private static final Pattern FORMER_BEFORE = Pattern.compile("\\b(?:" + AN_EARLIER_TIME
            + "\\b[^.;]{0,20}\\b(?:could|was able|walked|managed|did|was|were|came on|had)|at first|initially|originally|in the beginning|at the start|at the outset)\\b"
            + "(?:(?! now\\b| but\\b| today\\b| currently\\b| and (?:is|has)\\b)[^.;]){0,50}$");

    private ClaudicationDetails() {}

    /** Whether a distance is that of an earlier time. */
    static boolean isFormer(Sentence sentence, Distances.Found found) {
        var plain = sentence.plain;
        if (CAN_WALK.matcher(sentence.plain.substring(0, found.start())).find()
                && BUT_HURTS.matcher(sentence.plain.substring(found.end())).find()) {
            return true;
        }
        return FORMER.matcher(plain.substring(sentence.pieceStart(found.start()), found.start()))
                        .find()
                || FORMER_BEFORE.matcher(plain.substring(0, found.start())).find()
                || FORMER_AFTER
                        .matcher(plain)
                        .region(found.end(), plain.length())
                        .lookingAt();
    }

    static void read(
            Page page, Sentence sentence, ClaudicationRule.Topic topic, int at, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (later
                && (Polarity.isAboutOthers(sentence) || Polarity.isOthers(sentence, 0, Math.min(plain.length(), 30)))) {
            return;
        }
        var from = 0;
        var to = plain.length();
        distance(page, sentence, topic, from, to, findings, later);
        site(page, sentence, topic, findings, later);
        since(page, sentence, topic, at, findings, later);
        ClaudicationCourse.read(page, sentence, topic, findings, later);
        life(page, sentence, topic, findings);
        relief(sentence, topic, findings, later);
    }

    static void put(
            Page page,
            Sentence sentence,
            ClaudicationRule.Topic topic,
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

    /** "He can walk 2 km but the left calf hurts from 400 m": what he can walk is no distance free of pain. */
    private static final Pattern CAN_WALK = Pattern.compile(
            "\\b(?:can|able to) (?:still )?(?:walk|manage|go|do) (?:for |about |approximately |up to )*$");

    private static final Pattern BUT_HURTS = Pattern.compile(
            "^[^.;]{0,10}\\b(?:but|though|although)\\b[^.;]{0,45}\\b(?:hurts?|pain\\w*|aches?|cramps?|seizes?|tightens?|claudication)\\b[^.;]{0,15} (?:from|at|after|beyond|by) (?:about |approximately )?\\d");

    private static void distance(
            Page page,
            Sentence sentence,
            ClaudicationRule.Topic topic,
            int from,
            int to,
            Findings findings,
            boolean later) {
        var plain = sentence.plain;
        var candidates = Distances.in(plain, from, to).stream()
                .filter(found -> !ELSEWHERE
                                .matcher(plain.substring(Math.max(0, found.start() - 18), found.start()))
                                .find()
                        && !ELSEWHERE
                                .matcher(plain.substring(found.end(), Math.min(plain.length(), found.end() + 14)))
                                .find())
                .filter(found -> !isFormer(sentence, found))
                .filter(found -> !(plain.substring(0, found.start()).endsWith(" was ")
                        && Fit.matches(plain.substring(found.end()), "(?s)[^.;]*\\bnow\\b.*\\d.*")))
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
        var taken = new ArrayList<Set<Side>>();
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

    private static void site(
            Page page, Sentence sentence, ClaudicationRule.Topic topic, Findings findings, boolean later) {
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

    private static void since(
            Page page, Sentence sentence, ClaudicationRule.Topic topic, int at, Findings findings, boolean later) {
        var plain = sentence.plain;
        for (var found : Durations.in(plain, 0, plain.length())) {
            var between = later ? "" : plain.substring(Math.min(at, found.start()), Math.max(at, found.start()));
            if (Durations.lasts(sentence, found)
                    && !datesADistance(plain, found)
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
                    var days = ChronoUnit.DAYS.between(day, page.written.get());
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

    /** Whether the words are said of a leg that does not claudicate: "the left gives him no bother". */
    private static boolean ofOtherLeg(Page page, Sentence sentence, ClaudicationRule.Topic topic, int start, int end) {
        var place = page.legs.mentions(sentence).isEmpty() ? Legs.UNKNOWN : page.legs.of(sentence, start, end);
        return place.known() && Collections.disjoint(place.sides(), topic.sides());
    }

    /** "400 m two years ago" */
    private static boolean datesADistance(String plain, Durations.Found found) {
        return Distances.in(plain, 0, found.start()).stream()
                        .anyMatch(distance ->
                                plain.substring(distance.end(), found.start()).isBlank())
                && plain.startsWith(" ago", found.end());
    }

    private static void life(Page page, Sentence sentence, ClaudicationRule.Topic topic, Findings findings) {
        var plain = sentence.plain;
        var copes = COPES.matcher(plain);
        if (copes.find()) {
            if (ofOtherLeg(page, sentence, topic, copes.start(), copes.end())) {
                return;
            }
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
                        sentence.span(Polarity.denialStart(sentence, limits.start()), limits.end()));
            }
        }
    }

    /** Whether the sentence tells of something that goes when the patient stands still. */
    static boolean easesOnStanding(Sentence sentence) {
        var standing = STANDING.matcher(sentence.plain);
        return standing.find()
                && STANDING_SAID.matcher(standing.group()).find()
                && !Fit.matches(sentence.plain, "(?s).*\\b(?:night|bed|swelling|dvt)\\b.*");
    }

    private static void relief(Sentence sentence, ClaudicationRule.Topic topic, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (plain.contains("rest pain") && later) {
            return;
        }
        // "Back pain better sitting": of another pain.
        var back = Fit.of("\\b(?:back|hip|knee|chest) ?(?:pain|ache)\\b[^.;]{0,40}$");
        var sitting = SITTING.matcher(plain);
        var standing = STANDING.matcher(plain);
        String value;
        Span words;
        if (sitting.find()
                && !back.matcher(plain.substring(sentence.clauseStart(sitting.start()), sitting.start()))
                        .find()
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
}
