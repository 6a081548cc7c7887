package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Earlier procedures on the arteries of the legs, with what they were meant to do and how they ended; and amputations. */
final class ProcedureRule implements Rule {

    private static final Pattern KIND = Pattern.compile(
            "\\b(?:(?<aneurysm>(?:evar|endovascular (?:aneurysm|aortic) repair|(?<=aneurysm, |aneurysm - |aneurysm \\()(?:(?:an? )?endovascular repair|repaired(?: by (?:an? )?(?:covered )?stent(?:[ -]graft)?)?)|(?:aortic |popliteal )?aneurysm (?:repair|was repaired|repaired|operation|surgery)|repair of (?:the |an |his |her )?(?:left |right )?(?:aortic |popliteal )?aneurysm|endovascular stent graft for aneurysm))"
                    + "|(?<endarterectomy>endarterectomy)|(?<thrombectomy>thrombectomy)"
                    + "|(?<bypass>(?:fem(?:oral)?(?:oro)?[ -/]*(?:pop(?:liteal)?|distal|tibial|femoral|peroneal|crural|postib|ata|dp|pop)|aorto[ -]?bi?[ -]?(?:femoral|iliac)|ax(?:illo)?[ -]?(?:bi)?[ -]?femoral|iliofemoral|sfa|popliteal)?[ -]*(?:(?:leg|vein|arterial|distal|surgical|peripheral|vascular|crural|limb|left|right|femorodistal) )?bypass)"
                    + "|(?<amputation>(?:below[ -]knee|above[ -]knee|forefoot|toe|ray|digital|major|minor|partial foot|left|right|syme'?s?|transmetatarsal|\\d\\w* toe|great toe)?(?: (?:toe|ray))? ?amputation|(?<=(?:his|her) (?:left|right) )leg (?:(?:taken |cut )?off|removed|amputated)|(?<=lost (?:his|her) (?:left|right) )leg(?= (?:below|above|to|in|at)))"
                    + "|(?<angioplasty>angioplasty|(?<=attempted |attempt at |failed |unsuccessful |tried )(?:[a-z -]{0,30})?recanali[sz]ation|recanali[sz]ation(?= (?:attempted|failed|of))|recanali[sz]ed)|(?<stent>stent)|(?<angiogram>angiogram))\\b");

    private static final Pattern NOT_LEG = Pattern.compile(
            "\\b(?:coronary|coronaries|cardiac|heart|renal|gastric|ureteric|biliary|drug eluting stents? (?:to|in) (?:the )?lad|lad|rca|circumflex|pci|mammary|cabg|myocardial|left main|cerebral|ureter|mesenteric|subclavian|fistula|stomach|weight)\\b");
    private static final Pattern OF_ANOTHER_ORGAN = Pattern.compile(
            "^s? (?:in|to|of|into|for|on) (?:the |his |her )?(?:heart|coronar\\w+|lad|rca|circumflex|kidneys?|renal|neck|carotids?|brain|bowel|stomach|arm|wrist)\\b");
    private static final Pattern OF_A_LEG = Pattern.compile(
            "\\b(?:sfa|cia|eia|cfa|iliac|popliteal|leg|limb|femoral|groin|left|right|fem|amputation|toe|knee|aneurysm|evar|distal|peripheral)\\b");
    private static final Pattern PLAN = Pattern.compile(
            "\\b(?:consider(?:ed|ing|ation)?|(?<!notable )(?<!significant )(?<!remarkable )(?<!history )(?<!positive )(?<!known )(?<!admitted )for(?: possible)?(?: an?)?|put off|postponed|cancelled|deferred|(?:awaits?|await\\w*)|would (?:like|benefit|need)|may (?:need|require|benefit)|might|needs?|require[sd]?|suitable for|candidate for|request(?:ed|ing)?|plan(?:ned|ning|s)?|to be|will (?:need|have|be)|await(?:s|ing)|wait(?:ing)? (?:list )?for|list(?:ed)?(?: (?:at|in|of|there|again)[^,;.]{0,40})? for|refer(?:red)? for|accept(?:s|ed)?|would have|in case (?:\\w+ ){0,4}|option ?:?|future|discuss(?:ed|ing)?|option of|offer(?:ed)?|if|avoid(?:ing)?|prevent|risk of|facing|spoken of|(?:talk\\w*|mention\\w*|thought|thoughts|speak|spoke|word|hop\\w+|afraid|scared|frightened|dread\\w*|worr\\w+|ask\\w*|enquir\\w+|wonder\\w*|read|heard) (?:of|about|for)|contemplat\\w+|propos\\w+|suggest\\w*|recommend\\w*|advis\\w+|prefers?|want(?:s|ed)?|turn(?:ed|ing)? down|reject\\w+|(?:unsuit|unfit|listed|booked|scheduled|put down|ready|waiting|work\\w* up|assess\\w*|room|time|case|indication|need) for|option was|might be|idea of|possibility of|prospect of|plan (?:is|was)|intention (?:is|was)|heading for|come to|instead of|rather than|declin\\w+|refus\\w+|no (?:previous|prior|past|history of)|never had|without|before (?:any|an)|hoping for|could have|should have|whether|scheduled for|booked for|due (?:for|to have)|in case|candidate|save (?:him|her) from|unfit for|fit for|not (?:a candidate|suitable)|possible|potential|re-?|repeat|another|further|->)(?: (?:a|an|the|any|right|left|urgent|further|early|diagnostic|possible|repeat|his|her|lower|limb|leg|of|to|have|primary|an?|and|or|sfa|iliac|femoral|popliteal|angioplasty|stent|angiogram|bypass|amputation|duplex|cta|surgery|endarterectomy|balloon|iliac|popliteal|above|below|knee|toe|him|her|now|again)){0,9} ?(?:/|and|or|\\+/?-?)? ?$");
    private static final Pattern PLANNED_AFTER = Pattern.compile(
            "^(?: of the \\w+)? ?(?:- ?)?(?:is |was |has been |to be |should be |would be |could be |will be |isn't )?(?:not )?(?:planned|booked|scheduled|considered|being considered|discussed|offered|declined|pending|not possible|next (?:week|month)|requested|awaited|would|could|should|may|might|if|suggested|recommended|on \\w+ list|slot|date|cancelled|postponed|put off|deferred|tomorrow|\\?)");
    /** "Previous angiogram/stent/bypass:" with nothing behind it. */
    private static final Pattern LEFT_BLANK = Pattern.compile("s?(?: ?[/,] ?[a-z]+){0,4} ?[:?][ ._-]*");

