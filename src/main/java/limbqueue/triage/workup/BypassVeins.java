package limbqueue.triage.workup;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Entries;
import limbqueue.triage.threshold.Limit;

/** Where a bypass may be next, its veins are mapped. */
final class BypassVeins {

    private static final Set<ProcedureKind> ENDOVASCULAR =
            Set.of(ProcedureKind.ANGIOPLASTY, ProcedureKind.STENT, ProcedureKind.THROMBECTOMY);

    private BypassVeins() {}

    static void propose(Occasion on, Sheet sheet) {
        if (Entries.any(on.anatomy(), entry -> entry.tasc().equals(Optional.of(Tasc.D)))) {
            map(sheet, "The lesions are of TASC type D: bypass is a choice.");
        } else if (failedTreatments(on) >= on.limits().whole(Limit.FAILED_ENDOVASCULAR_AT_LEAST)) {
            map(sheet, "Several treatments from within have failed: bypass may be next.");
        } else if (on.anyLeg(LegPicture::threatening) && on.flag("failed-attempt")) {
            map(sheet, "A threatened limb after a failed attempt: bypass may be next.");
        }
    }

    private static void map(Sheet sheet, String why) {
        sheet.need(Item.VEIN_MAPPING, "Map the veins for a bypass", why);
    }

    private static long failedTreatments(Occasion on) {
        return Entries.count(on.document().procedures().orElse(List.of()), BypassVeins::failed);
    }

    private static boolean failed(Procedure procedure) {
        return procedure.kind().map(ENDOVASCULAR::contains).orElse(false)
                && procedure
                        .outcome()
                        .map(outcome -> outcome == Outcome.FAILED || outcome == Outcome.INCOMPLETE)
                        .orElse(false);
    }
}
