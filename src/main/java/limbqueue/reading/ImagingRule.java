package limbqueue.reading;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Examinations by imaging that were done. What is only planned, asked for or awaited is not entered; a catheter angiogram is a procedure. */
final class ImagingRule implements Rule {

    private static final Pattern KIND = Pattern.compile("\\b(duplex|cta|mra|radiograph)\\b");

    private static final Pattern PLANNED_BEFORE = Pattern.compile(
            "\\b(?:please|arrange[ds]?|arranging|request(?:ed|ing)?|order(?:ed|ing)?|book(?:ed|ing)?|plan(?:ned|ning|s)?(?: for)?|await(?:s|ing|ed)?|refer(?:red)? for|schedul\\w+|consider(?:ing|ed)?|suggest(?:s|ed)?|recommend(?:s|ed)?|needs?|would (?:like|benefit|need|suggest|recommend)|should have|will (?:have|need|undergo|get|be having)|may need|to have|due (?:a|for)|for|pending|wait(?:ing)? for|list(?:ed)? for|no|without|declin\\w+|refus\\w+|cannot have|not had|hasn't had|never had|ask(?:ed|ing)? for|is having|going for|next|further|repeat|if|could you|can you|propos\\w+|want(?:s|ed)?|hope\\w* for|organis\\w+|organiz\\w+|get(?:ting)?(?: a)?|before|until|unless|facility for|access to|not available|isn't available)\\b(?:(?! (?:showed|shows|done|and had))[^.;:,]){0,40}$");
    private static final Pattern PLANNED_AFTER = Pattern.compile(
            "^(?: of (?:the )?(?:left |right )?\\w+)? to (?:exclude|rule out|look for)\\b|^(?: without \\w+)?(?: (?:foot|toe|heel|ankle|of|for|scan|leg|both|bilateral|the|left|right|lower|limb|limbs|arteries|study|legs|his|her|aorta|and|to|runoff|abdomen|pelvis))* ?[:-]? ?\\(?(?:(?:only if|deliberately|is|are|was|were|has been|have been|to be|will be|should be|being|now|not yet|not|also|already|still) ){0,3}(?:request(?:ed)?|req'?d|req\\b|order(?:ed)?|book(?:ed)?|arranged|pending|await(?:ed|ing)|planned|schedul\\w+|sent\\b|due\\b|suggested|recommended|advised|to follow|considered|referral|next (?:week|month)|if |needed|required|would|could|might|please|not (?:done|performed|available here|yet)|not yet|tomorrow|to be|appointment|declined|asked for|wanted|is not available|isn't available|unavailable here|appt|list)");
    private static final Pattern DONE = Pattern.compile(
            "\\b(?:show(?:s|ed|n|ing)?|demonstrat\\w+|reveal\\w*|report(?:ed|s)?|confirm\\w*|enclosed|attached|done|performed|dated|found|suggest(?:s|ed)|of \\d|on \\d|was (?:normal|carried|performed|done)|results?|findings|impression|images|underwent|had (?:a|an)|in (?:19|20)\\d\\d|with (?:this|you)|agrees?|excludes?|excluded|:|=)\\b|[:]");

