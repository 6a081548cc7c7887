package limbqueue.reading;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a letter says of a wound it has told: how deep, where, since when, what it exposes, and whether it spreads. */
final class WoundDetails {

    private static final Pattern TOE_SITE = Pattern.compile(
            "\\b(?:(?:great|little|small|baby|second|third|fourth|fifth|2nd|3rd|4th|5th|middle|last|\\d) ?toe|toe|digit|2nd digit|interdigital|web ?space|between the toe|nail ?bed)s?\\b");

    private static final Pattern FOREFOOT_SITE = Pattern.compile(
            "\\b(?:forefoot|ball of (?:the |his |her )?(?:left |right )?foot|(?<!base of the )(?<!base of )(?<!base of the left )(?<!base of the right )(?:(?:1st|2nd|3rd|4th|5th|first|second|third|fourth|fifth) )?(?<!base of the (?:left |right )?(?:5th|fifth) )metatarsal(?! osteo)|plantar (?:1st|first|5th|fifth|\\d\\w*) ?mt\\w*|mth|mt head|bunion|(?:1st|5th|first|fifth) (?:mtp?h?|ray))s?\\b");

    private static final Pattern MIDFOOT_SITE =
            Pattern.compile("\\b(?:midfoot|arch of the foot|instep|navicular|tarsal|charcot foot ulcer)\\b");

    private static final Pattern HEEL_SITE = Pattern.compile("\\b(?:heel|calcaneus)s?\\b");

    private static final Pattern LEG_SITE = Pattern.compile(
            "\\b(?:shin|ankle|malleolus|calf|gaiter(?: area)?|lower leg|(?<=ulcer (?:on|of|over) the (?:left |right )?)leg(?= |$)|leg(?= (?:ulcer|wound|sore))|achilles)\\b");

    private static final Pattern DEEP = Pattern.compile(
            "\\b(?:(?:distal|terminal|end) phalanx (?:\\w+ )?(?:exposed|visible|palpable|showing|bare)|(?:exposed|exposing|exposes|visible|bare)(?: \\w+){0,2} (?:distal |terminal |end )?phalanx|(?<!mm )(?<!cm )deep(?!er than| vein| venous| femoral| infection| peroneal| space)|(?:down|right down|through|extends?|extending|tracks?|tracking|going) (?:\\w+ )?(?:to|into) (?:the )?(?:exposed )?(?:bone|tendon|joint|capsule|fascia|muscle|calcaneus|heel bone|(?:distal |terminal |end )?phalanx)|(?:bone|tendon|joint|metatarsal head|calcaneus)(?: (?:is|are|was|clearly|now|and|tendon|bone)){0,3} (?:visible|exposed|palpable|on show|in the base|showing|seen|bare|can be (?:seen|felt|touched|reached|palpated)|can be clearly (?:seen|felt))|involv(?:es|ing) (?:the )?(?:bone|tendon|joint)|"
                    + "(?:visible|exposed|exposing|expose|exposes|bare|showing)(?: \\w+){0,2} (?:bone|tendon|joint|metatarsal|calcaneus)|(?:reach(?:es|ing)(?: down)?(?: to)?|prob(?:es?|ing|ed)(?: \\w+)? to) (?:the )?(?:(?:distal |terminal |end )?phalanx|bone|tendon|joint|capsule|calcaneus)|probe(?:d)?[ -]to[ -]bone(?: test)?(?: is| was)?(?: positive|\\+ve)?|ptb(?: positive| \\+ve|\\+)|bone (?:was |is )?(?:felt|reached|can be felt|touched)(?: (?:with|on|by) (?:the |a )?prob\\w+)?|(?:bone|tendon) at (?:the |its )?base|(?:i|we|one|you) (?:can |could )?(?:clearly )?(?:see|feel|touch) (?:the )?(?:bone|tendon|joint)|(?:full[ -]thickness ulcer down))\\b");

    private static final Pattern BONE =
            Pattern.compile("\\b(?:bone|tendon|joint|capsule|metatarsal head|ptb|calcaneus|phalanx)\\b");

