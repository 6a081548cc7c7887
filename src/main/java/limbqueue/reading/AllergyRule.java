package limbqueue.reading;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** What the patient reacts to, and how badly. "No known allergies" has no place in the format. */
final class AllergyRule implements Rule {

    private static final Pattern CONTRAST = Pattern.compile(
            "\\b(?:iv |intravenous |x[ -]?ray |radiograph |iodinated |iodine |radiographic |radiological |radiology |ct |cta |angiogram |angiographic |radio)?-?(?:iodinated |iodine )?contrast(?: (?:media|medium|dye|agents?|material))?\\b|\\b(?:iodinated dye|x[ -]?ray dye|radiograph dye|ct dye|cta dye|angiogram dye|iv dye|contrast)\\b");
    private static final Pattern OTHER = Pattern.compile(
            "\\b(pen(?=:? ?allerg)|(?<=allergy: |allergic to |allergy to |allergic )pen(?=[ ,.;(:-]|$)|pcn|latex|iodine|iodide|povidone[ -]iodine|sulfa(?: drugs)?|sulpha(?: drugs)?|sulfonamides?|sulphonamides?|penicillins?|shellfish|elastoplast|plasters?|sticking plaster|adhesive(?: tape)?|micropore|tape|eggs?|nuts?|peanuts?|nickel|chlorhexidine|nsaids?|statins?|opioids?|opiates?|bee stings?|wasp stings?|cephalosporins?|macrolides?|tetracyclines?|quinolones?|ace inhibitors?|acei|kiwi|pollen|strawberries|metal|zinc|silver|honey|lanolin)\\b");
    /** Ends what somebody is allergic to: "allergic to codeine and takes paracetamol". */
    private static final String TAKES =
            "\\b(?:takes?|taking|uses|using|(?:is|he's|she's|now|currently|so|therefore|and|remains|stays) on|medication|medicines?|meds|current)\\b";

    private static final Pattern SAYS = Pattern.compile(
            "\\b(?:allergy|allergic|allergen|anaphyla\\w+|hypersensitiv\\w+|reacts? (?:badly |severely )?to|reacted (?:badly |severely )?to|reactions? to|adverse reactions?|intoleran\\w+|rash|hives|urticaria|angioedema|bronchospasm|wheez\\w+|itch\\w*|broke out|breaks out|comes? (?:him |her )?out in|came out in|collaps\\w+|brings (?:him|her) out)\\b");
    private static final Pattern NONE = Pattern.compile(
            "\\b(?:nkda|nka|nil known|no known|none known|no allergy|allergy ?[:-]? ?(?:none|nil|no\\b|nk)|not (?:known to be )?allergic|isn't allergic|no (?:drug |medication |food |contrast |other )+allerg\\w+|denies (?:any )?(?:drug |medication )?allergy)\\b");

    /** An entry of the notes that proved wrong. */
    private static final Pattern REFUTED = Pattern.compile(
            "^[^.;]{0,80}\\b(?:(?:has been|was) (?:removed|refuted|ruled out|disproved|de-?labelled|withdrawn)|proved (?:wrong|false)|was (?:an error|a mistake|his wife's|her husband's|another patient's))\\b");

    /** "Pre-medicate with prednisone": what guards against the reaction. */
    private static final Pattern PREMEDICATION = Pattern.compile(
            "\\b(?:pre-? ?med\\w*|premed\\w*|cover(?:ed)?|prophyla\\w+|treated|steroid prep)\\b(?: (?:with|w|by|using|needed|required|:))*[^.;]{0,30}$");

    private static final Pattern TOLERATED = Pattern.compile(
            "\\b(?:had|has had|tolerated|received|given) (?:iv |the )?contrast\\b[^.;]{0,40}\\b(?:without|no) (?:\\w+ )?(?:problems?|reaction|issues?|trouble|incident)\\b"
                    + "|\\bcontrast\\b[^.;]{0,20}\\b(?:was |well )?tolerated\\b|\\btolerated (?:iv )?contrast\\b|\\bcontrast ?[:-] ?(?:none|no\\b|nil|ok|no previous)");