    private static final String ONLY_SPOKEN_OF =
            "planned|booked|scheduled|considered|contemplated|discussed|offered|declined|refused|rejected|turned down|proposed|suggested|"
                    + "recommended|advised|mentioned|talked (?:of|about)|spoken of|thought (?:of|about|unnecessary|unwise|too risky)|mooted|debated|intended|requested|"
                    + "awaited|pending|deferred|postponed|cancelled|put off|called off|dropped|vetoed|arranged|deemed|felt (?:to be )?(?:too|un)\\w*";
    private static final String NOT_CARRIED_OUT =
            "not (?:been )?(?:yet )?(?:done|carried out|performed|made|used|needed|necessary|undertaken|attempted|tried|required|indicated|wanted|possible|feasible|go ahead|gone ahead|take place|happen|proceed\\w*)|"
                    + "never (?:done|carried out|performed|happened|took place|went ahead|came off)|(?:might|may|could|would|will|should) (?:not )?(?:be|have|help|suit|need|follow)\\b";

    /** "A stent of the left iliac might be needed", "bypass has never been considered". */
    private static final Pattern NOT_DONE_AFTER = Pattern.compile(
            "^s?(?: ?/? ?(?:of|to|in|for|on|at|with|from) [^.;,:]{1,45}?)??,? ?(?:\\(|- )?(?:(?:which|that|it|but|and) )?(?:(?:is|was|were|are|has|have|had|been|being|to be|only|then|also|initially|both|all|once|twice|each|again) )*(?:"
                    + ONLY_SPOKEN_OF + "|" + NOT_CARRIED_OUT + ")\\b");

    /** "I took him to our angiography suite for an angiogram": what it was for was done. */
    private static final Pattern TAKEN_TO_THEATRE = Pattern.compile(
            "\\b(?:took|taken|brought) (?:him|her|mr \\w+|mrs \\w+|this \\w+|the patient) (?:back )?(?:in)?to\\b|\\bwent to (?:theatre|the (?:lab|suite|angio\\w* suite)) ");

    private static final Pattern OLD_STENT = Pattern.compile(
            "\\b(?:in[ -]?$|inside (?:the|a) $|within (?:the|a) $|above the $|below the $|through the $|the old $|in the $|proximal to the $|distal to the $|of the $|his $|her $)");