    private static final Pattern NOTHING = Pattern.compile(
            "\\b(?:neither (?:bone|tendon) nor (?:bone|tendon)(?: is| was)?(?: exposed| visible)?|no (?:exposed |visible |obvious |evidence of )*(?:bone|tendon)(?:,? (?:or|and|nor) (?:bone|tendon|joint))?(?: (?:is |was )?(?:exposed|visible|seen|palpable|involve\\w*|involved|exposure|on probing))?|(?:bone|tendon)(?: or (?:bone|tendon))? (?:is |was )?not (?:exposed|visible|seen|palpable|reached|felt)|(?:bone|tendon) isn't (?:exposed|visible|palpable)|(?:doesn't|does not|not|don't|isn't) prob(?:e|es|ing)(?: down)? to (?:the )?bone|(?:not|doesn't) reach (?:down to )?(?:the )?bone|not down to (?:the )?bone|probe[ -]to[ -]bone(?: test)?(?: is| was)?:? ?(?:negative|-ve|neg)|ptb(?: test)? (?:negative|-ve|neg)|cannot (?:probe|be probed) to bone|no bone|nothing exposed|without (?:any )?(?:exposed |visible )?(?:bone|tendon)(?: exposed| exposure)?)\\b");

    private static final Pattern PHALANX = Pattern.compile(
            "\\b(?:distal|terminal|end) phalanx|bone of the (?:end|terminal|distal) phalanx|phalangeal (?:tip|tuft)|tuft of|bone (?:is )?(?:visible|exposed|palpable) (?:at|in) the tip|tip of the (?:distal |terminal )?phalanx");

    private static final Pattern SHALLOW = Pattern.compile(
            "\\b(?:shallow|superficial(?! femoral| infect| cellul| peroneal| vein| thromb)|partial[ -]thickness|skin[ -]deep|not deep|isn't deep|only skin|grazes?|abrasion)\\b");

    private static final Pattern EXTENSIVE = Pattern.compile("\\b(?:extensive|very large|massive|huge)\\b");

    private static final Pattern SPREADS = Pattern.compile(
            "\\b(?:spread(?:s|ing)(?! (?:cellulitis|erythema|infection))|(?:has |have )?(?:doubled|trebled|tripled)(?: in size)?|(?:twice|double) (?:the|its) (?:previous |original )?size|(?:getting|got|gotten|become|becoming|grown|growing|steadily|gradually|is now|has become|progressively) (?:larger|bigger|wider|deeper|bigger by the week)|enlarg(?:ing|ed)|increas(?:ed|ing) in size|grow(?:s|ing)|grown|extending|larger (?:each|every|at each|by the)|expanding|(?:bigger|deeper|larger) (?:each|every|by the|in the (?:last|past)|over the|since))\\b");

    private static final Pattern STANDS = Pattern.compile(
            "\\b(?:not got(?:ten)? (?:any )?(?:bigger|larger)|not (?:been )?(?:getting (?:any )?(?:bigger|larger|worse)|spreading|enlarging|growing|bigger|larger|increas\\w+ in size|extending)|isn't (?:getting (?:any )?(?:bigger|larger)|spreading|enlarging|growing|bigger)|hasn't (?:spread|grown|enlarged|got\\w* (?:any )?(?:bigger|larger)|increased in size|changed in size|extended)|no longer (?:spreading|growing|enlarging|(?:getting|becoming) (?:any )?(?:bigger|larger|worse))|no (?:bigger|larger|spread|enlargement|increase in size)|same size|unchanged in size|static in size|don't spread|getting smaller|shrinking|smaller)\\b");

    private static final Pattern LABEL =
            Pattern.compile("(?: (?:side )?(?:left|right))?(?: (?:location|site|position))?: ");

    private WoundDetails() {}

    private static final List<Map.Entry<String, Pattern>> SITES = List.of(
            Map.entry("toe", TOE_SITE),
            Map.entry("forefoot", FOREFOOT_SITE),
            Map.entry("midfoot", MIDFOOT_SITE),
            Map.entry("heel", HEEL_SITE),
            Map.entry("leg", LEG_SITE));

    /** The one site that {@code text} names. */
    static Optional<String> siteNamed(String text) {
        var named = SITES.stream()
                .filter(site -> site.getValue().matcher(text).find())
                .map(Map.Entry::getKey)
                .toList();
        return named.size() == 1 ? Optional.of(named.getFirst()) : Optional.empty();
    }

