package limbqueue.triage.workup;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.TriageResult.Calculation;
import limbqueue.triage.finding.ContrastCeiling;
import limbqueue.triage.finding.Creatinine;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** Kidney function, how much contrast it bears, and what protects it. */
final class KidneyCheck {

    private KidneyCheck() {}

    static void propose(Occasion on, Sheet sheet) {
        function(on, sheet);
        if (on.flag("kidney-risk") || injury(on)) {
            sheet.need(
                    Item.KIDNEY_PROTECTION,
                    "Consider protection of the kidneys, and carbon dioxide instead of contrast",
                    protectionWhy(on));
        }
        drugs(on, sheet);
    }

    private static void function(Occasion on, Sheet sheet) {
        var kidney = on.kidney();
        var impaired = kidney.map(value -> value.egfr() < on.limits().of(Limit.KIDNEY_SHORT_VALIDITY_EGFR_LESS_THAN))
                .orElse(false);
        var policy = on.policy().validity();
        var validity = Validity.days(impaired ? policy.creatinineWhenImpaired() : policy.creatinine());
        sheet.dated(
                Item.KIDNEY_FUNCTION,
                "Creatinine and eGFR",
                kidney.map(value -> Sentence.of(
                                        "Last eGFR %s; contrast is given into an artery, and CTA waits for it.",
                                        value.span().words()))
                                .orElse("No kidney function held; contrast is given into an artery, and CTA waits for"
                                        + " it.")
                        + " Sooner again in hospital or after a change of medicines.",
                validity.held(kidney.flatMap(KidneyFunction::taken)),
                calculations(on, sheet, kidney));
    }

    private static Calculation[] calculations(Occasion on, Sheet sheet, Optional<KidneyFunction> kidney) {
        if (kidney.isEmpty()) {
            return new Calculation[0];
        }
        var calculations = new ArrayList<Calculation>();
        var span = kidney.get().span();
        calculations.add(sheet.calculation("ckd-epi-2021", "eGFR", Sentence.of("%s mL/min per 1.73 m2", span.words())));
        if (!on.dialysis()) {
            calculations.add(sheet.calculation(
                    "common-practice",
                    "Contrast medium",
                    ContrastCeiling.of(span, on.limits()).words()));
        }
        return calculations.toArray(Calculation[]::new);
    }

    /** Signs that the kidneys were hurt: now, or by an earlier procedure. */
    private static boolean injury(Occasion on) {
        return Creatinine.roseAcutely(on.document(), on.limits()) || earlierInjury(on);
    }

    private static boolean earlierInjury(Occasion on) {
        return Entries.any(
                on.document().procedures().orElse(List.of()),
                procedure -> procedure.complication().equals(Optional.of(Complication.KIDNEY_INJURY)));
    }

    private static String protectionWhy(Occasion on) {
        var sentences = new ArrayList<String>();
        if (on.flag("kidney-risk")) {
            sentences.add("Low kidney function.");
        }
        if (Creatinine.roseAcutely(on.document(), on.limits())) {
            sentences.add(
                    "Creatinine rose as in acute kidney injury: elective contrast waits until the cause is known.");
        }
        if (earlierInjury(on)) {
            sentences.add("An earlier procedure hurt the kidneys.");
        }
        MehranScore.of(on.document(), on.asOf(), on.limits())
                .map(score -> score.sentence(on.limits()))
                .ifPresent(sentences::add);
        return String.join(" ", sentences);
    }

    private static void drugs(Occasion on, Sheet sheet) {
        var low = on.kidney()
                .map(value -> value.egfr() < on.limits().of(Limit.KIDNEY_RISK_EGFR_LESS_THAN))
                .orElse(false);
        if (on.takes(Substances::isNsaid) || (low && on.takes(Substances::isReninBlockerOrDiuretic))) {
            sheet.need(
                    Item.KIDNEY_DRUGS,
                    "Settle the drugs that are hard on the kidneys",
                    "A drug against inflammation is left out for a day or two before contrast; with low kidney function"
                            + " ACE inhibitors, receptor blockers and diuretics go by local protocol.");
        }
    }
}
