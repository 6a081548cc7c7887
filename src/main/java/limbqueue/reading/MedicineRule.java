package limbqueue.reading;

import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Drugs the patient takes, with their doses as they stand. Drugs stopped, refused, planned or reacted to are not taken. */
final class MedicineRule implements Rule {

    private static final Pattern WORD = Pattern.compile("[a-z][a-z0-9']*");

    private static final String AMOUNT = "(?:\\d+(?:\\.\\d+)?(?: ?[-/] ?\\d+(?:\\.\\d+)?)?)";
    private static final String UNIT =
            "(?:mg|mcg|micrograms?|microg|µg|ug|g|gm|grams?|milligrams?|units?|iu|u|ml|mls|%|mmol|meq)(?: ?/ ?(?:ml|hr|hour|h|day|24h|dose|actuation|kg|\\d+ ?ml))?";
    private static final String FREQUENCY =
            "(?:(?:take |taking )?(?:up to )?(?:(?:\\d{1,2}(?:-\\d)?|half) )?(?:(?:tabs?|tablets?|caps?|capsules?|puffs?|sachets?) )?(?:(?:by mouth|orally|po) )?)?(?:once (?:a day|daily|per day|weekly|at night|every (?:day|night|morning))|twice (?:a day|daily|per day|a week|weekly)|(?:thrice|three times|3 times|four times|4 times|2 times|two times) (?:a day|daily|per day|a week)|1 (?:daily|a day|at night|nocte|od|bd)|daily|am|pm|od|om|on(?= ?(?:[,.;)]|$|and\\b|plus\\b))|bd|bid|tds|tid|qds|qid|qd|qod|qam|qpm|qhs|hs|nightly|nocte|mane|noct|"
                    + "in the (?:morning|evening|mornings|evenings)|at (?:night|bedtime|breakfast|lunch|teatime)|every (?:morning|night|evening|day|other day|\\d+ ?(?:hour|day|week)s?|4 hours|6 hours|8 hours|12 hours)|each (?:day|morning|night|evening)|a day|per day|weekly|once a week|a week|monthly|prn|as (?:needed|required|directed)|when (?:needed|required)|q ?\\d+ ?-? ?(?:h|hrs?|hours?|hourly)|\\d+ ?hourly|stat|with (?:meals|food|breakfast|supper|evening meal)|before (?:meals|bed|breakfast)|after (?:meals|food)|on alternate days|alternate days|ac|pc|ud|sc daily|x ?[1-4](?!\\d)(?: ?(?:daily|/d(?:ay)?|a day))?)";
    private static final String ROUTE =
            "(?:po|orally|oral|by mouth|iv|im|sc|s/c|subcut(?:aneous(?:ly)?)?|sl|sublingual(?:ly)?|inh|topical(?:ly)?|patch|tablets?|tabs?|caps?|capsules?|puffs?|ec|m/r|mr|sr|xl|xr|er|slow release|modified release|inhaler|spray|depot|per dose|plus)";
    private static final Pattern DOSE = Pattern.compile(
            "^(?:,? ?(?:tablets?|tabs?|capsules?|caps?|e\\.?c\\.?|mr|m/r|sr|xl|xr|er|cr|la|ec|slow release|modified release|at|of|-|:|=|,|\\(|dose(?: of)?|patch(?:es)?|spray|inhaler|injections?|po|now|dispersible|sulf?ph?ate|succ(?:inate)?|tart(?:rate)?|radiograph(?= \\d)|fumarate|sodium|calcium|hydrochloride|hcl|besylate|mesilate|phosphate|potassium|bisulfate)[ ]*){0,4} ?"
                    + "(?<dose>" + AMOUNT + " ?" + UNIT + "\\b(?:[ ,]*(?:\\(?" + ROUTE + "\\)?))*(?:[ ,]*(?:"
                    + FREQUENCY + ")(?![a-z]))*(?:(?:,| and| plus| then) " + AMOUNT + " ?" + UNIT + " (?:" + FREQUENCY
                    + "))?"
                    + "|" + AMOUNT + "(?:[ ,]*(?:" + ROUTE + "))*(?:[ ,]*(?:" + FREQUENCY + ")(?![a-z]))+|" + AMOUNT
                    + "(?= ?(?:[,.;)]|$| and | plus | \\+ ))(?! ?/))");
    private static final Pattern DOSE_BEFORE =
            Pattern.compile("(?<dose>" + AMOUNT + " ?" + UNIT + ")(?: of| tablets? of)? $");
    private static final Pattern FREQUENCY_AFTER = Pattern.compile("^ (?:" + FREQUENCY + ")(?![a-z])");