    private static final Pattern DIAGNOSTIC = Pattern.compile(
            "\\b(?:(?:strictly |purely |only |just |merely |solely |a )?diagnostic(?: (?:only|one|study|procedure|in intent))?|only (?:to have a look|to look|pictures|a look|for pictures)|just (?:pictures|to have a look|to look|a look)|to have a look|only pictures|pictures only|(?:just|only) to (?:take|get) (?:some )?pictures|no intervention|without intervention|look only|for information only|no treatment was (?:intended|planned|attempted|done))\\b");
    private static final Pattern FAILED = Pattern.compile(
            "\\b(?:(?:cannot|failed to|failure to|not able to|not be|never) (?:be )?(?:cross(?:ed)?|get (?:across|through|past|the wire)|re-?enter|recanali\\w+|pass(?:ed)?)|wire (?:would|did|could|won't|cannot|don't)(?:n't| not| never)? ?(?:pass|cross|go|get)|(?:would|could|did) not (?:cross|pass|go)|not (?:cross|pass)|unsuccessful(?:ly)?|failed|without success|not successful|could not be crossed|isn't successful)\\b");
    private static final Pattern INCOMPLETE = Pattern.compile(
            "\\b(?:abandon\\w*|stopped (?:half ?-?way|early|part ?-?way|midway)|aborted|incomplete|terminated|given up|half ?-?way|broken off|cut short|called off|halted|discontinued|stopped when|stopped because|had to (?:be stopped|stop))\\b");
    private static final Pattern COMPLETED = Pattern.compile(
            "\\b(?:successful(?:ly)?|good (?:angiographic |technical )?result|with success|excellent result|completed|satisfactory result|technically successful|worked well|well placed|went (?:well|fine|smoothly)|did well)\\b");
    private static final Pattern CROSSING = Pattern.compile(
            "\\b(?:cannot (?:be )?cross\\w*|failed to cross|wire|not (?:able to )?cross|recanali\\w+|cross(?:ed|ing)?|re-?enter\\w*|could not be crossed)\\b");

    private static final List<java.util.Map.Entry<String, Pattern>> COMPLICATIONS = List.of(
            java.util.Map.entry(
                    "none",
                    Pattern.compile(
                            "\\b(?:uneventful(?:ly)?|uncomplicated|no (?:\\w+ )?(?:complications?|issues|mishaps?)|without (?:any )?(?:mishaps?|issues)|without (?:any )?(?:complications?|incident|problems?)|complications? ?[:=-] ?(?:none|nil|no))\\b")),
            java.util.Map.entry(
                    "contrastReaction",
                    Pattern.compile(
                            "\\b(?:contrast reaction|reaction to (?:the )?(?:\\w+ )?(?:contrast|dye)|(?:hives|rash|anaphyla\\w+|collaps\\w+|bronchospasm|reacted) (?:\\w+ ){0,4}(?:contrast|dye)|(?:contrast|dye) (?:\\w+ ){0,3}(?:hives|anaphyla\\w+|rash))\\b")),
            java.util.Map.entry("perforation", Pattern.compile("\\b(?:perforat\\w+|ruptur\\w+|extravasation)\\b")),
            java.util.Map.entry("dissection", Pattern.compile("\\b(?:dissect(?:ion|ed))\\b")),
            java.util.Map.entry(
                    "embolism",
                    Pattern.compile(
                            "\\b(?:(?:distal )?emboli(?:sm|sation|zation|sed|zed)|embolus|emboli|trash foot)\\b")),
            java.util.Map.entry(
                    "kidneyInjury",
                    Pattern.compile(
                            "\\b(?:kidney injury|aki|renal failure after|creatinine (?:rose|jumped|doubled)|contrast nephropathy|kidneys? (?:suffered|failed|took))\\b")),
            java.util.Map.entry(
                    "thrombosis",
                    Pattern.compile(
                            "\\b(?:thrombos(?:is|ed)|acute(?:ly)? thrombo\\w+|clotted (?:off|on the table))\\b")),
            java.util.Map.entry(
                    "bleeding",
                    Pattern.compile(
                            "\\b(?:bleed(?:ing|s)?|bled|haematoma|hematoma|haemorrhage|hemorrhage|transfus\\w+|retroperitoneal|bruis\\w+|pseudo-?aneurysm)\\b")));

    private static final Pattern ACCESS = Pattern.compile(
            "\\b(?:(?:via|through|from|by|using|access(?:ed)?(?: site)? ?[:=-]?|approach ?:?|puncture (?:of )?|over)(?: (?:the|a|an|his|her|retrograde|antegrade|ipsilateral|contralateral|access|up and over|crossover))* )((?:left|right) (?:groin|femoral|cfa|common femoral|radial|brachial|popliteal|pedal|postib|dp|arm|wrist|axillary|sfa)(?: artery)?)\\b|\\b((?:left|right) (?:groin|femoral|cfa|common femoral|radial|brachial|popliteal|pedal|arm|wrist)(?: artery)?) (?:access|puncture|approach|route|stick)\\b|[,(] ?((?:left|right) (?:groin|radial|brachial))(?: artery)?(?=[,).;]|$)");

    private record Found(int start, int end, String kind) {}