    private static final Pattern HELD = Pattern.compile(
            "\\b(?:enclosed|attached|with this letter|accompan\\w+|included|herewith|appended|overleaf|available|(?:which )?(?:i|we) (?:enclose|attach)|of which (?:i|we) (?:enclose|attach)|with you|sent with|faxed (?:with|to)|to hand|on (?:disc|disk|cd)|on the (?:disc|disk|cd)|copy (?:enclosed|attached)|pasted below|follows below|uploaded|transferred|on pacs|sent (?:to you|over|across))\\b");
    private static final Pattern NOT_HELD = Pattern.compile(
            "\\b(?:not (?:yet )?(?:available|received|arrived|reached|enclosed|attached|been (?:received|sent|able)|to hand|seen|had|with)|isn't (?:available|attached|enclosed)|unavailable|hasn't (?:arrived|been (?:sent|received)|reached|come)|hasn't (?:yet )?(?:arrived|received|come)|never (?:received|arrived|came|sent|reached)|don't have|have no|no (?:report|images?|letter|films?|copy|disc)|without (?:a )?report|await(?:ed|ing)|to follow|cannot (?:get|obtain)|missing|have not|(?:i|we) (?:have )?hasn't|still waiting for|lost)\\b");
    private static final Pattern REPORT = Pattern.compile("\\b(?:reports?|results?)\\b");
    private static final Pattern IMAGES = Pattern.compile("\\b(?:images?|films?|disc|disk|cd|pictures)\\b");

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
            if (last != null
                    && sentence.number - lastSentence <= 3
                    && lastSentence != sentence.number
                    && !Fit.matches(
                            sentence.plain,
                            "(?s).*\\b(?:angiogram|angioplasty|stent|bypass|operation|procedure)\\b.*")) {
                held(sentence, 0, last);
            }
            if (sentence.hasAny("angiogram", "angioplasty") && lastSentence != sentence.number) {
                last = null;
            }
        }
    }

    /** Whether the same kind of imaging on another day is spoken of. */
    private static boolean isAnother(Page page, Sentence sentence, int start, int end, Findings.Entry entry) {
        var date = page.dates.in(sentence.plain, start, Math.min(sentence.plain.length(), end + 40)).stream()
                .filter(Dates.Found::full)
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
        if (PLANNED_AFTER.matcher(after).find() || sentence.section == Sentence.Section.PLAN) {
            return true;
        }
        var planned = PLANNED_BEFORE.matcher(before);
        if (planned.find()) {
            var word = planned.group();
            if (Fit.matches(word, "(?s)(?:for|no|please|before|needs?)\\b.*")
                    && !Fit.matches(word, "(?s)(?:please|no|needs?)\\b.*")) {
                return Fit.matches(
                        before,
                        "(?s).*\\b(?:refer\\w*|list\\w*|wait\\w*|book\\w*|him|her|due|plan\\w*|ask\\w*|sent|down|date|appointment|slot|form) for [^.;]*");
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
        return Polarity.isDenied(sentence, start, end) && !DONE.matcher(after).find();
    }

    private static void details(Page page, Sentence sentence, int start, int end, Findings.Entry entry) {
        var plain = sentence.plain;
        var to = nextKind(plain, end);
        for (var date : page.dates.in(plain, end, Math.min(to, end + 80))) {
            if (date.full()
                    && Fit.matches(plain.substring(end, date.start()), "(?s)[^;:\\d]{0,60}(?:\\d{1,2} ?(?:cm|mm))?")
                    && !Fit.matches(
                            plain.substring(end, date.start()),
                            "(?s).*\\b(?:show\\w*|stenosis|occlusion|since|before|after|until|stent|born|planned|booked)\\b.*")) {
                entry.put("date", date.date().orElseThrow().toString(), sentence.span(date.start(), date.end()));
                break;
            }
        }
        var lead = page.dates.in(plain, 0, start).stream()
                .filter(Dates.Found::full)
                .reduce((_, two) -> two);
        if (!entry.has("date")
                && lead.isPresent()
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
        held(sentence, start, entry);
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

    /** Whether report and images came with the letter. */
    static void held(Sentence sentence, int from, Findings.Entry entry) {
        var plain = sentence.plain;
        held(sentence, REPORT, from, "reportHeld", entry, IMAGES);
        held(sentence, IMAGES, from, "imagesHeld", entry, REPORT);
        if (!Fit.matches(plain, "(?s).*\\b(?:reports?|images?|films?|disc|disk|cd|pictures)\\b.*")) {
            var enclosed = Fit.of("\\b(?:duplex|cta|mra|scan)\\b[^.;]{0,20}\\b(?:enclosed|attached)\\b")
                    .matcher(plain);
            if (enclosed.find()) {
                entry.put("reportHeld", true, sentence.span(enclosed));
            }
        }
    }

    private static void held(
            Sentence sentence, Pattern what, int from, String field, Findings.Entry entry, Pattern other) {
        var plain = sentence.plain;
        var match = what.matcher(plain).region(Math.min(from, plain.length()), plain.length());
        while (match.find()) {
            var start = Math.max(sentence.clauseStart(match.start()), match.start() - 45);
            var end = Math.min(sentence.clauseEnd(match.start()), match.end() + 55);
            var next = other.matcher(plain).region(match.end(), end);
            var behindEnd = end;
            if (next.find()
                    && !Fit.matches(
                            plain.substring(match.end(), next.start()),
                            " ?(?:and|or|nor|, nor|&|/)(?: the| no| nor)? ?")) {
                behindEnd = next.start();
            }
            var behind = plain.substring(match.end(), behindEnd);
            var comma = behind.indexOf(';');
            behind = comma >= 0 ? behind.substring(0, comma) : behind;
            var ahead = plain.substring(start, match.start());
            if (NOT_HELD.matcher(behind).find()
                    || Fit.of(
                                    "\\b(?:no|without(?: a| the)?|not (?:yet )?(?:received|seen|had|have)(?: (?:the|a|any|his|her|their))?|don't have(?: (?:the|a|any|their|his|her))?|have not (?:got|had|seen|received)(?: (?:the|a|any|their))?|hasn't (?:received|seen|had)(?: (?:the|a|any|their))?|have no|hasn't (?:yet )?been (?:sent|given|shown)(?: (?:the|a|any|their))?|hasn't (?:yet )?(?:had|got)(?: (?:the|a|any|their))?|never (?:received|had|seen|sent)(?: (?:the|a|any|us|me))*|awaiting(?: the)?|cannot (?:get|find|obtain)(?: (?:the|a|any|their))?|neither|without) (?:\\w+ )?(?:(?:reports?|images|letter),? (?:or|nor|and)(?: the| any)? )?$")
                            .matcher(ahead)
                            .find()) {
                entry.put(
                        field,
                        false,
                        sentence.span(Math.max(start, match.start()), Math.min(match.end() + 1, plain.length())));
                return;
            }
            if (HELD.matcher(behind).find()
                    || Fit.matches(
                                    ahead,
                                    "(?s).*\\b(?:enclos\\w+|attach\\w*|includ\\w+|with|herewith|i have|see)(?: (?:is|the|a|please find|his|her|copy of|full|both|find|you|to this|also|send|sent))* (?:(?:images|report)s? and (?:the )?)?$")
                            && Fit.matches(ahead, "(?s).*\\b(?:enclos\\w+|attach\\w*|includ\\w+|herewith)\\b.*")) {
                entry.put(field, true, sentence.span(match));
                return;
            }
        }
    }

    static Set<Side> none() {
        return EnumSet.noneOf(Side.class);
    }

    static Optional<String> nothing() {
        return Optional.empty();
    }
}
