package limbqueue.triage.workup;

import java.util.List;
import limbqueue.triage.TriageResult.Calculation;
import limbqueue.triage.question.Sentence;

/** The bleeding class of the puncture (sir-2019), and the values held that are outside of its limits. */
final class BleedingValues {

    private BleedingValues() {}

    static Calculation calculation(Occasion on, Sheet sheet) {
        var sheath = on.sheath();
        return sheet.calculation(
                "sir-2019",
                "Bleeding class",
                Sentence.of(
                        "%s with a sheath of %.0f Fr (%s). %s",
                        on.bleedingClass().words(),
                        sheath.french(),
                        sheath.why(),
                        on.bleedingClass().limitsInWords(on.limits())));
    }

    static void propose(Occasion on, Sheet sheet) {
        List<String> outside = on.bleedingClass().outside(on.document(), on.limits());
        if (!outside.isEmpty()) {
            sheet.need(
                    Item.BLEEDING_VALUES,
                    "Settle what is outside of the limits before the puncture: " + String.join("; ", outside),
                    "The puncture may bleed more than usual; the values are put right or the access is thought over.",
                    calculation(on, sheet));
        }
    }
}
