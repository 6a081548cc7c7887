package limbqueue.reading;

import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Pain of foot or toes at rest or at night in bed. */
final class RestPainRule implements Rule {

    private static final Pattern NAMED = Pattern.compile(
            "\\b(?:rest(?:ing)?(?:,| and| or|/| nor) ?(?:night|nocturnal)(?: time)? pain|(?:night|nocturnal)(?:,| and| or|/| nor) ?rest pain|rest pain|night[ -]?rest pain|resting (?:foot |leg |toe )?pain|nocturnal (?:foot |toe |forefoot |leg )?pain|night (?:time )?(?:foot|toe|forefoot) pain)\\b");
    private static final String FOOT = "(?:foot|toe|forefoot|heel|great toe|metatarsal|instep|sole)s?";
    private static final String HURTS =
            "(?:pain(?:ful)?|burn(?:s|ing)?|aches?|aching|hurts?|throb(?:s|bing)?|discomfort|sore|agony|excruciating)";
    private static final String NIGHT =
            "(?:at night|at rest|in bed|all night|night and day|day and night|(?:wak(?:es|ing|en\\w*|ed)|woken|woke|keep(?:s|ing)?)[^.;,]{0,40}?(?:night|sleep|awake|up|him|her|from)|during the night|nightly|every night|as soon as (?:he|she) lies|when(?:ever)? (?:he|she) (?:lies|is lying|goes to bed|gets into bed|elevates|puts)|on lying (?:flat|down)|lying (?:flat|down)|nocturnal|disturbs? (?:his|her) sleep|at nights?|on elevation|through the night|overnight|sleepless|constant(?:ly)?)";
    private static final Pattern DESCRIBED =
            Pattern.compile("\\b(?:" + FOOT + "\\b[^.;]{0,70}?\\b" + HURTS + "\\b[^.;]{0,60}?\\b" + NIGHT + "|" + HURTS
                    + "\\b[^.;]{0,50}?\\b" + FOOT + "\\b[^.;]{0,60}?\\b" + NIGHT + "|" + NIGHT + "\\b[^.;]{0,60}?\\b"
                    + FOOT + "\\b[^.;]{0,30}?\\b" + HURTS + "|" + NIGHT + "\\b[^.;]{0,50}?\\b" + HURTS
                    + "\\b[^.;]{0,40}?\\b" + FOOT + "|" + HURTS + "\\b[^.;]{0,30}?\\b" + NIGHT
                    + ",? (?:in |of )?(?:the |his |her )?(?:left |right )?" + FOOT + "(?! puls)|" + FOOT
                    + "\\b[^.;]{0,20}?\\bwakes (?:him|her))\\b");
    private static final Pattern HANGING = Pattern.compile(
            "\\b(?:(?:hang(?:s|ing)?|hung|dangl(?:es|ing|e|ed)|lower(?:s|ing)?|dropp?(?:s|ing)?|put(?:s|ting)?|stick(?:s|ing)?|swing(?:s|ing)?)(?: (?:it|his|her|the|left|right|leg|foot|feet|them|limb|bilateral|both|affected|down)){0,5}(?: ?(?:out of|over|off|outside|down|from|at|by|beside|below|on the floor|to the floor)){1,2}(?: (?:the|his|her|of|side|edge|bed|floor|from))*|dependency|(?:relieved|eased|helped|better|relief|improved|improves|eases) (?:by|on|with|when|from) (?:dangling|hanging|lowering|dropping)|(?:in|by|with) a dependent position|legs? (?:hanging )?dependent|"
                    + "(?:hang|hanging|dangling|dangles|hangs) (?:it|the leg|the foot|his foot|her foot|his leg|her leg|the left leg|the right leg|the left foot|the right foot|leg|foot|them|down)(?: down)?|"
                    + "(?:sle(?:eps|pt|eping|ep)|spends? (?:the|his|her|most|\\w+) nights?|nights?(?: are)? spent|dozes|sits? up)(?: \\w+){0,6} (?:in|upright in|up in)(?: (?:a|an|the|his|her|riser))?(?: (?:recliner|reclining|arm|easy|riser))?[ -]?(?:armchair|chair|recliner)|recliner (?:at night|all night|to sleep)|gets? (?:up|out of bed) (?:and|to) (?:walk|stand)s?|walk(?:s|ing) (?:about|around) (?:at night |the room )?(?:relieves|eases|to ease|to relieve)|sits on the (?:edge|side) of the bed|(?:sits?|sitting) (?:up )?with (?:the |his |her )?(?:leg|foot) (?:down|hanging|lowered|dangling)|foot out of (?:the )?bed|leg out of (?:the )?bed)\\b");
    private static final String OPIOID =
            "(?:opioids?|opiates?|narcotics?|morphine|oramorph|oxycodone|oxycontin|oxynorm|percocet|tramadol|fentanyl|buprenorphine|butrans|codeine|co-?codamol|dihydrocodeine|hydrocodone|norco|vicodin|hydromorphone|dilaudid|tapentadol|methadone|mst|zomorph|sevredol|longtec|ultram)";
    private static final Pattern NEEDS_OPIOID = Pattern.compile("\\b(?:" + OPIOID
            + "\\b[^.;]{0,60}?\\b(?:for|to control|to relieve|to ease|to get through|takes the edge|because of|helps|controls|on account of|just to)\\b[^.;]{0,40}?(?:pain|edge|it|this|night|rest pain|sleep)|(?:rest pain|pain|it)\\b[^.;]{0,70}?\\b(?:requir\\w+|need\\w*|despite|controlled (?:with|by|on)|managed (?:with|on)|treated with|on|takes?|taking|even with|using|uses|in spite of|not (?:controlled|relieved|touched) by|only (?:with|by))\\b[^.;]{0,40}?\\b"
            + OPIOID + "|" + OPIOID + "[- ](?:requiring|dependent|controlled))\\b");

