package limbqueue.reading;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the patient has or has had, smokes, and how he or she lives. */
final class HistoryRule implements Rule {

    /** A condition that is present or not, and the words it is said with. */
    private record Condition(String field, Pattern words) {
        static Condition of(String field, String words) {
            return new Condition("history." + field, Fit.of("\\b(?:" + words + ")\\b"));
        }
    }

    private static final String METAL = "(?:metal\\w*|screws?|rods?|plates?)(?: put| placed| inserted)?";

    private static final List<Condition> CONDITIONS = List.of(
            Condition.of("diabetes", "diabetes(?! insipidus)"),
            Condition.of("dialysis", "dialysis"),
            Condition.of(
                    "coronaryBypass",
                    "coronary bypass|ca bypass|bypass of (?:the |his |her )?coronar\\w+|lima(?:-| to )lad|bypass(?= [^.;]{0,30}\\bleft internal mammary)|bypass (?:surgery )?(?:to|on|of|for) (?:his |her |the )?heart|(?<=coronary )bypass"),
            Condition.of(
                    "leftInternalMammaryGraft",
                    "left internal mammary graft|mammary graft|(?<=using )(?:left )?internal mammary"),
            Condition.of("heartFailure", "heart failure|hfref|hfpef"),
            Condition.of(
                    "stroke",
                    "(?<!heat )(?<!mini )stroke(?! (?:unit|clinic|prevention|risk|physician|team|volume|association))"),
            Condition.of("atrialFibrillation", "atrial fibrillation"),
            Condition.of(
                    "spinalHardware",
                    METAL
                            + " in (?:the |his |her )?(?:back|spine|lumbar spine)|operation on (?:the |his |her )?(?:spine|back) with (?:rods|screws|metal\\w*|plates)|spinal surgery ?/ ?metal|(?:lumbar|lumber|spinal|cervical|thoracic|back|spine|l\\d(?: ?[-/] ?[ls]?\\d)?)(?: spine| interbody| vertebral)? (?:fusion|instrumentation)|fusion of (?:the |his |her )?(?:lumbar |spine|l\\d|back)|pedicle screws?|(?:spinal|lumbar) (?:rods?|screws?|metalwork|hardware|implants?)|(?:metalwork|rods?|screws?|hardware|metal|plates?) (?:in|of) (?:the |his |her )?(?:lumbar |lower )?(?:spine|back)|spinal cord stimulator|posterior lumbar interbody|plif|tlif|l\\d ?[-/] ?s?\\d fusion|fused (?:lumbar )?spine|(?:spine|lumbar spine) (?:was |is )?fused"),
            Condition.of(
                    "hipOrPelvicHardware",
                    "hip replacement|hip prosthesis|" + METAL
                            + " in (?:the |his |her )?(?:(?:back|spine) (?:or|and|nor) (?:the |his |her )?)?(?:hips?|pelvis)|hips? on (?:that|the \\w+) side (?:was |has been )?replaced|(?:hip|pelvic|acetabular|sacroiliac) (?:metal\\b|metalwork|hardware|plates?|screws?|fixation|implant|nail)|(?:metalwork|plates?|screws?|hardware|metal|nail) (?:in|of) (?:the |his |her )?(?:left |right )?(?:hip|pelvis|acetabulum)|pelvic fixation|(?:left |right |bilateral |total |both )?hips? (?:was |were |is |has been |have been )?(?:both )?replaced|replacement of (?:the |his |her )?(?:left |right )?hip|new hips?|hip nail|hips? (?:was |were )?pinned|pinned hip"),
            Condition.of(
                    "spinalStenosis",
                    "spinal stenosis|stenosis at l\\d|l\\d ?/ ?\\d stenosis|neurogenic claudication due to spinal"),
            Condition.of("poplitealAneurysm", "popliteal aneurysm"),
            Condition.of(
                    "aorticAneurysm",
                    "(?:infrarenal |abdominal )?aortic aneurysm|aneurysm of (?:the )?(?:infrarenal |abdominal )?aorta"),
            Condition.of("pregnant", "pregnant|pregnancy|weeks? gestation|gravid"),
            Condition.of("bleedingDisorder", "bleeding disorder"),
            Condition.of(
                    "thyroidDisease",
                    "thyroid disease|thyroid (?:problems?|trouble)|thyroid(?= ?:? ?(?:n|y|no|yes)\\b)|(?<=treated )hypothyroid|goitre|thyroid disorder"),
            Condition.of("statin", "statins?"),
            Condition.of(
                    "antiplatelet",
                    "(?:dual |single |double )?anti-?platelets?(?: (?:therapy|agents?|treatment|drugs?|medication))?|dapt|blood thinning tablet"),
            Condition.of("careHome", "care home"));

