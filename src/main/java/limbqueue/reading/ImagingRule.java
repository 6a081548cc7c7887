package limbqueue.reading;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Examinations by imaging that were done. What is only planned, asked for or awaited is not entered; a catheter angiogram is a procedure. */
final class ImagingRule implements Rule {

    private static final Pattern KIND = Pattern.compile("\\b(duplex|cta|mra|radiograph)\\b");

    /** "Osteomyelitis on films", where no examination is named. */
    private static final Pattern BONE_FILMS = Pattern.compile(
            "\\b(?:osteomyelitis|fracture|bone|calcaneus|gas)\\b[^.;]{0,30} on (?:plain |recent |the |today's |foot )*(films?)\\b|\\b(?:foot|plain|bone) (films?) (?:show|showed|done|taken|normal|negative|of)\\b");

    private static final Pattern OF_A_VISIT = Pattern.compile(
            "\\b(?:seen|visit|visited|review|reviewed|dob|born|clinic|admitted|discharged)(?: on)? ?:? ?$");
    private static final Pattern DAY_OF_REPORT = Pattern.compile(
            "(?:date of (?:scan|exam|examination|study)|(?:scan|exam|examination|study) date|(?:scanned|examined|performed)(?: on)?|date (?:scanned|examined|performed)) ?:? ?");

    private static final Pattern PLANNED_BEFORE = Pattern.compile(
            "\\b(?:should you (?:want|wish|need)|wish(?:es|ed)? for|please|arrange[ds]?|arranging|request(?:ed|ing)?|order(?:ed|ing)?|book(?:ed|ing)?|plan(?:ned|ning|s)?(?: for)?|await(?:s|ing|ed)?|refer(?:red)? for|schedul\\w+|consider(?:ing|ed)?|suggest(?:s|ed)?|recommend(?:s|ed)?|needs?|would (?:like|benefit|need|suggest|recommend)|should have|will (?:have|need|undergo|get|be having)|may need|to have|due (?:a|for)|for|pending|wait(?:ing)? for|list(?:ed)? for|no|without|declin\\w+|refus\\w+|cannot have|not had|hasn't had|never had|ask(?:ed|ing)? for|is having|going for|next|further|repeat|if|could you|can you|propos\\w+|want(?:s|ed)?|hope\\w* for|organis\\w+|organiz\\w+|get(?:ting)?(?: a)?|before|until|unless|facility for|access to|not available|isn't available)\\b(?:(?! (?:showed|shows|done|and had))[^.;:,]){0,40}$");
    private static final Pattern NEXT_STEP = Pattern.compile(
            "^(?: of [^,.;]{1,30})? (?:is|would be|seems|may be|might be) (?:probably |surely )?(?:the |a |an )?(?:next|sensible|logical|reasonable|obvious|needed|helpful|worth\\w*|useful|indicated|appropriate)\\b");

    /** "Imaging requested: duplex". */
    private static final Pattern PLANNED_LABEL =
            Pattern.compile("\\b(?:requested|booked|ordered|planned|awaited|wanted|pending|to follow) ?: ?(?:an? )?$");

