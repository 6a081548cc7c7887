package limbqueue.reading;

import java.util.regex.Pattern;

/** What shows that a drug is taken: a dose, a list of drugs, or a word such as "takes". A drug that is only spoken of is not. */
final class DrugsTaken {

    private static final String TAKING =
            "on|takes?|taking|taken|uses?|using|needs?|needing|has|have|had|gets?|getting|receiv(?:es|ing)|continu(?:es?|ed|ing)|remains?|stays?|"
                    + "maintained|controlled|managed|treated|covered|anticoagulated|self-medicates|lives on|despite|in spite of";
    private static final String GIVING =
            "start(?:ed|s)?|commenced|began|begun|gives?|given|gave|put|prescribed|issued|added|changed|switched|swapped|increased|reduced|"
                    + "restarted|resumed|loaded|established|kept|keep";
    private static final String NAMING =
            "medication|medicines?|drugs?|tablets?|pills?|therapy|treatment|rx|dh|current(?:ly)?|regular(?:ly)?|repeat|home|daily|"
                    + "prescriptions?|inhalers?|analgesia|painkillers?|antiplatelets?|anticoagula\\w+|statins?|insulin";
    private static final Pattern SAID_BEFORE =
            Pattern.compile("\\b(?:" + TAKING + "|" + GIVING + "|" + NAMING + ")\\b[^.;]{0,140}$");

    private static final Pattern SAID_AFTER = Pattern.compile(
            "^(?: (?:tablets?|therapy|treatment|inhalers?|spray|cream|patch(?:es)?))?,? ?(?:\\(?(?:continu\\w+|daily|nightly|prn|regular(?:ly)?|ongoing|only|long[- ]term|for (?:his|her|the|af|pain|dvt|angina|blood)|since|unchanged|as before|helps|is needed|needed|takes the edge|just to|to (?:control|ease|relieve|get)|for|every|twice|now|already|started|restarted|(?:is|was) added|is (?:still )?(?:taken|continued|given)|at (?:night|home))\\b)");

    private DrugsTaken() {}

    static boolean said(Sentence sentence, MedicineRule.Named drug) {
        if (sentence.section == Sentence.Section.MEDICINES) {
            return true;
        }
        var plain = sentence.plain;
        var before = plain.substring(0, drug.start());
        return SAID_BEFORE.matcher(before).find()
                || SAID_AFTER.matcher(plain.substring(drug.end())).find()
                || MedicineRule.hasDose(plain, drug)
                || isList(plain);
    }

    /** Whether a sentence begins with a drug's name, or with a heading and a drug's name. */
    private static boolean isList(String plain) {
        var word = Pattern.compile("[a-z][a-z0-9']*").matcher(plain);
        return word.find()
                && MedicineRule.drugAt(plain, word)
                        .filter(drug -> Fit.matches(
                                plain.substring(drug.end()), "(?s) ?(?:[^a-z ].*|(?:and|plus|with|or)\\b.*|)"))
                        .isPresent();
    }
}