    /** "Please avoid her dialysis days", "on a non-dialysis day": who has such days is dialysed. */
    private static final Pattern DIALYSIS_DAY =
            Pattern.compile("^(?:[ -]free)?[ -](?:days?|sessions?|slots?|shifts?|runs?|schedule)\\b");

    /** An adjective that ends a list of denied nouns: "no atrial fibrillation, hypothyroid". */
    private static final Pattern ADJECTIVE = Pattern.compile("(?i)(?:hypo|hyper)thyroid|diabetic|haemophiliac");

    private static final Pattern NO_DIALYSIS_BEFORE = Pattern.compile(
            "\\b(?:pre|non|may need|may require|approach\\w*|heading (?:for|towards)|near(?:ing)?|close to|consent for|prepar\\w+ for|(?:fistula|access|line|catheter|workup|work ?up|assess\\w*|ready|candidate|suitable|education|awaiting|wait\\w*|listed|referred|refer) for|(?:into|towards?|without|avoid|before|until|short of|start|needs?|need|want|declin\\w+|refus\\w+|discuss\\w*|considering|consider|option of|offered|talk\\w* about|come to|end up on|precipitat\\w+)|risk of) ?(?:the |a |any |starting |having |future |starts? )?-? ?$|\\bblood.{0,30}$");
    private static final Pattern NO_DIALYSIS_AFTER = Pattern.compile(
            "^(?: (?:is|was|has been|being|not|yet|be|will|may|likely|to))* (?:plann\\w+|discuss\\w*|considered|needed|required|started(?= (?:next|soon))|declined|refused|anticipated|expected|offered|in prospect|soon|counsel\\w*|nurse|risk|centre|center|team|prepar\\w+|education)|^ ?\\?(?! ?(?:no|yes|n|y)\\b)");

    private static final Pattern TAKES = Pattern.compile(
            "\\b(?:on|takes|taking|has|started|given|prescribed|continues|receiving|gets|with|plus|and|a|already|with a|his|her|dual|single|remains|tolerates|own|statin|statin and)\\b[^.;]{0,40}$");
    private static final Pattern TOLERANCE = Pattern.compile(
            "^[a-z ,]{0,20}\\b(?:intoleran\\w+|not tolerated|c[ao]me off|gave (?:it|them) up|taken off|poorly|badly|stopped|declin\\w+|refus\\w+|allerg\\w+|myalgia|never tried|contraindicated|discontinued|should|would|could|to be|if)\\b");

    private static final Pattern UNAIDED = Pattern.compile(
            "\\b(?:(?:walks|walking|mobil(?:e|ises|ising)|ambulat(?:es|ory|ing)|gets (?:about|around)|independently mobile|fully mobile)(?: \\w+){0,2} (?:unaided|independently|without (?:aids?|a stick|a cane|a frame|a walker|any aids?|help|assistance|support|assistive device)|by (?:himself|herself)|freely|independent)|independently (?:mobile|ambulatory)|independent (?:ambulation|mobility|walker|ambulator)|walks independently|ambulates? independently|unaided (?:walking|mobility)|mobility ?: ?(?:independent|unaided)|mobile and independent|fully mobile|independent with (?:walking|ambulation|mobility))\\b");
    private static final Pattern AIDED = Pattern.compile(
            "\\b(?:wheel ?-?chair(?:[- ](?:bound|dependent|user|only))?|bed ?-?(?:bound|ridden)|non ?-?ambulatory|chair ?-?bound|(?:walks|mobilises|walking|ambulates|mobile|gets about|gets around|moves|transfers)(?: \\w+){0,3} (?:with|using|on)(?: (?:a|an|the|his|her|two|one|1|2|wheeled|zimmer|rolling|walking|four|4|aid|of))* (?:frame|zimmer|walker|rollator|sticks?|cane|crutch(?:es)?|hoist|assistance|help of \\w+|prosthesis and)|uses (?:a |an |his |her )?(?:zimmer|walking |wheeled |rolling )?(?:frame|walker|rollator|zimmer|stick|cane|crutches)|zimmer frame|cannot walk (?:unaided|independently|without)|can't walk unaided|doesn't walk|no longer walks|hoisted?(?: for)? transfers|transfers with (?:a )?hoist|full hoist|walks with help|not (?:independently )?mobile|needs (?:help|assistance|two people|one person) to (?:walk|transfer|mobilise))\\b");