    /** Cramps of the calf at night are no pain of a foot without blood. */
    private static final Pattern CRAMPS = Pattern.compile("\\b(?:cramp\\w*|quinine|restless)\\b");

    private static final Pattern AT_THE_FOOT = Pattern.compile("\\b" + FOOT + "\\b");

    private record Topic(Set<Side> sides, int sentence, int paragraph) {}

    @Override
    public void read(Page page, Findings findings) {
        Optional<Topic> topic = Optional.empty();
        for (var sentence : page.sentences) {
            var found = find(page, sentence, findings);
            if (found.isPresent()) {
                topic = found;
            }
            if (topic.isPresent()
                    && (found.isPresent() || !Polarity.isAboutOthers(sentence))
                    && sentence.number - topic.get().sentence() <= 2
                    && sentence.paragraph - topic.get().paragraph() <= 1) {
                details(page, sentence, topic.get(), found.isPresent(), findings);
            }
        }
    }

    private static Optional<Topic> find(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        if (!sentence.hasAny(
                "pain",
                "burn",
                "fine",
                "comfortable",
                "ache",
                "aching",
                "hurt",
                "throb",
                "wak",
                "sore",
                "sle",
                "agony",
                "chair")) {
            return Optional.empty();
        }
        if (FormRule.present(sentence, "rest pain").isPresent()
                || Fit.matches(
                        plain,
                        "(?s).*\\bthank(?:s| you) for (?:sorting|seeing|looking|treating|your)\\b.*\\((?:left|right)? ?leg,.*")) {
            return Optional.empty();
        }
        var result = Optional.<Topic>empty();
        var named = NAMED.matcher(plain);
        while (named.find()) {
            var polarity = Polarity.of(sentence, named);
            if (polarity == Polarity.DENIED) {
                deny(page, sentence, named.start(), named.end(), findings);
            } else if (polarity == Polarity.STATED && !elsewhere(plain, named.start(), named.end())) {
                result = present(page, sentence, named.start(), named.end(), findings)
                        .or(() -> Optional.empty());
            }
        }
        if (result.isPresent()
                || plain.contains("rest pain") && !Fit.matches(plain, "(?s).*\\bwakes? (?:him|her)\\b.*")) {
            return result;
        }
        var denied = Fit.of(
                        "\\b(?:no|denies(?: any)?|without(?: any)?|not (?:having|had) any) (?:foot |toe |leg |ischaemic )*(?:pain|discomfort)s? (?:in (?:the |his |her |that |this |either )?(?:bilateral |left |right )?(?:foot|toe|feet|leg) )?(?:at (?:night|rest)|in bed|or at night)\\b|\\b(?:doesn't|don't) (?:have|get|complain of) (?:any )?(?:foot |toe )?(?:pain )(?:at (?:night|rest)|in bed)|\\b(?:foot|feet|toe|leg)s? (?:is |are |feels? |both )?(?:fine|comfortable|ok|okay|painless|free of pain|quite comfortable|not painful) (?:at night|in bed|at rest)|\\b(?:pain|foot|leg|feet) (?:doesn't|don't|never) wakes? (?:him|her)|\\b(?:never|hasn't) (?:had |has |gets? |experienced )(?:any )?(?:rest pain|pain in (?:the |his |her |either )?(?:bilateral |left |right )?(?:foot|toe|leg)s? (?:at (?:night|rest)|in bed))|\\b(?:not|never|isn't) (?:woken|wakened|awakened|kept awake|disturbed|troubled at night) (?:at night )?by (?:any )?(?:foot |leg )?(?:pain|(?:his|her|the) (?:foot|leg)s?)")
                .matcher(plain);
        if (denied.find() && !Polarity.isOthers(sentence, denied.start(), denied.end())) {
            deny(page, sentence, denied.start(), denied.end(), findings);
            return Optional.empty();
        }
        var described = DESCRIBED.matcher(plain);
        if (described.find()
                && Polarity.of(sentence, described) == Polarity.STATED
                && !Polarity.isDenied(sentence, described.end() - 1, described.end())
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:gout|plantar fasciitis|sudden\\w*|neuropathic|neuropathy|restless|arthritis)\\b.*")) {
            return present(page, sentence, described.start(), described.end(), findings);
        }
        var hanging = HANGING.matcher(plain);
        if (hanging.find()
                && !Fit.matches(hanging.group(), "put.*\\bdown")
                && Fit.matches(plain, "(?s).*\\b(?:pain|burn\\w*|foot|leg|hurts|ache)\\b.*")
                && !Fit.matches(
                        plain, "(?s).*\\b(?:breath\\w*|orthopn\\w+|heart failure|oedema|apnoea|reflux|back pain)\\b.*")
                && Polarity.of(sentence, hanging) == Polarity.STATED
                && Fit.matches(plain, "(?s).*\\b(?:night|sle\\w+|bed)\\b.*")) {
            return present(page, sentence, hanging.start(), hanging.end(), findings);
        }
        return Optional.empty();
    }

    private static boolean elsewhere(String plain, int start, int end) {
        var around = plain.substring(Math.max(0, start - 30), Math.min(plain.length(), end + 30));
        return CRAMPS.matcher(around).find() && !AT_THE_FOOT.matcher(plain).find()
                || Fit.matches(around, "(?s).*\\b(?:back|chest|hip|knee|shoulder|abdominal|joint|angina)\\b.*")
                || Polarity.isOver(plain, start, end);
    }

    private static void deny(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.ofDenial(sentence, start, end);
        for (var side : place.sides()) {
            findings.put(
                    side.leg("restPain.present"),
                    false,
                    sentence.span(Polarity.denialStart(sentence, start), end),
                    place.ground());
        }
    }

    private static Optional<Topic> present(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.of(sentence, start, end);
        if (!place.known()) {
            place = page.legs.ahead(sentence);
        }
        if (!place.known()) {
            findings.ask("Rest pain is mentioned: ask in which leg.", sentence.span(start, end));
            return Optional.empty();
        }
        for (var side : place.sides()) {
            findings.put(side.leg("restPain.present"), true, sentence.span(start, end), place.ground());
        }
        page.legs
                .without(sentence, end)
                .ifPresent(other -> other.sides()
                        .forEach(side -> findings.put(
                                side.leg("restPain.present"), false, sentence.span(other.start(), other.end()))));
        return Optional.of(new Topic(place.sides(), sentence.number, sentence.paragraph));
    }

    private static void details(Page page, Sentence sentence, Topic topic, boolean here, Findings findings) {
        var plain = sentence.plain;
        var hanging = HANGING.matcher(plain);
        if (hanging.find()
                && !(Fit.matches(hanging.group(), "put.*\\bdown") && plain.startsWith(" to", hanging.end()))
                && !Polarity.isOthers(sentence, hanging.start(), hanging.end())) {
            var denied = Polarity.isDenied(sentence, hanging.start(), hanging.end())
                    || Fit.matches(
                            plain.substring(sentence.clauseStart(hanging.start()), hanging.start()),
                            "(?s).*\\b(?:doesn't help|not (?:relieved|eased|helped)|no better|no relief)\\b.*")
                    || Fit.matches(
                            plain.substring(hanging.end()),
                            "(?s),? (?:doesn't|don't|makes no|brings no|gives no|is no|never) (?:help|relieve|ease|difference|relief).*");
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("restPain.easedByHanging"), !denied, sentence.span(hanging));
            }
        }
        var opioid = NEEDS_OPIOID.matcher(plain);
        if (opioid.find()
                && !Polarity.isOpen(sentence, opioid.start())
                && Fit.matches(plain, "(?s).*\\b(?:pain|night|edge|sleep|for (?:it|this))\\b.*")
                && !Fit.matches(plain, "(?s).*\\b(?:back|hip|knee|phantom|joint|arthrit\\w+|allerg\\w+) .*")) {
            var denied = Fit.matches(
                    plain,
                    "(?s).*\\b(?:no|not|without|doesn't|isn't|don't) (?:need\\w* |requir\\w+ |taking |take |on |any |for )*"
                            + OPIOID + ".*");
            for (var side : topic.sides()) {
                findings.putIfUnknown(side.leg("restPain.needsOpioid"), !denied, sentence.span(opioid));
            }
        } else {
            var none = Fit.of(
                            "\\b(?:no|not|without|doesn't|isn't|don't) (?:need\\w* |requir\\w+ |taking |take |on |any |for )*"
                                    + OPIOID + "\\b")
                    .matcher(plain);
            if (none.find()) {
                for (var side : topic.sides()) {
                    findings.putIfUnknown(side.leg("restPain.needsOpioid"), false, sentence.span(none));
                }
            }
        }
        if (!here
                && !Fit.matches(
                        plain,
                        "(?s)(?:it|this|pain|the pain|these|now|present|worse|started|began|onset|he has had|she has had|has been)\\b.*")) {
            return;
        }
        var at = NAMED.matcher(plain);
        var position = at.find() ? at.start() : 0;
        for (var found : Durations.in(plain, 0, plain.length())) {
            if (!Durations.lasts(sentence, found) || !nearest(sentence, found, position, here)) {
                continue;
            }
            for (var side : topic.sides()) {
                findings.putIfUnknown(
                        side.leg("restPain.sinceDays"), found.days(), sentence.span(found.start(), found.end()));
            }
            break;
        }
        since(page, sentence, topic, here, findings);
    }

    private static void since(Page page, Sentence sentence, Topic topic, boolean here, Findings findings) {
        for (var date : page.dates.in(sentence.plain)) {
            if (here
                    && Fit.matches(sentence.plain.substring(0, date.start()), "(?s).*\\bsince(?: the)? $")
                    && page.written.isPresent()) {
                Dates.past(date, page.written).ifPresent(day -> {
                    var days = java.time.temporal.ChronoUnit.DAYS.between(day, page.written.get());
                    for (var side : topic.sides()) {
                        if (days >= 0 && days < 30_000) {
                            findings.putIfUnknown(
                                    side.leg("restPain.sinceDays"),
                                    (int) days,
                                    sentence.span(date.start(), date.end()));
                        }
                    }
                });
            }
        }
    }

    /** Whether no other complaint stands nearer to the duration. */
    private static boolean nearest(Sentence sentence, Durations.Found found, int position, boolean here) {
        var plain = sentence.plain;
        if (!here) {
            return true;
        }
        var between = found.start() > position
                ? plain.substring(position, found.start())
                : plain.substring(found.end(), Math.max(found.end(), position));
        var other = Fit.of(
                "\\b(?:claudication|ulcer|wound|gangrene|black|stroke|smok\\w+|bypass|stent\\w*|walking|calf|sore|diabetes|dialysis)\\b");
        return !other.matcher(between).find()
                && !(found.end() <= position
                        && between.contains(",")
                        && other.matcher(plain.substring(0, found.start())).find())
                && !(found.start() > position
                        && between.contains(", ")
                        && other.matcher(plain.substring(found.end(), Math.min(plain.length(), found.end() + 30)))
                                .find());
    }
}