    @Override
    public void read(Page page, Findings findings) {
        var coronary = page.sentences.stream().anyMatch(sentence -> sentence.has("coronary bypass"));
        var made = new ArrayList<Findings.Entry>();
        Findings.Entry last = null;
        var lastSentence = -9;
        var lastParagraph = -9;
        for (var sentence : page.sentences) {
            if (sentence.section == Sentence.Section.FAMILY) {
                continue;
            }
            var found = find(sentence, coronary);
            if (!found.isEmpty()) {
                for (var i = 0; i < found.size(); i++) {
                    var next = i + 1 < found.size() ? found.get(i + 1).start() : sentence.plain.length();
                    var from = i == 0 ? 0 : found.get(i - 1).end();
                    var entry = merge(page, sentence, found.get(i), made, last, from, next, findings);
                    if (Fit.matches(
                                    sentence.plain.substring(0, found.get(i).start()),
                                    "(?s).*\\b(?:duplex|cta|mra)\\b.*")
                            || entry.isEmpty() && examined(sentence)) {
                        last = null;
                    } else if (entry.isPresent()) {
                        last = entry.get();
                        lastSentence = sentence.number;
                        lastParagraph = sentence.paragraph;
                    }
                }
            } else if (last != null
                    && sentence.number - lastSentence <= 7
                    && sentence.paragraph - lastParagraph <= 2
                    && sentence.section != Sentence.Section.PLAN) {
                if (examined(sentence)) {
                    last = null;
                    continue;
                }
                if (follows(sentence)
                        && sentence.number - lastSentence <= 4
                        && sentence.paragraph - lastParagraph <= 1) {
                    course(page, sentence, 0, sentence.plain.length(), last);
                }
                Enclosures.read(sentence, 0, last);
            }
        }
        for (var entry : made) {
            finish(entry, findings);
        }
    }

    /** Whether an examination is spoken of from here on, whose report and images are meant. */
    private static boolean examined(Sentence sentence) {
        return Fit.matches(sentence.plain, "(?s).*\\b(?:duplex|cta|mra|radiograph)\\b.*");
    }

    private static boolean follows(Sentence sentence) {
        return Fit.matches(
                        sentence.plain,
                        "(?s).*\\b(?:wire|cross\\w*|abandon\\w*|procedure|complication\\w*|perforat\\w+|dissect\\w+|bled|bleed\\w*|haematoma|uneventful|diagnostic|pictures|look|report|images|access|groin|radial|brachial|stopped|successful\\w*|unsuccessful|failed|kidney injury|aki|reaction|hives|attempt\\w*|result|operator|emboli\\w*|it was|disc|letter)\\b.*")
                && !Fit.matches(sentence.plain, "(?s).*\\b(?:duplex|cta|mra|smok\\w*|ulcer)\\b.*");
    }

    private static List<Found> find(Sentence sentence, boolean coronary) {
        var plain = sentence.plain;
        var all = new ArrayList<Found>();
        if (!sentence.hasAny(
                "angio",
                "stent",
                "bypass",
                "endarterectomy",
                "thrombectomy",
                "amputation",
                "aneurysm",
                "evar",
                "leg off",
                "leg taken off",
                "leg cut off",
                "leg removed",
                "leg amputated",
                "lost his",
                "lost her",
                "recanali")) {
            return all;
        }
        var match = KIND.matcher(plain);
        while (match.find()) {
            var kind = kind(match);
            if (isDone(sentence, match, kind, coronary)
                    && (kind.equals("amputation") || ProcedureDone.said(sentence, match.start(), match.end()))) {
                all.add(new Found(match.start(), match.end(), kind));
            }
        }
        return all;
    }

    private static String kind(Matcher match) {
        for (var name : List.of(
                "endarterectomy", "thrombectomy", "bypass", "amputation", "angioplasty", "stent", "angiogram")) {
            if (match.group(name) != null) {
                return name;
            }
        }
        return "aneurysmRepair";
    }