    private static final Pattern SEVERE = Pattern.compile(
            "\\b(?:anaphyla\\w+|collaps\\w+|intubat\\w+|cardiac arrest|shock|stevens|icu|itu|angio-?oedema|throat (?:swell\\w*|clos\\w+)|swelling of (?:the )?(?:throat|tongue)|severe(?:ly)?|life[- ]threatening)\\b");
    private static final Pattern MODERATE = Pattern.compile(
            "\\b(?:hives|urticaria\\w*|bronchospasm|wheez\\w+|moderate|facial swelling|lip swelling|face swell\\w*|swelling of (?:the )?(?:face|lips)|weals?|wheals?)\\b");
    private static final Pattern MILD = Pattern.compile(
            "\\b(?:rash(?:es)?|itch\\w*|pruritus|nausea\\w*|vomit\\w*|sick(?:ness)?|upset stomach|stomach upset|gi upset|diarrhoea|diarrhea|mild(?:ly)?|flush\\w*|dyspepsia|headache|blister\\w*|redness of|erythema)\\b");

    private record Thing(int start, int end, String to) {}

    @Override
    public void read(Page page, Findings findings) {
        Map<String, Findings.Entry> known = new HashMap<>();
        var headed = false;
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            var says = SAYS.matcher(plain).find() || Fit.matches(plain, "(?:drug )?allergy ?:?.*");
            var inSection = sentence.section == Sentence.Section.ALLERGIES;
            headed = inSection;
            if (!says && !inSection
                    || Polarity.isOthers(sentence, Math.min(3, plain.length()), Math.min(4, plain.length()))) {
                continue;
            }
            read(sentence, inSection && headed, known, findings);
        }
    }

    private static void read(Sentence sentence, boolean section, Map<String, Findings.Entry> known, Findings findings) {
        var plain = sentence.plain;
        var things = things(plain);
        for (var i = 0; i < things.size(); i++) {
            var thing = things.get(i);
            var next = i + 1 < things.size() ? things.get(i + 1).start() : plain.length();
            var previous = i > 0 ? things.get(i - 1).end() : 0;
            var end = pieceEnd(plain, thing.end(), next);
            var start = pieceStart(plain, thing.start(), previous);
            var piece = plain.substring(start, end);
            var toReaction = plain.substring(start, thing.start());
            var listed = section
                    || Fit.matches(
                            plain.substring(0, thing.start()),
                            "(?s).*\\b(?:allergy(?: to)?|allergic to|allergy ?[:-])(?:(?!" + TAKES + ")[^.;])*");
            if (!listed && !SAYS.matcher(piece).find() || denied(sentence, thing, piece)) {
                continue;
            }
            if (PREMEDICATION.matcher(plain.substring(0, thing.start())).find()
                    || thing.to().equals("iodinated contrast")
                            && TOLERATED
                                    .matcher(plain.substring(Math.max(0, thing.start() - 40)))
                                    .find()) {
                continue;
            }
            if (thing.to().equals("iodinated contrast")
                    && Fit.matches(plain, "(?s).*\\b(?:angiogram|angioplasty)\\b.*\\breaction\\b.*")
                    && !Fit.matches(plain, "(?s).*\\ballerg.*")) {
                continue;
            }
            if (Polarity.isOthers(sentence, thing.start(), thing.end())
                    || Polarity.isOpen(sentence, thing.start()) && !toReaction.contains("?") && !section) {
                continue;
            }
            var reaction = reaction(plain, thing, start, end);
            if (!listed
                    && reaction.isEmpty()
                    && !Fit.matches(
                            piece,
                            "(?s).*\\b(?:allerg\\w*|hypersensitiv\\w+|anaphyla\\w+|reactions?|reacts?|reacted|intoleran\\w+)\\b.*")) {
                continue;
            }
            var entry = known.get(thing.to());
            if (entry == null) {
                entry = findings.add("allergies");
                known.put(thing.to(), entry);
                entry.put("to", thing.to(), sentence.span(thing.start(), thing.end()));
            }
            if (reaction.isPresent()) {
                entry.put("reaction", reaction.get(), sentence.span(Math.min(thing.start(), start), end));
            }
        }
    }

    private static boolean denied(Sentence sentence, Thing thing, String piece) {
        return Fit.matches(sentence.plain.substring(thing.end()), "(?s) ?\\? ?(?:no\\b.*)?")
                || Fit.matches(
                        sentence.plain,
                        "(?s).*\\b(?:thinks? (?:he|she|that|it)|may have (?:been|had)|not sure|unsure|might be) .*")
                || REFUTED.matcher(sentence.plain.substring(thing.end())).find()
                || NONE.matcher(piece).find()
                || Polarity.isDenied(sentence, thing.start(), thing.end());
    }

    private static java.util.List<Thing> things(String plain) {
        var things = new java.util.ArrayList<Thing>();
        var contrast = CONTRAST.matcher(plain);
        while (contrast.find()) {
            things.add(new Thing(contrast.start(), contrast.end(), "iodinated contrast"));
        }
        var word = Fit.of("[a-z][a-z0-9']*").matcher(plain);
        var at = 0;
        while (at < plain.length() && word.find(at)) {
            at = word.end();
            var drug = MedicineRule.drugAt(plain, word);
            if (drug.isPresent()
                    && !covered(things, drug.get().start())
                    && !Fit.matches(
                            plain.substring(drug.get().start(), drug.get().end()), "pen|on|iron")
                    && !Fit.matches(
                            plain.substring(drug.get().end()),
                            "(?s) (?:he|she) (?:will|won't|does|doesn't|refuses|cannot)\\b.*")) {
                at = drug.get().end();
                things.add(new Thing(
                        drug.get().start(), drug.get().end(), drug.get().generic()));
            }
        }
        var other = OTHER.matcher(plain);
        while (other.find()) {
            if (!covered(things, other.start())) {
                var isPenicillin = Fit.matches(other.group(1), "pen|pcn");
                things.add(new Thing(other.start(), other.end(), isPenicillin ? "penicillin" : other.group(1)));
            }
        }
        if (things.isEmpty()) {
            var named = Fit.of(
                            "\\b(?:allergic to|allergy to|allergy ?:)(?: the| all| any)? ((?!none|nil|no\\b|nkda|nka|not|unknown|known|see|as|yes|see above|n/k|nk\\b|nothing)[a-z][a-z-]+(?: [a-z-]+)?)(?= ?(?:[,.;(:-]|$| and | which | with | causing | who | he | she | \\())")
                    .matcher(plain);
            if (named.find()) {
                things.add(new Thing(named.start(1), named.end(1), named.group(1)));
            }
        }
        things.sort(java.util.Comparator.comparingInt(Thing::start));
        return things;
    }

    private static boolean covered(java.util.List<Thing> things, int position) {
        return things.stream().anyMatch(thing -> position >= thing.start() && position < thing.end());
    }

    private static int pieceEnd(String plain, int end, int next) {
        var stop = Fit.of(
                        ";|\\. |, (?=(?:allerg|but |he |she |reacts|anaphyl))|, (?=[a-z]+ ?(?:[(-]|,|and |$))| and (?=[a-z]+ ?(?:\\(|- ))")
                .matcher(plain)
                .region(end, next);
        return stop.find() ? stop.start() : next;
    }

    private static int pieceStart(String plain, int start, int previous) {
        var before = plain.substring(previous, start);
        var at = Math.max(before.lastIndexOf(';'), Math.max(before.lastIndexOf(". "), before.lastIndexOf(',')));
        return at < 0 ? previous : previous + at + 1;
    }

    private static Optional<String> reaction(String plain, Thing thing, int start, int end) {
        var behind = plain.substring(thing.end(), end);
        var found = grade(behind);
        if (found.isPresent()) {
            return found;
        }
        return grade(plain.substring(start, thing.start()));
    }

    private static Optional<String> grade(String words) {
        if (SEVERE.matcher(words).find()
                && !Fit.matches(
                        words, "(?s).*\\b(?:no|not|without|never) (?:an? )?(?:anaphyla\\w+|severe|collapse).*")) {
            return Optional.of("severe");
        }
        if (MODERATE.matcher(words).find()) {
            return Optional.of("moderate");
        }
        return MILD.matcher(words).find() ? Optional.of("mild") : Optional.empty();
    }
}