    private static final Pattern PLANNED_AFTER = Pattern.compile(
            "^ (?:of|for) [^,.;:]{1,40}? (?:was|is|has been|have been|will be) (?:requested|ordered|booked|planned|asked for|awaited|arranged|refused|declined|cancelled)\\b|^[^.;]{0,60}\\b(?:has not|hasn't|have not) (?:yet )?(?:taken place|been done|happened)\\b|^(?: of (?:the )?(?:left |right )?\\w+)? to (?:exclude|rule out|look for)\\b|^(?: without \\w+)?(?: (?:foot|toe|heel|ankle|of|for|scan|leg|both|bilateral|the|left|right|lower|limb|limbs|arteries|study|legs|his|her|aorta|and|to|with|w|run-?off|abdomen|pelvis))* ?[:-]? ?\\(?(?:(?:only if|deliberately|will be|can be|could be|is|are|was|were|has been|have been|had been|to be|will be|should be|being|now|not yet(?! reported)|not|also|already|still) ){0,3}(?:offered|cancelled|postponed|deferred|refused|outstanding|not attended|(?:is )?unavailable|(?:or \\w+ )?(?:at your|as you (?:see|wish|think|prefer)|whichever|if you)\\b|done if|made if|possible|request(?:ed)?|req'?d|req\\b|order(?:ed)?|book(?:ed)?|arranged|pending|await(?:ed|ing)|planned|schedul\\w+|sent\\b|due\\b|suggested|recommended|advised|to follow|considered|referral|next (?:week|month)|if |discussed|thought of|talked of|mentioned|needed|required|would|could|might|please|not (?:done|performed|available here|yet(?! reported))|not yet(?! reported)|tomorrow|to be|appointment|declined|asked for|wanted|is not available|isn't available|unavailable here|appt|list)");
    /** "CTA with this indication has been asked of radiology". */
    private static final Pattern PLANNED_LATER = Pattern.compile(
            "^[^.;:,]{0,60}?\\b(?:is|was|has been|have been|had been|will be|to be)(?: (?:now|also|already|urgently|only|still))* "
                    + "(?:requested|ordered|booked|arranged|asked (?:for|of)|applied for|awaited|pending|planned|scheduled|refused|declined|cancelled|considered|suggested|recommended|postponed|deferred|outstanding)\\b");

    /** "Requested by the GP in January showed", "was requested and performed". */
    private static final Pattern ASKED_AND_DONE = Pattern.compile(
            "^ (?:(?:was|is|has been|had been|have been) )?(?:requested|ordered|booked|arranged|sent)\\b[^.;:]{0,50}?\\b(?:showed|shows|revealed|demonstrated|(?:and|then) (?:performed|done|carried out|taken|reported))\\b");

    private static final Pattern DONE = Pattern.compile(
            "\\b(?:show(?:s|ed|n|ing)?|demonstrat\\w+|reveal\\w*|report(?:ed|s)?|confirm\\w*|enclosed|attached|done|performed|dated|taken|found|suggest(?:s|ed)|of \\d|on \\d|was (?:normal|carried|performed|done)|results?|findings|impression|images|underwent|had (?:a|an)|in (?:19|20)\\d\\d|with (?:this|you)|agrees?|excludes?|excluded|:|=)\\b|[:]");

    @Override
    public void read(Page page, Findings findings) {
        Map<String, Findings.Entry> known = new LinkedHashMap<>();
        Findings.Entry last = null;
        var lastSentence = -9;
        for (var sentence : page.sentences) {
            if (sentence.section == Sentence.Section.FAMILY || sentence.section == Sentence.Section.PLAN) {
                continue;
            }
            var kind = KIND.matcher(sentence.plain);
            while (kind.find()) {
                if (isPlanned(sentence, kind.start(), kind.end())
                        || TickBoxes.isTicked(sentence.plain, kind.start(), kind.end())
                                .equals(Optional.of(false))
                        || Polarity.isOthers(sentence, kind.start(), kind.end())
                        || isOther(sentence, kind.start(), kind.end(), kind.group(1))) {
                    continue;
                }
                var entry = known.get(kind.group(1));
                if (entry != null && !isAnother(page, sentence, kind.start(), kind.end(), entry)) {
                    details(page, sentence, kind.start(), kind.end(), entry);
                    last = entry;
                    lastSentence = sentence.number;
                    continue;
                }
                entry = findings.add("imaging");
                known.put(kind.group(1), entry);
                entry.put("kind", kind.group(1), sentence.span(kind));
                details(page, sentence, kind.start(), kind.end(), entry);
                last = entry;
                lastSentence = sentence.number;
            }
            if (!known.containsKey("radiograph")) {
                films(sentence).ifPresent(words -> {
                    var entry = findings.add("imaging");
                    known.put("radiograph", entry);
                    entry.put("kind", "radiograph", words);
                });
            }
            if (last != null
                    && sentence.number - lastSentence <= 8
                    && lastSentence != sentence.number
                    && !Fit.matches(
                            sentence.plain, "(?s).*\\b(?:angiogram|angioplasty|bypass|operation|procedure)\\b.*")) {
                Enclosures.read(sentence, 0, last);
            }
            dayOfReport(page, sentence, findings);
            if (sentence.hasAny("angiogram", "angioplasty") && lastSentence != sentence.number) {
                last = null;
            }
        }
    }