    /** "10 mg reduced to 5 mg": the new dose counts. */
    private static final Pattern CHANGED =
            Pattern.compile("^,? ?\\(?(?:(?:was|has been|have|i have|recently|now|then) )*"
                    + "(?:reduced|increased|decreased|cut|changed|lowered|raised|halved|doubled|titrated|uptitrated|stepped)(?: (?:up|down|back))? to ("
                    + AMOUNT + " ?" + UNIT
                    + "\\b(?:[ ,]*(?:" + FREQUENCY + ")(?![a-z]))*)");

    @Override
    public void read(Page page, Findings findings) {
        Map<String, Findings.Entry> taken = new HashMap<>();
        for (var sentence : page.sentences) {
            if (sentence.section == Sentence.Section.ALLERGIES
                    || sentence.section == Sentence.Section.FAMILY
                    || sentence.section == Sentence.Section.PLAN) {
                continue;
            }
            read(page, sentence, taken, findings);
        }
        withoutClass(taken, findings);
    }

    /** "Insulin (Lantus and NovoRapid)": the class is none beside its members. */
    private static void withoutClass(Map<String, Findings.Entry> taken, Findings findings) {
        var any = taken.get("insulin");
        if (any != null
                && !any.has("dose")
                && taken.keySet().stream().anyMatch(generic -> generic.startsWith("insulin "))) {
            findings.remove("medicines", any);
        }
    }

    /** A drug's name in a sentence. */
    record Named(int start, int end, String generic) {}

    /** The drug whose name begins where {@code word} does; the longest name counts. */
    static java.util.Optional<Named> drugAt(String plain, Matcher word) {
        var drugs = Drugs.shipped();
        var best = java.util.Optional.<Named>empty();
        var end = word.end();
        var words = 0;
        var start = word.start();
        while (words < drugs.longestName()) {
            var name = plain.substring(start, end).replace(" - ", "-").replace('-', ' ');
            var generic = drugs.generic(name);
            if (generic.isPresent()) {
                best = java.util.Optional.of(new Named(start, end, generic.get()));
            }
            words++;
            if (end >= plain.length() || " -/".indexOf(plain.charAt(end)) < 0) {
                break;
            }
            var next = end + 1;
            while (next < plain.length()
                    && (Character.isLetterOrDigit(plain.charAt(next)) || plain.charAt(next) == '\'')) {
                next++;
            }
            if (next == end + 1) {
                break;
            }
            end = next;
        }
        return best;
    }

    private static void read(Page page, Sentence sentence, Map<String, Findings.Entry> taken, Findings findings) {
        var plain = sentence.plain;
        var word = WORD.matcher(plain);
        var at = 0;
        while (at < plain.length() && word.find(at)) {
            var named = drugAt(plain, word);
            at = word.end();
            if (named.isEmpty()) {
                continue;
            }
            at = named.get().end();
            if (isTaken(sentence, named.get()) && DrugsTaken.said(sentence, named.get())) {
                add(page, sentence, named.get(), taken, findings);
            }
        }
    }

    static boolean hasDose(String plain, Named drug) {
        return DOSE.matcher(plain).region(drug.end(), plain.length()).find()
                || DOSE_BEFORE.matcher(plain.substring(0, drug.start())).find()
                || FREQUENCY_AFTER.matcher(plain.substring(drug.end())).find();
    }

    private static boolean isTaken(Sentence sentence, Named drug) {
        var plain = sentence.plain;
        var clause = clauseStart(sentence, drug.start());
        var before = plain.substring(clause, drug.start());
        var after = plain.substring(drug.end());
        if (ambiguous(plain, drug)
                || TickBoxes.isTicked(plain, drug.start(), drug.end()).equals(java.util.Optional.of(false))
                || drug.generic().equals("penicillin")
                || drug.generic().equals("potassium chloride") && Fit.matches(after, "(?s) ?[\\d.].*")
                || DrugsNotTaken.named(sentence, drug, clause)) {
            return false;
        }
        if (Polarity.isOthers(sentence, drug.start(), drug.end())
                || Polarity.isDenied(sentence, drug.start(), drug.end())) {
            return false;
        }
        return !Polarity.isOpen(sentence, drug.start())
                || Fit.matches(before, "(?s).*\\b(?:on|takes|taking)\\b.*")
                        && !Fit.matches(before, "(?s).*\\b(?:if|consider|could|would|whether|risk|should)\\b.*");
    }