    /** How deep a wound is by {@code text}, which tells nothing else. */
    static Optional<String> depthNamed(String text) {
        if (SHALLOW.matcher(text).find()) {
            return Optional.of("shallow");
        }
        return DEEP.matcher(NOTHING.matcher(text).replaceAll(" ")).find() ? Optional.of("deep") : Optional.empty();
    }

    /** What a wound exposes by {@code text}, which tells nothing else. */
    static Optional<String> exposureNamed(String text) {
        if (NOTHING.matcher(text).find()) {
            return Optional.of("nothing");
        }
        var deep = DEEP.matcher(text);
        if (!deep.find() || !BONE.matcher(deep.group()).find()) {
            return Optional.empty();
        }
        return Optional.of(
                PHALANX.matcher(text).find()
                        ? "distalPhalanx"
                        : text.contains("calcaneus") ? "calcaneus" : "boneJointOrTendon");
    }

    static void read(Page page, Sentence sentence, WoundRule.Topic topic, boolean here, Findings findings) {
        var plain = sentence.plain;
        if (!here
                && Fit.matches(
                        plain,
                        "(?s).*\\b(?:claudication|rest pain|smok\\w+|diabetes|dialysis|medication|stroke)\\b.*")) {
            return;
        }
        if (!here && Polarity.isOthers(sentence, 0, Math.min(20, plain.length()))) {
            return;
        }
        if (here && ofEachLeg(sentence, topic, findings)) {
            since(page, sentence, topic, findings);
            return;
        }
        if (topic.ulcer()) {
            depth(page, sentence, topic, here, findings);
        }
        site(page, sentence, topic, here, findings);
        if (here
                || Fit.matches(
                        plain,
                        "(?s).*\\b(?:it|this|present|ulcer|wound|sore|started|appeared|began|noticed|healing|duration|there for|black|gangrene|size|larger|bigger|spread\\w*|grow\\w*)\\b.*")) {
            since(page, sentence, topic, findings);
            spreading(page, sentence, topic, findings);
        }
    }

    private static final Pattern ONE_LEG = Pattern.compile(
            "(?:on |in )?(?:the )?(left|right)(?: leg| foot| side)?(?:,|:| -| there is| he has| she has)? .*");

    /** "Ulcers on both feet: on the right, over the malleolus, shallow; on the left, on a toe, down to tendon." */
    private static boolean ofEachLeg(Sentence sentence, WoundRule.Topic topic, Findings findings) {
        if (topic.sides().size() != 2) {
            return false;
        }
        var clauses = new ArrayList<int[]>();
        for (var start : sentence.clauseStarts) {
            var end = sentence.clauseEnd(start);
            if (ONE_LEG.matcher(sentence.plain.substring(start, end)).matches()) {
                clauses.add(new int[] {start, end});
            }
        }
        if (clauses.size() != 2) {
            return false;
        }
        for (var clause : clauses) {
            var text = sentence.plain.substring(clause[0], clause[1]);
            var match = ONE_LEG.matcher(text);
            var side = match.matches() && match.group(1).equals("left") ? Side.LEFT : Side.RIGHT;
            var words = sentence.span(clause[0], clause[1]);
            siteNamed(text).ifPresent(site -> findings.putIfUnknown(side.leg("wound.site"), site, words));
            depthNamed(text).ifPresent(depth -> findings.putIfUnknown(side.leg("wound.ulcer"), depth, words));
            exposureNamed(text).ifPresent(bare -> findings.putIfUnknown(side.leg("wound.exposes"), bare, words));
        }
        return true;
    }

    private static Set<Side> sides(Page page, Sentence sentence, WoundRule.Topic topic, int start, int end) {
        var near = page.legs.near(sentence, start, end);
        return near.known() && topic.sides().containsAll(near.sides())
                ? near.sides()
                : near.known()
                                && near.sides().size() == 1
                                && page.legs.mentions(sentence).size() == 1
                        ? near.sides()
                        : topic.sides();
    }