    private static boolean isDone(Sentence sentence, Matcher match, String kind, boolean coronary) {
        var plain = sentence.plain;
        var clause = sentence.clauseStart(match.start());
        var before = plain.substring(clause, match.start());
        var after = plain.substring(match.end(), Math.min(plain.length(), match.end() + 60));
        var piece = plain.substring(sentence.pieceStart(match.start()), sentence.pieceEnd(match.end()));
        var attempted = Fit.matches(
                        plain.substring(Math.max(0, match.start() - 40), Math.min(plain.length(), match.end() + 60)),
                        "(?s).*\\b(?:attempt(?:ed)?|tried|underwent|had)\\b.*")
                && !Fit.matches(before, "(?s).*\\b(?:never|not|no) .*");
        if (sentence.section == Sentence.Section.PLAN || Polarity.isOthers(sentence, match.start(), match.end())) {
            return false;
        }
        if (Fit.matches(before, "(?s).*\\b(?:coronary bypass|cad|ihd|pci)\\b.*")
                && !OF_A_LEG.matcher(piece).find()) {
            return false;
        }
        if (NOT_LEG.matcher(piece).find()
                        && !Fit.matches(
                                piece, "(?s).*\\b(?:sfa|cia|eia|cfa|iliac|popliteal|leg|limb|femoral|groin)\\b.*")
                || Fit.matches(
                        plain.substring(0, match.start()),
                        "(?s).*\\b(?:coronary|heart|cardiac|arm|wrist|avf|fistula) $")) {
            return false;
        }
        if (OF_ANOTHER_ORGAN.matcher(after).find()
                || LEFT_BLANK.matcher(plain.substring(match.end())).matches()
                || TickBoxes.isTicked(plain, match.start(), match.end()).equals(Optional.of(false))) {
            return false;
        }
        if (kind.equals("bypass")
                && Fit.matches(before, "(?s).*\\b(?:his|her|the) ?")
                && !Fit.matches(
                        piece, "(?s).*\\b(?:leg|limb|graft|vein|femoral|fem-pop|popliteal|distal|left|right)\\b.*")
                && coronary) {
            return false;
        }
        if (Fit.matches(before, "(?s).*\\bin case (?:\\w+ ){0,6}")
                || kind.equals("bypass")
                        && Fit.matches(after, "(?s) (?:line|number|tel|telephone|road|phone|switchboard)\\b.*")) {
            return false;
        }
        var plan = PLAN.matcher(before);
        var underway = TAKEN_TO_THEATRE.matcher(before).find();
        if (plan.find()
                        && !underway
                        && !(attempted && Fit.matches(plan.group(), "(?s).*\\b(?:underwent|had|attempted|tried)\\b.*"))
                || PLANNED_AFTER.matcher(after).find()
                || NOT_DONE_AFTER.matcher(plain.substring(match.end())).find()
                || Fit.matches(plain.substring(0, match.start()), "(?s).*\\b(?:options?|plan|future|next) ?: ")) {
            return false;
        }
        if (Polarity.of(sentence, match.start(), match.start() + 1) == Polarity.DENIED
                || Polarity.isOpen(sentence, match.start()) && !attempted) {
            return false;
        }
        if (kind.equals("stent")
                && (OLD_STENT
                                        .matcher(before.length() > 24 ? before.substring(before.length() - 24) : before)
                                        .find()
                                && !Fit.matches(
                                        before, "(?s).*\\b(?:had|has had|received|underwent|implant\\w*|placed)\\b.*")
                        || Fit.matches(after, "(?s) ?-?(?:stenosis|restenosis|occlusion)\\b.*")
                                && Fit.matches(before, "(?s).*\\bin[ -]?")
                        || Fit.matches(before, "(?s).*\\b(?:in|intra)[ -]$"))) {
            return false;
        }
        if (kind.equals("angiogram")
                && (Fit.matches(before, "(?s).*\\b(?:ct|mr|cat|conventional) $")
                                && Fit.matches(before, "(?s).*(?:ct|mr|cat) $")
                        || Fit.matches(
                                before, "(?s).*\\b(?:coronary|cardiac|cerebral|fluorescein|pulmonary) (?:\\w+ )?$")
                        || Fit.matches(after, "(?s) (?:dye|contrast|suite|room|table|request).*"))) {
            return false;
        }
        if (kind.equals("bypass")
                && (Fit.matches(after, "(?s) (?:option|conduit|candidate|vein).*")
                        || Fit.matches(before, "(?s).*\\bgastric $"))) {
            return false;
        }
        if (kind.equals("amputation")) {
            return !Fit.matches(
                            after,
                            "(?s) (?:is |was |may be |might be |would be )?(?:possible|likely|inevitable|n/a|\\(|\\[|:|unknown).*|(?s)[ ]?[:(\\[].*")
                    && !Fit.matches(
                            before,
                            "(?s).*\\b(?:threat of|fear of|afraid of|risk of|prevent|avoid|facing|finger|hand|arm|thumb)\\b.*")
                    && !Fit.matches(after, "(?s) (?:risk|prevention|rate|free).*");
        }
        return true;
    }