    /** Stopped drugs of a list do not stop those of the next: "aspirin stopped, clopidogrel 75 mg". */
    private static int clauseStart(Sentence sentence, int position) {
        var start = sentence.clauseStart(position);
        var paren = sentence.plain.lastIndexOf('(', position);
        var close = sentence.plain.lastIndexOf(')', position);
        if (paren > close && paren >= start) {
            return paren + 1;
        }
        if (close > start) {
            start = Math.max(start, sentence.plain.substring(start, close).contains("(") ? close + 1 : start);
        }
        return start;
    }

    /** Words that are a drug's name in one place and something else in another. */
    private static boolean ambiguous(String plain, Named drug) {
        var word = plain.substring(drug.start(), drug.end());
        var after = plain.substring(drug.end());
        return switch (word) {
            case "pen",
                    "on",
                    "gaba",
                    "riva",
                    "spiro",
                    "pred",
                    "rami",
                    "biso",
                    "amlo",
                    "prava",
                    "simva",
                    "amox",
                    "doxy",
                    "cipro",
                    "aspir" -> !Fit.matches(after, "(?s) ?\\d.*|[,.;)].*|$| od.*| bd.*");
            case "alcohol", "iron", "vessel", "nph", "mst", "medrol" -> !Fit.matches(after, "(?s) ?\\d.*");
            case "asa" ->
                Fit.matches(after, "(?s) ?(?:[1-5]|i{1,3}v?|grade|class|score|ps)(?!\\w|\\.\\d)(?! ?mg| \\d).*");
            case "calcium carbonate" -> false;
            case "nicotine" -> !Fit.matches(after, "(?s) ?(?:patch|gum|\\d|replacement).*");
            case "folate", "lithium" -> Fit.matches(after, "(?s) (?:level|deficien).*");
            case "niacin", "heparin" -> Fit.matches(after, "(?s) (?:induced|flush|given|bolus).*");
            case "insulin" -> Fit.matches(after, "(?s) (?:resistan|depend|requir).*");
            case "lidocaine", "lignocaine" -> Fit.matches(after, "(?s) (?:infiltrat|local|[12] ?%|used).*");
            case "vitamin d", "vit d", "folic acid" -> Fit.matches(after, "(?s) (?:level|deficien).*");
            default -> false;
        };
    }

    private static void add(
            Page page, Sentence sentence, Named drug, Map<String, Findings.Entry> taken, Findings findings) {
        var plain = sentence.plain;
        var known = taken.get(drug.generic());
        if (known == null) {
            known = findings.add("medicines");
            taken.put(drug.generic(), known);
            known.put("name", drug.generic(), sentence.span(drug.start(), drug.end()));
        }
        if (known.has("dose")) {
            return;
        }
        var dose = DOSE.matcher(plain).region(drug.end(), plain.length());
        if (dose.find()) {
            var changed = CHANGED.matcher(plain).region(dose.end(), plain.length());
            if (changed.find()) {
                var words = sentence.span(changed, 1);
                known.put("dose", asItStands(page, words), words);
                return;
            }
            var words = sentence.span(dose.start("dose"), dose.end("dose"));
            known.put("dose", asItStands(page, words), words);
            return;
        }
        var before = DOSE_BEFORE.matcher(plain.substring(0, drug.start()));
        if (before.find()) {
            var frequency = FREQUENCY_AFTER.matcher(plain.substring(drug.end()));
            var words = sentence.span(before.start("dose"), before.end("dose"));
            var text = asItStands(page, words);
            if (frequency.find()) {
                text += " " + asItStands(page, sentence.span(drug.end(), drug.end() + frequency.end()));
            }
            known.put("dose", text, words);
        }
    }

    private static String asItStands(Page page, Span words) {
        return page.original(words).strip().replaceAll("\\s+", " ");
    }
}
