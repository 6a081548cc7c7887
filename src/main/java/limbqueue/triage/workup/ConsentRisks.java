package limbqueue.triage.workup;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import limbqueue.triage.TriageResult.Calculation;
import limbqueue.triage.finding.BleedingClass;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.finding.RevisedCardiacRisk;
import limbqueue.triage.question.Sentence;

/** What this patient should hear of before consenting, drawn from flags and scores (common practice, no source). */
final class ConsentRisks {

    private record Risk(String flag, String of, String words) {}

    private static final List<Risk> OF_FLAGS = List.of(
            new Risk("failed-attempt", "Success", "an earlier attempt failed or was broken off"),
            new Risk("possible-undisclosed-attempt", "Success", "an earlier attempt elsewhere is possible"),
            new Risk("earlier-complication", "Complication", "an earlier procedure had one, which may come back"),
            new Risk("only-leg", "Limb", "it is the only leg left"),
            new Risk("systemic-infection", "Life", "the infection has reached the whole body"),
            new Risk("diabetic-foot-emergency", "Limb", "a diabetic foot in danger"),
            new Risk("sudden-change", "Limb", "clot may move on when the artery is opened"),
            new Risk("aneurysm", "Emboli", "an aneurysm may send clots downstream"),
            new Risk("atheroembolism", "Emboli", "debris already reached the toes; a catheter may loosen more"),
            new Risk("arm-access-risk", "Arm", "the arteries of an arm may be narrowed, or feed the heart"),
            new Risk("hard-to-see", "Pictures", "metal hides the arteries: more contrast, more X-rays"),
            new Risk("contrast-allergy", "Allergy", "an earlier reaction to contrast medium"),
            new Risk("pregnancy", "Child", "X-rays and contrast in pregnancy"),
            new Risk("leaves-before-follow-up", "Follow-up", "nobody here sees the puncture and the scan afterwards"));

    private ConsentRisks() {}

    static void propose(Occasion on, Sheet sheet) {
        var risks = new ArrayList<Calculation>();
        risks.add(sheet.calculation("sir-2019", "Bleeding", bleeding(on)));
        MehranScore.of(on.document(), on.asOf(), on.limits())
                .ifPresent(score -> risks.add(sheet.calculation("mehran-2004", "Kidneys", kidneys(score, on))));
        risks.add(sheet.calculation(
                "lee-1999",
                "Heart",
                RevisedCardiacRisk.of(on.document(), on.limits()).words()));
        if (on.vesselMayRupture()) {
            risks.add(sheet.calculation("common-practice", "Rupture", "an iliac artery may tear when it is opened"));
        }
        for (var risk : OF_FLAGS) {
            if (on.flag(risk.flag())) {
                risks.add(sheet.calculation("common-practice", risk.of(), risk.words()));
            }
        }
        sheet.need(
                Item.CONSENT_RISKS,
                "Talk the risks of this patient over before consent",
                "Beside what every patient hears of: " + named(risks) + ".",
                risks.toArray(Calculation[]::new));
    }

    private static String named(List<Calculation> risks) {
        var names = new LinkedHashSet<String>();
        for (var risk : risks) {
            names.add(risk.what().toLowerCase(Locale.ROOT));
        }
        return String.join(", ", names);
    }

    private static String bleeding(Occasion on) {
        var raised = on.flag("bleeding-risk") ? "; raised by drugs, values or a disorder" : "";
        return (on.bleedingClass() == BleedingClass.HIGH ? "class high" : "class low") + raised;
    }

    private static String kidneys(MehranScore score, Occasion on) {
        var mild = MehranScore.Risk.of(score.least(), on.limits()).nephropathy();
        var grave = MehranScore.Risk.of(score.most(), on.limits()).nephropathy();
        return Sentence.of(
                "%s %% with nephropathy by the score of Mehran, before contrast and by heart patients",
                mild == grave ? Double.toString(mild) : mild + " to " + grave);
    }
}