    /** Makes an entry, or adds to the one that speaks of the same procedure. */
    private static Optional<Findings.Entry> merge(
            Page page,
            Sentence sentence,
            Found found,
            List<Findings.Entry> made,
            Findings.@org.jspecify.annotations.Nullable Entry last,
            int from,
            int to,
            Findings findings) {
        var plain = sentence.plain;
        var clauseFrom = Math.max(from, lastBorder(plain, from, found.start()));
        var clauseTo = Math.min(to, plain.length());
        var item = from == 0 ? clauseFrom : lastItem(plain, clauseFrom, found.start());
        var sides = sides(sentence, found, clauseFrom, clauseTo);
        var segment = segment(plain, found, clauseFrom, clauseTo);
        var date = date(page, plain, found, clauseFrom, clauseTo)
                .filter(when -> !findings.get("patient.born")
                        .map(born -> born.asString())
                        .equals(Optional.of(when.date())));
        var refersBack = Fit.matches(
                        plain.substring(0, found.start()),
                        "(?s).*\\b(?:the|that|this|his|her|same|since (?:the|his|her)|after (?:the|his|her|that)|previous) (?:\\w+ )?$")
                && date.isEmpty();
        for (var entry : made) {
            var same = entry.text("kind").equals(Optional.of(found.kind()))
                    || found.kind().equals("angioplasty")
                            && entry.text("kind").equals(Optional.of("angiogram"))
                            && refersBack;
            var agrees = (sides.isEmpty()
                            || entry.text("side").isEmpty()
                            || entry.text("side")
                                    .equals(sides.stream().findFirst().map(side -> side.word)))
                    && (segment.isEmpty()
                            || entry.text("segment").isEmpty()
                            || entry.text("segment").equals(segment))
                    && (date.isEmpty()
                            || entry.text("date").isEmpty()
                            || entry.text("date").equals(date.map(When::date)));
            if (same
                    && agrees
                    && (refersBack || date.isEmpty() || entry.text("date").isEmpty())) {
                if (Fit.matches(plain.substring(0, found.start()), "(?s).*\\b(?:duplex|cta|mra)\\b.*")) {
                    return Optional.empty();
                }
                date.filter(_ -> !entry.has("date"))
                        .ifPresent(when -> entry.put("date", when.date(), sentence.span(when.start(), when.end())));
                Places.behind(page, sentence, found.end(), plain.length())
                        .filter(_ -> !entry.has("where"))
                        .ifPresent(place -> entry.put("where", place.name(), place.words()));
                course(page, sentence, clauseFrom, clauseTo, entry);
                return Optional.of(entry);
            }
        }
        if (found.kind().equals("stent")
                && last != null
                && last.text("kind").equals(Optional.of("angioplasty"))
                && Fit.matches(
                        plain.substring(from, found.start()), "(?s)(?: ?(?:and|with|plus|\\+|/|&|then|,) ?)+(?:\\w+ )?")
                && plain.substring(0, Math.max(0, from)).endsWith("angioplasty")) {
            return Optional.of(last);
        }
        if (found.kind().equals("amputation") && Fit.matches(plain, "(?s).*\\b(?:walking on|amputation stump)\\b.*")) {
            return Optional.empty();
        }
        var run = ProcedureRun.behind(plain, found.end(), clauseTo);
        if (!run.isEmpty()) {
            return Optional.of(each(page, sentence, found, run, made, findings));
        }
        Findings.Entry first = null;
        var values = sides.isEmpty()
                ? List.of(Optional.<Side>empty())
                : sides.stream().sorted().map(Optional::of).toList();
        for (var side : values) {
            var entry = findings.add("procedures");
            var start = kindStart(plain, found, clauseFrom);
            entry.put("kind", found.kind(), sentence.span(start, found.end()));
            side.ifPresent(known -> entry.put("side", known.word, sentence.span(start, found.end())));
            segment.ifPresent(known -> entry.put("segment", known, sentence.span(start, found.end())));
            date.ifPresent(when -> entry.put("date", when.date(), sentence.span(when.start(), when.end())));
            Places.behind(page, sentence, found.end(), Math.min(plain.length(), Math.max(clauseTo, found.end() + 10)))
                    .or(() -> Places.behind(page, sentence, item, found.start()))
                    .ifPresent(place -> entry.put("where", place.name(), place.words()));
            made.add(entry);
            course(page, sentence, item, clauseTo, entry);
            if (!examined(sentence)) {
                Enclosures.read(sentence, found.end(), entry);
            }
            amputated(sentence, found, side, findings);
            first = first == null ? entry : first;
        }
        return Optional.ofNullable(first);
    }

    /** The first entry of those that a run of procedures makes. */
    private static Findings.Entry each(
            Page page,
            Sentence sentence,
            Found found,
            List<ProcedureRun.Item> run,
            List<Findings.Entry> made,
            Findings findings) {
        var entries = new ArrayList<Findings.Entry>();
        for (var item : run) {
            var entry = findings.add("procedures");
            var words = sentence.span(item.start(), item.end());
            entry.put("kind", found.kind(), sentence.span(found.start(), found.end()));
            entry.put("side", item.side().word, words);
            item.segment()
                    .filter(_ -> !found.kind().equals("bypass"))
                    .ifPresent(known -> entry.put("segment", known, words));
            page.dates.past(page, sentence.plain, item.start(), item.end()).stream()
                    .findFirst()
                    .ifPresent(
                            date -> entry.put("date", date.date().orElseThrow().toString(), words));
            amputated(sentence, found, Optional.of(item.side()), findings);
            entries.add(entry);
        }
        made.addAll(entries);
        return entries.getFirst();
    }

    /** Where the words of the second of two procedures begin: "… at Easton Hospital in 2023 and left SFA stenting". */
    private static int lastItem(String plain, int from, int to) {
        var match = Fit.of(",? (?:and|then|followed by|plus)\\b|, |; ")
                .matcher(plain)
                .region(from, to);
        var at = from;
        while (match.find()) {
            at = match.end();
        }
        return at;
    }

    private static int lastBorder(String plain, int from, int to) {
        var match = Fit.of("; ?|\\. ").matcher(plain).region(from, to);
        var at = from;
        while (match.find()) {
            at = match.end();
        }
        return at;
    }