    /** "Date of scan: 20 February 2026" in the report of one examination. */
    private static void dayOfReport(Page page, Sentence sentence, Findings findings) {
        for (var date : page.dates.in(sentence.plain)) {
            var imaging = findings.entries("imaging");
            if (date.full()
                    && imaging.size() == 1
                    && DAY_OF_REPORT
                            .matcher(sentence.plain.substring(0, date.start()))
                            .matches()) {
                imaging.getFirst()
                        .put("date", date.date().orElseThrow().toString(), sentence.span(date.start(), date.end()));
            }
        }
    }

    private static Optional<Span> films(Sentence sentence) {
        var films = BONE_FILMS.matcher(sentence.plain);
        if (!films.find() || Polarity.isOpen(sentence, films.start())) {
            return Optional.empty();
        }
        return Optional.of(sentence.span(films, films.group(1) != null ? 1 : 2));
    }

    /** Whether the same kind of imaging on another day is spoken of. */
    private static boolean isAnother(Page page, Sentence sentence, int start, int end, Findings.Entry entry) {
        var date = page.dates.past(page, sentence.plain, start, Math.min(sentence.plain.length(), end + 40)).stream()
                .findFirst();
        return date.isPresent()
                && entry.text("date").isPresent()
                && !entry.text("date")
                        .get()
                        .equals(date.get().date().orElseThrow().toString());
    }

    static boolean isPlanned(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        var before = plain.substring(sentence.clauseStart(start), start);
        var after = plain.substring(end, Math.min(plain.length(), end + 90));
        if (PLANNED_AFTER.matcher(after).find()
                        && !ASKED_AND_DONE.matcher(after).find()
                || PLANNED_LATER.matcher(after).find() && !DONE.matcher(after).find()
                || NEXT_STEP.matcher(after).find()
                || PLANNED_LABEL.matcher(plain.substring(0, start)).find()
                || sentence.section == Sentence.Section.PLAN) {
            return true;
        }
        var planned = PLANNED_BEFORE.matcher(before);
        if (planned.find()
                && !(Fit.matches(planned.group(), "(?s)await\\w* (?:the )?(?:result|report)s? (?:of|from) .*")
                        || Fit.matches(after, "(?s) done (?:on )?\\d.*"))) {
            var word = planned.group();
            if (Fit.matches(word, "(?s)(?:for|no|please|before|needs?)\\b.*")
                    && !Fit.matches(before, "(?s).*\\b(?:hold|held|stop|withh\\w+|omit)\\b[^.;]{0,40}\\bfor .*")
                    && !Fit.matches(word, "(?s)(?:please|no|needs?)\\b.*")) {
                return Fit.matches(
                        before,
                        "(?s).*\\b(?:refer\\w*|list\\w*|wait\\w*|book\\w*|him|her|due|plan\\w*|ask\\w*|sent|down|date|appointment|slot|form|grateful|thankful|glad|request\\w*|hop\\w*|push\\w*|need) for [^.;]*");
            }
            return !(word.startsWith("please") && Fit.matches(word, "(?s).*\\b(?:find|see)\\b.*"))
                    && !(word.startsWith("repeat") && DONE.matcher(after).find())
                    && !word.startsWith("next")
                    && !(word.startsWith("request")
                            && DONE.matcher(after).find()
                            && Fit.matches(after, "(?s).{0,30}(?:show|found|report).*"));
        }
        return Polarity.isOpen(sentence, start) && !DONE.matcher(after).find();
    }