    private static void depth(Page page, Sentence sentence, WoundRule.Topic topic, boolean here, Findings findings) {
        var plain = sentence.plain;
        var relevant = here
                || Fit.matches(
                        plain,
                        "(?s).*\\b(?:it|ulcer|wound|base|bone|tendon|probe\\w*|probing|cm|mm|deep|shallow|superficial|slough\\w*|edges?)\\b.*");
        if (!relevant) {
            return;
        }
        var nothing = NOTHING.matcher(plain);
        var exposesNothing = nothing.find() && !Polarity.isOpen(sentence, nothing.start());
        if (exposesNothing) {
            for (var side : sides(page, sentence, topic, nothing.start(), nothing.end())) {
                findings.putIfUnknown(side.leg("wound.exposes"), "nothing", sentence.span(nothing));
            }
        }
        var deep = DEEP.matcher(plain);
        while (deep.find()) {
            if (exposesNothing && deep.start() < nothing.end() && deep.end() > nothing.start()
                    || Polarity.of(sentence, deep) != Polarity.STATED
                    || exposesNothing && Fit.matches(deep.group(), ".*(?:bone|tendon).*")) {
                continue;
            }
            if (deep.group().equals("deep")
                    && !Fit.matches(plain, "(?s).*\\b(?:ulcer|wound|sore|it|crater|mm|cm)\\b.*")) {
                continue;
            }
            var sides = sides(page, sentence, topic, deep.start(), deep.end());
            var phalanx = PHALANX.matcher(plain);
            var calcaneus = Fit.matches(plain, "(?s).*\\bcalcaneus\\b.*");
            var tip = phalanx.find();
            for (var side : sides) {
                if (tip) {
                    findings.putIfUnknown(side.leg("wound.exposes"), "distalPhalanx", sentence.span(deep));
                    if (Fit.matches(deep.group(), ".*\\b(?:expos\\w*|visible|bare|prob\\w+)\\b.*")
                            && !SHALLOW.matcher(plain).find()) {
                        findings.putIfUnknown(side.leg("wound.ulcer"), "deep", sentence.span(deep));
                    }
                } else if (BONE.matcher(deep.group()).find()) {
                    findings.putIfUnknown(
                            side.leg("wound.exposes"),
                            calcaneus || plain.contains("heel bone") ? "calcaneus" : "boneJointOrTendon",
                            sentence.span(deep));
                    if (calcaneus && EXTENSIVE.matcher(plain).find()
                            || calcaneus && Fit.matches(plain, "(?s).*\\blarge\\b.*")) {
                        findings.putIfUnknown(side.leg("wound.ulcer"), "extensive", sentence.span(deep));
                    } else {
                        findings.putIfUnknown(side.leg("wound.ulcer"), "deep", sentence.span(deep));
                    }
                } else {
                    findings.putIfUnknown(side.leg("wound.ulcer"), "deep", sentence.span(deep));
                }
            }
        }
        var extensive = EXTENSIVE.matcher(plain);
        if (extensive.find()
                && Fit.matches(
                        plain.substring(extensive.end(), Math.min(plain.length(), extensive.end() + 40)),
                        "(?s)[a-z ,]{0,30}\\b(?:ulcer|wound)\\b.*")
                && extensive.group().equals("extensive")
                && Polarity.of(sentence, extensive) == Polarity.STATED) {
            for (var side : sides(page, sentence, topic, extensive.start(), extensive.end())) {
                findings.put(side.leg("wound.ulcer"), "extensive", sentence.span(extensive), Findings.Ground.WORDS);
            }
        }
        var shallow = SHALLOW.matcher(plain);
        if (shallow.find()
                && !Polarity.isOpen(sentence, shallow.start())
                && (shallow.group().startsWith("not") || !Polarity.isDenied(sentence, shallow.start(), shallow.end()))
                && Fit.matches(
                        plain, "(?s).*\\b(?:ulcer|wound|sore|it|base|depth|break|lesion|crater|skin|looks?)\\b.*")
                && !Fit.matches(shallow.group(), "not deep|isn't deep|abrasion")) {
            for (var side : sides(page, sentence, topic, shallow.start(), shallow.end())) {
                findings.putIfUnknown(side.leg("wound.ulcer"), "shallow", sentence.span(shallow));
            }
        }
    }