    private static int kindStart(String plain, Found found, int from) {
        var match = Fit.of("(?:\\b(?:left|right|bilateral)\\b(?: [\\w-]+){0,3} )$")
                .matcher(plain.substring(from, found.start()));
        return match.find() ? from + match.start() : found.start();
    }

    private static Set<Side> sides(Sentence sentence, Found found, int from, int to) {
        var plain = sentence.plain;
        var inside = Fit.of("\\b(left|right|bilateral)\\b").matcher(plain.substring(found.start(), found.end()));
        if (inside.find()) {
            return of(inside.group(1));
        }
        var before = Fit.of(
                        "\\b(left|right|bilateral)\\b(?! (?:groin|radial|brachial|femoral (?:access|puncture)))(?: [\\w/-]+){0,4}[ -]*$")
                .matcher(plain.substring(from, found.start()));
        if (before.find()
                && !Fit.matches(
                        plain.substring(from + before.start(), found.start()),
                        "(?s).*\\b(?:abi|ulcer|claudication|pain|then|and (?!pop|distal))\\b.*")) {
            return of(before.group(1));
        }
        var behind = Fit.of(
                        "^(?: (?:of|to|in|on|at|for|the|his|her|an|a|attempted|graft|was|done|placed|with|vein|tried|performed|put|into|inserted|deployed|implanted|\\d{4}|was tried|surgery|operation|arterial))* ?,? ?\\(?(left|right|bilateral)\\b(?! (?:groin|radial|brachial|femoral (?:access|puncture|approach|artery access)|arm|wrist))")
                .matcher(plain.substring(found.end(), to));
        if (behind.find()) {
            return of(behind.group(1));
        }
        var groin = Fit.of("^ ?,? ?(left|right|bilateral) groins?\\b").matcher(plain.substring(found.end(), to));
        if (found.kind().equals("endarterectomy") && groin.find()) {
            return of(groin.group(1));
        }
        var later = Fit.of("^[^.;:]{0,60}[,(] ?(left|right) (?:side|leg|foot|lower limb)\\b")
                .matcher(plain.substring(found.end(), to));
        return later.find() ? of(later.group(1)) : Set.of();
    }