    /** Words that name an examination without one having been done of this patient's legs. */
    private static boolean isOther(Sentence sentence, int start, int end, String kind) {
        var plain = sentence.plain;
        var after = plain.substring(end, Math.min(plain.length(), end + 50));
        var before = plain.substring(Math.max(0, start - 40), start);
        if (Fit.matches(
                        after,
                        "(?s) (?:machine|clinic|department|room|request|form|surveillance programme|dye|contrast|allerg|lab\\b|technician|service).*")
                || Fit.matches(
                        before,
                        "(?s).*\\b(?:carotid|renal|venous|vein|cardiac|chest|allerg\\w+ to|coronary|dye for|contrast for) $")
                || Fit.matches(
                        after,
                        "(?s) (?:of (?:the |his |her )?)?(?:carotid|chest|coronary|pulmonary|renal|vein|venous|lung|spine|lumbar|hip|knee|hand|arm|shoulder|abdomen showed).*")) {
            return true;
        }
        if (kind.equals("radiograph")
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:foot|toe|heel|osteomyelitis|metatarsal|forefoot|calcaneus|ankle|bone|phalanx|leg)\\b.*")) {
            return true;
        }
        return Polarity.isDenied(sentence, start, end)
                && !DONE.matcher(plain.substring(end, Math.min(plain.length(), end + 120)))
                        .find();
    }

    private static void details(Page page, Sentence sentence, int start, int end, Findings.Entry entry) {
        var plain = sentence.plain;
        var to = nextKind(plain, end);
        for (var date : page.dates.past(page, plain, end, Math.min(to, end + 80))) {
            if (Fit.matches(plain.substring(end, date.start()), "(?s)[^;:\\d]{0,60}(?:\\d{1,2} ?(?:cm|mm))?")
                    && !Fit.matches(
                            plain.substring(end, date.start()),
                            "(?s).*\\b(?:show\\w*|stenosis|occlusion|since|before|after|until|stent|born|planned|booked)\\b.*")) {
                entry.put("date", date.date().orElseThrow().toString(), sentence.span(date.start(), date.end()));
                break;
            }
        }
        var lead = page.dates.past(page, plain, 0, start).stream().reduce((_, two) -> two);
        if (!entry.has("date")
                && lead.isPresent()
                && !OF_A_VISIT.matcher(plain.substring(0, lead.get().start())).find()
                && (Fit.matches(
                                plain.substring(lead.get().end(), start),
                                "(?s)[ :,-]*(?:\\w+ )?(?:he |she )?(?:had |underwent )?(?:an? )?(?:\\w+ )?")
                        || Fit.matches(plain.substring(0, lead.get().start()), "(?s)(?:on |dated )?(?:the )?")
                                && plain.substring(lead.get().end(), start).length() < 40)) {
            entry.put(
                    "date",
                    lead.get().date().orElseThrow().toString(),
                    sentence.span(lead.get().start(), lead.get().end()));
        }
        side(plain, sentence, start, end, to, entry);
        where(page, sentence, end, to, entry);
        var first = nextKind(plain, 0) == start;
        Enclosures.read(sentence, first ? 0 : start, entry);
    }

    private static int nextKind(String plain, int end) {
        var match = KIND.matcher(plain).region(end, plain.length());
        return match.find() ? match.start() : plain.length();
    }

    private static void side(String plain, Sentence sentence, int start, int end, int to, Findings.Entry entry) {
        var behind = Fit.of(
                        "^(?: \\d[\\d/.-]*| scan| study| of| on| the| his| her| both|,|:| \\(| dated [^,]{0,20},| lower| limb)* ?(left|right)(?: (?:leg|lower (?:limb|leg|extremity)|foot|side|limb|great toe|heel|forefoot|toe|\\d\\w* toe))")
                .matcher(plain.substring(end, to));
        if (behind.find()) {
            entry.put("side", behind.group(1), sentence.span(end + behind.start(1), end + behind.end()));
            return;
        }
        var before = Fit.of("\\b(left|right)(?: (?:leg|lower limb|foot|arterial|side|le|heel|toe))? $")
                .matcher(plain.substring(0, start));
        if (before.find()) {
            entry.put("side", before.group(1), sentence.span(before.start(1), start - 1));
            return;
        }
        var parenthesis = Fit.of("^[^.;]{0,60}?, (left|right) (?:leg|foot|lower limb|side)\\b")
                .matcher(plain.substring(end, to));
        if (parenthesis.find()) {
            entry.put("side", parenthesis.group(1), sentence.span(end + parenthesis.start(1), end + parenthesis.end()));
        }
    }

    private static void where(Page page, Sentence sentence, int end, int to, Findings.Entry entry) {
        Places.behind(page, sentence, end, Math.min(to, end + 110))
                .ifPresent(place -> entry.put("where", place.name(), place.words()));
    }
}