    /** "Diabetic? No". */
    private static final Pattern QUESTION = Pattern.compile(
            "^ ?\\? ?(?:(?<yes>yes|y)|no|n|never|nil|none)(?![a-z/])(?! ?[\\[(\u2610] ?[x\u2713\u2714]? ?[\\])])");

    private static final Pattern INFARCT = Pattern.compile("\\bmyocardial infarction\\b");
    private static final Pattern EXERCISE = Pattern.compile(
            "(?:supervised (?:walking|exercise))[^.;]{0,40}?\\b(?<n3>\\d{1,2}) (?<u3>week|month)s?\\b|(?<n>\\d{1,2})[ -](?<u>week|month)s?(?:'|s)?[ -](?:of )?(?:(?:a|the|our|hospital|full|structured|completed|complete|physio\\w*|led|nurse|local|formal|course|programme|of|program|supervised|walking|sessions?|class(?:es)?|rehab\\w*)[ -])*(?:supervised |structured )?(?:exercise|walking (?:programme|program|class|therapy|training)|set\\b|treadmill (?:programme|training|therapy))"
                    + "|(?:exercise|walking)(?: (?:programme|program|class(?:es)?|therapy|training|course|sessions|group|rehabilitation))*(?: \\w+){0,4}?(?: for|,| \\(|:| of| lasting| x) ?(?:did |completed |done |finished )?(?:a full |the full |all |full )?(?<n2>\\d{1,2})[ -](?<u2>week|month)s?\\b");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            for (var condition : CONDITIONS) {
                read(page, sentence, condition, findings);
            }
            walking(sentence, findings);
            infarct(page, sentence, findings);
            exercise(sentence, findings);
        }
    }

    private static void read(Page page, Sentence sentence, Condition condition, Findings findings) {
        var plain = sentence.plain;
        var match = condition.words().matcher(plain);
        while (match.find()) {
            var field = condition.field();
            if (field.endsWith("dialysis")
                    && DIALYSIS_DAY.matcher(plain.substring(match.end())).find()
                    && !Polarity.isOthers(sentence, match.start(), match.end())) {
                findings.put(field, true, sentence.span(match), Findings.Ground.WORDS);
                continue;
            }
            if (isAnother(sentence, field, match)) {
                continue;
            }
            var value = value(sentence, match.start(), match.end())
                    .map(said -> said || endsDenials(page, sentence, match.start(), match.end()));
            if (value.isEmpty()) {
                continue;
            }
            var treatment = field.endsWith("statin") || field.endsWith("antiplatelet");
            if (treatment
                    && answered(plain, match.start(), match.end()).isEmpty()
                    && !taken(sentence, match, value.get())) {
                continue;
            }
            var start = value.get() ? match.start() : Polarity.denialStart(sentence, match.start());
            findings.put(field, value.get(), sentence.span(start, match.end()), Findings.Ground.WORDS);
        }
    }

    private static boolean endsDenials(Page page, Sentence sentence, int start, int end) {
        var before = sentence.plain.substring(sentence.clauseStart(start), start);
        return ADJECTIVE.matcher(page.original(sentence.span(start, end))).matches()
                && Fit.matches(before, "(?s).*\\bno (?:history of )?[a-z]+(?: [a-z]+){0,2}, ")
                && !Fit.matches(before, "(?s).*\\b(?:not|never|neither|isn't)\\b.*")
                && !Fit.matches(sentence.plain.substring(end), "(?s) or\\b.*");
    }

    private static Optional<Boolean> value(Sentence sentence, int start, int end) {
        if (Polarity.isOthers(sentence, start, end)) {
            return Optional.empty();
        }
        var plain = sentence.plain;
        if (Fit.matches(plain.substring(end), "(?s) test (?:is |was )?:? ?(?:negative|neg\\b|-ve).*")) {
            return Optional.of(false);
        }
        var answered = answered(plain, start, end);
        if (answered.isPresent()) {
            return answered.get();
        }
        var after = plain.substring(end, Math.min(plain.length(), end + 20));
        if (Fit.matches(
                after,
                "(?s) ?[:?=-]+ ?(?:\\[ ?x ?\\] ?)?(?:yes|y\\b|\\[x\\] ?yes|present|\\+).*|(?s) ?[\\[(] ?[yx] ?[\\])].*")) {
            return Optional.of(true);
        }
        var before = plain.substring(Math.max(0, start - 6), start);
        if (Fit.matches(before, "(?s).*non ?- ?") || Fit.matches(before, "(?s).*\\bnon ?")) {
            return Optional.of(false);
        }
        if (Fit.matches(after, "(?s) ?[\\[(] ?n ?[\\])].*")) {
            return Optional.of(false);
        }
        if (Fit.matches(after, "(?s) ?(?:\\[ ?\\]|\\( ?\\)).*") || Fit.matches(plain.substring(end), " ?:[ ._-]*")) {
            return Optional.empty();
        }
        if (Fit.matches(after, "(?s) ?\\?.*") || Fit.matches(before, "(?s).*\\[ ?\\] ?")) {
            return Optional.empty();
        }
        if (Fit.matches(
                after,
                "(?s) ?[:=-]* ?(?:unknown|not known|unclear|uncertain|n/k|n ?/ ?a\\b|not applicable|not asked|(?:he|she|they) thinks?\\b|\\[ \\] yes.*\\[ \\] no|\\?).*")) {
            return Optional.empty();
        }
        return switch (Polarity.of(sentence, start, end)) {
            case OPEN -> Optional.empty();
            case DENIED -> Optional.of(false);
            case STATED -> Optional.of(true);
        };
    }

    /** What boxes say; the outer is empty where there are none, the inner where they are left blank. */
    private static Optional<Optional<Boolean>> answered(String plain, int start, int end) {
        var asked = QUESTION.matcher(plain.substring(end));
        if (asked.find()) {
            return Optional.of(Optional.of(asked.group("yes") != null));
        }
        if (Fit.matches(plain.substring(end), "(?s) ?:? ?[\\[(] ?n ?[\\])].*")) {
            return Optional.of(Optional.of(false));
        }
        var boxes = TickBoxes.yesOrNo(plain, end);
        if (boxes.isPresent()) {
            return boxes;
        }
        var kinds = TickBoxes.in(plain, end);
        if (kinds.stream().anyMatch(kind -> Fit.matches(kind.words(), "no|none"))) {
            var ticked = kinds.stream().filter(TickBoxes.Option::ticked).toList();
            return Optional.of(
                    ticked.size() == 1
                            ? Optional.of(!Fit.matches(ticked.getFirst().words(), "no|none"))
                            : Optional.empty());
        }
        var box = TickBoxes.isTicked(plain, start, end);
        return box.isEmpty() ? Optional.empty() : Optional.of(box.get() ? Optional.of(true) : Optional.empty());
    }

    /** Uses of the words that say something else. */
    private static boolean isAnother(Sentence sentence, String field, Matcher match) {
        var plain = sentence.plain;
        var before = plain.substring(Math.max(0, match.start() - 40), match.start());
        var after = plain.substring(match.end(), Math.min(plain.length(), match.end() + 40));
        if (Fit.matches(
                        after,
                        "(?s) (?:clinic|centre|center|team|nurse|ward|unit|foot clinic|foot team|foot service|service|department|specialist|risk).*")
                && Fit.matches(field, ".*(?:diabetes|heartFailure|stroke|thyroidDisease|atrialFibrillation)")
                && !Fit.matches(after, "(?s) foot (?:ulcer|infection|disease).*")) {
            return true;
        }
        return switch (field) {
            case "history.diabetes" ->
                Fit.matches(
                                before,
                                "(?s).*\\b(?:pre|borderline|gestational|steroid[- ]induced|impaired|screen\\w* (?:him |her )?for|test\\w* (?:him |her )?for|check\\w* for|department of|(?:doctor|nurse|specialist|consultant|lead|physician|lecturer|registrar|professor|centre|center|institute|service) (?:in|for|of)|(?:to|not) develop|leaflet on|risk (?:of|for)) ?-? ?$")
                        || Fit.matches(
                                after,
                                "(?s) (?:clinic|uk|screening|review|eye screening|status ?:? ?(?:is )?(?:un|not)|unknown|and endocrin\\w+|& endocrin\\w+|/ ?endocrin\\w+|(?:and )?metabol\\w+|(?:foot )?(?:protection|podiatr\\w+)|(?:liaison|specialist|research|register|education|course|association|care|charity)\\b).*");
            case "history.dialysis" ->
                NO_DIALYSIS_BEFORE.matcher(before).find()
                        || NO_DIALYSIS_AFTER.matcher(after).find();
            case "history.pregnant" ->
                !after.isEmpty()
                                && Fit.matches(after, "(?s) (?:test|in (?:19|20)\\d\\d|was|were|losses).*")
                                && !Fit.matches(after, "(?s) test (?:is |was )?(?:negative|positive).*")
                        || Fit.matches(
                                        before,
                                        "(?s).*\\b(?:last|previous|past|since (?:her|the)|after (?:her|the)|during|\\d|first|second|her)(?: \\w+)? $")
                                && match.group().equals("pregnancy");
            case "history.stroke" ->
                Fit.matches(
                        before, "(?s).*\\b(?:risk of|prevent\\w*|heat|brush|sun|key|breast|embolic risk)[ a-z]{0,12}$");
            case "history.careHome" ->
                Fit.matches(
                                before,
                                "(?s).*\\b(?:works? (?:in|at)|manager|owns|runs|nurse|retired from|matron|cook|employed|carer)\\b.*")
                        || Fit.matches(
                                after,
                                "(?s) (?:manager|owner|nurse|worker|placement (?:is )?(?:being )?considered|being considered).*");
            case "history.statin" -> false;
            case "history.coronaryBypass" ->
                Fit.matches(
                                after,
                                "(?s) (?:(?:is|was|has been) )?(?:being )?(?:considered|offered|declined|planned|discussed|recommended|advised|proposed|suggested|scheduled|booked|awaited|needed|pending).*")
                        || Fit.matches(
                                        before,
                                        "(?s).*\\b(?:awaiting|for|listed for|declined|considered for|needs|await) ?$")
                                && !Fit.matches(before, "(?s).*history (?:of|for) ?$");
            case "history.aorticAneurysm" ->
                Fit.matches(before, "(?s).*\\bscreen\\w*[ a-z]{0,10}$")
                        && !Fit.matches(after, "(?s).*(?:negative|normal|clear).*");
            default -> false;
        };
    }

    private static boolean taken(Sentence sentence, Matcher match, boolean positive) {
        var plain = sentence.plain;
        var before = plain.substring(0, match.start());
        var after = plain.substring(match.end());
        if (TOLERANCE.matcher(after).find()
                || Fit.matches(
                        before,
                        "(?s).*\\b(?:intoleran\\w+ (?:of|to)|stopped|refus\\w+|declin\\w+|allerg\\w+ to|swapped|exchanged|replaced|changed|instead of|start|begin|add|consider|suggest\\w*|recommend\\w*|should|could|would|high[- ]dose|trial of|for|about|offer\\w*|need\\w*|advis\\w+|myalgia (?:on|with))(?: \\w+){0,2} ?$")) {
            return false;
        }
        if (!positive) {
            return Fit.matches(
                            before,
                            "(?s).*\\b(?:not (?:currently |yet )?(?:on|taking|prescribed)|no|without|never (?:on|taken|had)|isn't on|doesn't take|don't take|nor|or|neither|not on)\\b[^.;]{0,40}$")
                    || Fit.matches(after, "(?s) ?[:=-]* ?(?:no|none|nil|n)\\b.*");
        }
        return TAKES.matcher(before).find()
                || Fit.matches(after, "(?s) ?[:=-] ?(?:yes|y\\b).*")
                || Fit.matches(
                        after,
                        "(?s)(?: therapy)? (?:is |was )?(?:taken|continued|started|prescribed|in place|established).*")
                || Fit.matches(before, "(?s)(?:.*(?:, |medication ?:? ?|; |\\+ ?))?")
                        && sentence.section == Sentence.Section.MEDICINES;
    }

    private static void walking(Sentence sentence, Findings findings) {
        var unaided = UNAIDED.matcher(sentence.plain);
        if (unaided.find()
                && !Polarity.isOthers(sentence, unaided.start(), unaided.end())
                && !Polarity.isOpen(sentence, unaided.start())) {
            var denied = Polarity.isDenied(sentence, unaided.start(), unaided.end())
                            && !unaided.group().contains("without")
                    || Fit.matches(
                            sentence.plain.substring(0, unaided.start()),
                            "(?s).*\\b(?:cannot|no longer|not)(?: \\w+)? ");
            findings.put("history.walksIndependently", !denied, sentence.span(unaided));
            return;
        }
        var aided = AIDED.matcher(sentence.plain);
        while (aided.find()) {
            if (Polarity.of(sentence, aided) == Polarity.OPEN) {
                continue;
            }
            var words = aided.group();
            if (Fit.matches(words, "cannot.*|doesn't.*|no longer.*|not .*|non.*")
                    || !Polarity.isDenied(sentence, aided.start(), aided.end())) {
                var after = sentence.plain.substring(aided.end());
                if (words.equals("wheelchair")
                        && (Fit.matches(
                                        after,
                                        "(?s) (?:for (?:long|outdoor|longer|distance)|access|transport|outdoors|taxi|ramp|outside).*")
                                || !Fit.matches(
                                        sentence.plain.substring(0, aided.start()),
                                        "(?s).*\\b(?:in a|uses a|using a|by|on a|has a|needs a|now|a|is) $"))) {
                    return;
                }
                findings.put("history.walksIndependently", false, sentence.span(aided));
            }
        }
    }

    private static void infarct(Page page, Sentence sentence, Findings findings) {
        var match = INFARCT.matcher(sentence.plain);
        while (match.find()) {
            if (Polarity.of(sentence, match) != Polarity.STATED) {
                continue;
            }
            var end = Math.min(sentence.plain.length(), match.end() + 45);
            var stop = sentence.plain.indexOf(", ", match.end());
            for (var found : Durations.in(sentence.plain, match.end(), end)) {
                var between = sentence.plain.substring(match.end(), found.start());
                if (Fit.matches(
                                sentence.plain.substring(found.end()),
                                "(?s) (?:ago|back|earlier|previously|prior).*|(?s) ?\\(?ago.*")
                        && !Fit.matches(between, "(?s).*\\b(?:and|stent\\w*|stroke|bypass|atrial|quit|stopped)\\b.*")
                        && (stop < 0 || stop > found.start() || between.length() < 4)) {
                    findings.put(
                            "history.recentMyocardialInfarctionDays",
                            found.days(),
                            sentence.span(match.start(), found.end()));
                    return;
                }
            }
            for (var found : Durations.in(sentence.plain, Math.max(0, match.start() - 45), match.start())) {
                var between = sentence.plain.substring(found.end(), match.start());
                if (Fit.matches(
                                between,
                                "(?s) (?:ago|after|since|post|from|following|status post|out from|on from|s/p)\\b[a-z ,]{0,30}")
                        && !Fit.matches(between, "(?s).*\\b(?:stroke|bypass|stent)\\b.*")) {
                    findings.put(
                            "history.recentMyocardialInfarctionDays",
                            found.days(),
                            sentence.span(found.start(), match.end()));
                    return;
                }
            }
            for (var date :
                    page.dates.in(sentence.plain, match.end(), Math.min(sentence.plain.length(), match.end() + 30))) {
                if (Fit.matches(
                                sentence.plain.substring(match.end(), date.start()),
                                " (?:on |in |, |\\(|of |dated )?(?:the )?")
                        && page.written.isPresent()) {
                    Dates.past(date, page.written).ifPresent(day -> {
                        var days = java.time.temporal.ChronoUnit.DAYS.between(day, page.written.get());
                        if (days >= 0 && days < 30_000) {
                            findings.put(
                                    "history.recentMyocardialInfarctionDays",
                                    (int) days,
                                    sentence.span(match.start(), date.end()));
                        }
                    });
                    return;
                }
            }
        }
    }

    private static void exercise(Sentence sentence, Findings findings) {
        if (!sentence.hasAny("exercise", "walking", "treadmill")) {
            return;
        }
        var match = EXERCISE.matcher(sentence.plain);
        if (match.find()) {
            var polarity = Polarity.of(sentence, match);
            if (polarity != Polarity.STATED
                    || Fit.matches(
                            sentence.plain,
                            "(?s).*\\b(?:refer(?:red)? (?:him |her )?(?:for|to)|waiting|booked|declined|offered|starts|will|to start|to begin|after exercise)\\b.*")
                    || Fit.matches(sentence.plain.substring(match.end()), "(?s) (?:history|hx).*")
                    || !Fit.matches(
                            sentence.plain,
                            "(?s).*\\b(?:supervised|programme|program|class(?:es)?|therapy|course|completed|structured|sessions?|rehab\\w*|set)\\b.*")) {
                return;
            }
            var number = Integer.parseInt(
                    match.group("n") != null
                            ? match.group("n")
                            : match.group("n3") != null ? match.group("n3") : match.group("n2"));
            var unit = match.group("u") != null
                    ? match.group("u")
                    : match.group("u3") != null ? match.group("u3") : match.group("u2");
            findings.put(
                    "history.exerciseProgrammeWeeks",
                    unit.equals("week") ? number : Math.round(number * 30f / 7),
                    sentence.span(match));
        }
    }
}