    private static Set<Side> of(String word) {
        return word.equals("bilateral") ? Side.both() : EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT);
    }

    private static Optional<String> segment(String plain, Found found, int from, int to) {
        if (found.kind().equals("amputation")
                || found.kind().equals("bypass")
                || found.kind().equals("angiogram")) {
            return Optional.empty();
        }
        if (found.kind().equals("aneurysmRepair")) {
            var words = plain.substring(found.start(), found.end())
                    + plain.substring(found.end(), Math.min(plain.length(), found.end() + 20));
            return words.contains("popliteal")
                            || plain.substring(Math.max(0, found.start() - 12), found.start())
                                    .contains("popliteal")
                    ? Optional.of("popliteal")
                    : Fit.matches(words, "(?s).*infrarenal.*") ? Optional.of("infrarenalAorta") : Optional.empty();
        }
        var before = Segments.in(plain, Math.max(from, found.start() - 30), found.start());
        if (!before.isEmpty()
                && Fit.matches(
                        plain.substring(before.getLast().end(), found.start()),
                        "(?: (?:artery|and|balloon|primary|drug[- ]coated|covered|kissing|left|right|segment|pta|\\w+))?[ /-]*")) {
            return Optional.of(before.getLast().segment());
        }
        var behind = Segments.in(plain, found.end(), Math.min(to, found.end() + 45));
        if (!behind.isEmpty()
                && Fit.matches(
                        plain.substring(found.end(), behind.getFirst().start()),
                        ",?(?: (?:of|to|in|on|for|the|his|her|a|left|right|attempted|placed|put|into|inserted|deployed|implanted|was|an|mid|distal|proximal|bilateral))* ?")) {
            return Optional.of(behind.getFirst().segment());
        }
        return Optional.empty();
    }

    private record When(String date, int start, int end) {}

    private static Optional<When> date(Page page, String plain, Found found, int from, int to) {
        for (var date : page.dates.past(page, plain, found.end(), Math.min(to, found.end() + 90))) {
            if (!Fit.matches(
                    plain.substring(found.end(), date.start()),
                    "(?s).*\\b(?:then|duplex|cta|mra|now|since then|review\\w*|seen|until|postponed|cancelled)\\b.*")) {
                return Optional.of(new When(date.date().orElseThrow().toString(), date.start(), date.end()));
            }
        }
        var before = page.dates.past(page, plain, from, found.start()).stream().reduce((_, two) -> two);
        return before.filter(date -> found.start() - date.end() < 60
                        && !Fit.matches(plain.substring(0, date.start()), "(?s).*\\b(?:dob|born|birth|b)\\b[ :.]*")
                        && !Fit.matches(
                                plain.substring(date.end(), found.start()),
                                "(?s).*\\b(?:duplex|cta|mra|shows?|showed)\\b.*"))
                .map(date -> new When(date.date().orElseThrow().toString(), date.start(), date.end()));
    }

    private static void course(Page page, Sentence sentence, int from, int to, Findings.Entry entry) {
        var plain = sentence.plain.substring(0, to);
        var kind = entry.text("kind").orElse("");
        var failed = region(FAILED, plain, from);
        var incomplete = region(INCOMPLETE, plain, from);
        var completed = region(COMPLETED, plain, from);
        var diagnostic = region(DIAGNOSTIC, plain, from);
        if (diagnostic.isPresent()
                && (kind.equals("angiogram") || kind.isEmpty())
                && !plain.substring(
                                Math.max(0, diagnostic.get().start() - 10),
                                diagnostic.get().start())
                        .contains("not ")) {
            entry.put("intent", "diagnostic", sentence.span(diagnostic.get()));
        }
        if (!kind.equals("amputation")) {
            if (failed.isPresent()
                    && !Polarity.isOpen(sentence, failed.get().start())
                    && !(failed.get().group().equals("failed")
                            && Fit.matches(
                                    plain.substring(failed.get().end()), "(?s) (?:to attend|exercise|medical).*"))) {
                entry.put("outcome", "failed", sentence.span(failed.get()));
                if (CROSSING.matcher(plain.substring(from)).find()) {
                    entry.replace("intent", "treatment", sentence.span(failed.get()));
                }
            } else if (incomplete.isPresent()
                    && !Polarity.isOpen(sentence, incomplete.get().start())) {
                entry.put("outcome", "incomplete", sentence.span(incomplete.get()));
            } else if (completed.isPresent() && Polarity.of(sentence, completed.get()) == Polarity.STATED) {
                entry.put("outcome", "completed", sentence.span(completed.get()));
            }
        }
        for (var complication : COMPLICATIONS) {
            var match = region(complication.getValue(), plain, from);
            if (match.isEmpty() || entry.has("complication")) {
                continue;
            }
            var none = complication.getKey().equals("none");
            if (!none
                    && (Polarity.isDenied(
                                    sentence, match.get().start(), match.get().end())
                            || Fit.matches(
                                    plain.substring(0, match.get().start()),
                                    "(?s).*\\b(?:risks? of|if|avoid|prevent)\\b[^.;]{0,30}")
                            || Fit.matches(plain.substring(match.get().end()), "(?s) (?:risk|disorder).*")
                            || complication.getKey().equals("bleeding")
                                    && Fit.matches(plain, "(?s).*\\b(?:bleeding disorder|ulcer)\\b.*")
                            || complication.getKey().equals("thrombosis")
                                    && Fit.matches(plain, "(?s).*\\b(?:aneurysm|deep vein|dvt|graft|stent)\\b.*"))) {
                continue;
            }
            if (!none && kind.equals("amputation") || kind.isEmpty()) {
                continue;
            }
            entry.put("complication", complication.getKey(), sentence.span(match.get()));
        }
        var access = ACCESS.matcher(plain).region(from, plain.length());
        if (access.find()) {
            var group = access.group(1) != null ? 1 : access.group(2) != null ? 2 : 3;
            var words = sentence.span(access, group);
            entry.put("accessSite", page.original(words).replaceAll("\\s+", " "), words);
        }
    }

    private static Optional<Matcher> region(Pattern pattern, String plain, int from) {
        var match = pattern.matcher(plain)
                .region(Math.min(from, plain.length()), plain.length())
                .useTransparentBounds(true);
        return match.find() ? Optional.of(match) : Optional.empty();
    }

    /** An amputation is also a fact of its leg. */
    private static void amputated(Sentence sentence, Found found, Optional<Side> side, Findings findings) {
        if (!found.kind().equals("amputation") || side.isEmpty()) {
            return;
        }
        var behind = sentence.plain.substring(found.end(), Math.min(sentence.plain.length(), found.end() + 22));
        var words = (sentence.plain.substring(found.start(), found.end())
                        + (Fit.matches(behind, "(?s) (?:of|through|at|below|above)\\b[^,.;]*.*")
                                ? behind.split("[,.;]", 0)[0]
                                : ""))
                .replace('-', ' ')
                .replace("the knee", "knee");
        var before = sentence.plain.substring(Math.max(0, found.start() - 25), found.start());
        var level = words.contains("below knee")
                ? "belowKnee"
                : words.contains("above knee")
                        ? "aboveKnee"
                        : words.contains("forefoot") || words.contains("transmetatarsal")
                                ? "forefoot"
                                : Fit.matches((before + words), "(?s).*\\b(?:toe|ray|hallux|digit\\w*)s?\\b.*")
                                        ? "toe"
                                        : "";
        if (!level.isEmpty()) {
            findings.put(side.get().leg("amputation"), level, sentence.span(found.start(), found.end()));
        }
    }

    private static void finish(Findings.Entry entry, Findings findings) {
        if (entry.text("kind").isEmpty()) {
            findings.remove("procedures", entry);
        }
    }
}