    static void site(Page page, Sentence sentence, WoundRule.Topic topic, boolean here, Findings findings) {
        var plain = sentence.plain;
        if (!here
                && !Fit.matches(plain, "(?s)(?:it|this|the (?:ulcer|wound)|ulcer|wound|site|location|over|on)\\b.*")) {
            return;
        }
        var wound = Fit.of("\\b(?:" + WoundRule.WOUND + "|gangrene|necrosis|black\\w*|mummified|eschars?)\\b")
                .matcher(plain);
        if (!wound.find()) {
            if (here) {
                return;
            }
            wound = Fit.of("^\\w+").matcher(plain);
            wound.find();
        }
        do {
            if (Polarity.of(sentence, wound) != Polarity.STATED) {
                continue;
            }
            record Candidate(String site, int start, int end, int distance) {}
            var candidates = new ArrayList<Candidate>();
            for (var entry : SITES) {
                var match = entry.getValue()
                        .matcher(plain)
                        .region(
                                Math.max(sentence.clauseStart(wound.start()), wound.start() - 60),
                                Math.min(afterLabel(sentence, wound), wound.end() + 75))
                        .useTransparentBounds(true);
                while (match.find()) {
                    if (Fit.matches(
                                    plain.substring(match.end()),
                                    "(?s) (?:pressure|pulse|wave|brachial|swelling|oedema|amputat|abi).*")
                            || Fit.matches(plain.substring(match.end()), "(?s)s? (?:\\d{2}|is warm|are warm).*")
                            || Fit.matches(
                                            plain.substring(Math.max(0, match.start() - 14), match.start()),
                                            "(?s).*(?:down to|to the|to|exposed|exposing) (?:the )?")
                                    && entry.getKey().equals("heel")
                                    && match.group().startsWith("calc")) {
                        continue;
                    }
                    var behind = match.start() >= wound.end();
                    var gap = behind ? match.start() - wound.end() : wound.start() - match.end();
                    var between = behind
                            ? plain.substring(wound.end(), match.start())
                            : plain.substring(match.end(), Math.max(match.end(), wound.start()));
                    var penalty = between.contains(",")
                                    || Fit.matches(between, "(?s).*\\b(?:and|with|but|claudication|pain)\\b.*")
                            ? 25
                            : 0;
                    candidates.add(new Candidate(entry.getKey(), match.start(), match.end(), gap + penalty));
                }
            }
            var best = candidates.stream()
                    .min(Comparator.comparingInt(Candidate::distance)
                            .thenComparingInt(candidate -> candidate.site().equals("leg") ? 1 : 0));
            if (best.isPresent()) {
                var found = best.get();
                var place = page.legs.of(
                        sentence, Math.min(found.start(), wound.start()), Math.max(found.end(), wound.end()));
                if (place.known() && Collections.disjoint(place.sides(), topic.sides())) {
                    continue;
                }
                var sides = place.known() && topic.sides().containsAll(place.sides())
                        ? place.sides()
                        : sides(page, sentence, topic, found.start(), found.end());
                for (var side : sides) {
                    findings.putIfUnknown(
                            side.leg("wound.site"), found.site(), sentence.span(found.start(), found.end()));
                }
                if (!Fit.matches(wound.group(), "(?s).*(?:gangrene|black|necrosis).*")) {
                    return;
                }
            }
        } while (wound.find());
    }

    /** Where the clause of a wound ends; what follows a label such as "Wound:" belongs to it. */
    private static int afterLabel(Sentence sentence, Matcher wound) {
        var end = sentence.clauseEnd(wound.start());
        return LABEL.matcher(sentence.plain)
                        .region(wound.end(), sentence.plain.length())
                        .lookingAt()
                ? sentence.clauseEnd(end)
                : end;
    }

    private static void since(Page page, Sentence sentence, WoundRule.Topic topic, Findings findings) {
        var plain = sentence.plain;
        var wound = Fit.of("\\b(?:" + WoundRule.WOUND + "|gangrene|necrosis|black\\w*|mummified|eschars?)\\b")
                .matcher(plain);
        var position = wound.find() ? wound.start() : 0;
        for (var found : Durations.in(plain, 0, plain.length())) {
            var between = found.start() > position
                    ? plain.substring(position, found.start())
                    : plain.substring(found.end(), Math.max(found.end(), position));
            if (!Durations.lasts(sentence, found)
                    || ofOtherComplaint(sentence, found, position)
                    || Fit.matches(
                            between,
                            "(?s).*\\b(?:claudication|rest pain|stroke|smok\\w+|bypass|stent\\w*|walking|diabetes|antibiotic\\w*|flucloxacillin|dressing\\w*|course|dialysis|over the last|bigger|larger|worse|doubled|co-amoxiclav|doxycycline)\\b.*")
                    || Fit.matches(
                            plain.substring(found.end()),
                            "(?s) (?:of (?:antibiotics|dressings|oral|iv|fluclox\\w*|doxy\\w*|co-amox\\w*|compression|podiatry)|course|history of (?:claudication|rest pain|type|diabetes)).*")) {
                continue;
            }
            for (var side : sides(page, sentence, topic, found.start(), found.end())) {
                findings.putIfUnknown(
                        side.leg("wound.sinceDays"), found.days(), sentence.span(found.start(), found.end()));
            }
            return;
        }
        for (var date : page.dates.in(plain)) {
            if (Fit.matches(
                            plain.substring(0, date.start()),
                            "(?s).*\\b(?:since|appeared on|noticed on|began on|started on)(?: the)? $")
                    && page.written.isPresent()) {
                Dates.past(date, page.written).ifPresent(day -> {
                    var days = ChronoUnit.DAYS.between(day, page.written.get());
                    for (var side : sides(page, sentence, topic, date.start(), date.end())) {
                        if (days >= 0 && days < 30_000) {
                            findings.putIfUnknown(
                                    side.leg("wound.sinceDays"), (int) days, sentence.span(date.start(), date.end()));
                        }
                    }
                });
            }
        }
    }

    private static final Pattern CHANGE = Pattern.compile(
            "\\b(?:enlarging|enlarged|spreading|growing|same size|larger|bigger|unchanged|static)(?: \\w+){0,3}? (?:over|in|for)(?: the)?(?: (?:past|last))? ?$");

    /** "Night pain x 1/12, new heel ulcer": the time of what is told before the wound; or of how long it has grown. */
    private static boolean ofOtherComplaint(Sentence sentence, Durations.Found found, int position) {
        var plain = sentence.plain;
        var before = plain.substring(sentence.clauseStart(found.start()), found.start());
        return found.end() <= position
                        && (plain.substring(found.end(), position).contains(",")
                                || sentence.clauseStart(found.start()) != sentence.clauseStart(position))
                        && Fit.matches(before, "(?s).*\\b(?:rest pain|pain|claudication|cramp\\w*)\\b.*")
                || CHANGE.matcher(before).find();
    }

    private static boolean ofOtherLeg(Page page, Sentence sentence, WoundRule.Topic topic, int start, int end) {
        var place = page.legs.near(sentence, start, end);
        return place.known() && Collections.disjoint(place.sides(), topic.sides());
    }

    private static void spreading(Page page, Sentence sentence, WoundRule.Topic topic, Findings findings) {
        var plain = sentence.plain;
        var stands = STANDS.matcher(plain);
        if (stands.find()
                && !ofOtherLeg(page, sentence, topic, stands.start(), stands.end())
                && !Fit.matches(stands.group(), "smaller|getting smaller|shrinking")
                && !Fit.matches(
                        plain, "(?s).*\\b(?:erythema|cellulitis)\\b.{0,20}" + Pattern.quote(stands.group()) + ".*")) {
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("wound.spreading"), false, sentence.span(stands));
            }
            return;
        }
        var spreads = SPREADS.matcher(plain);
        while (spreads.find()) {
            var before = plain.substring(sentence.pieceStart(spreads.start()), spreads.start());
            if (Polarity.of(sentence, spreads) != Polarity.STATED
                    || ofOtherLeg(page, sentence, topic, spreads.start(), spreads.end())
                    || Fit.matches(
                            before,
                            "(?s).*\\b(?:erythema|cellulitis|infection|aneurysm|pain|family|redness|distance)\\b.*")
                    || Fit.matches(
                            plain.substring(spreads.end()),
                            "(?s) (?:erythema|cellulitis|redness|infection|\\d+ (?:cm|mm) (?:of|beyond|around)).*")
                    || Fit.matches(
                            plain.substring(spreads.end()),
                            "(?s)[^.;]{0,20}\\b(?:but|and|then) (?:it )?(?:has |is |have )?(?:now |since |recently )?(?:stopped|ceased|settled|stable|static|healing|smaller|shrinking|shrunk)\\b.*")
                    || spreads.group().equals("extending")
                    || spreads.group().equals("growing")
                            && !Fit.matches(before, "(?s).*\\b(?:ulcer|wound|it|which|is)\\b.*")) {
                continue;
            }
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("wound.spreading"), true, sentence.span(spreads));
            }
            return;
        }
    }
}
