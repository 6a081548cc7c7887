package limbqueue.triage.finding;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * What earlier treatment and lesions say of a leg. Where no side is recorded, both legs are concerned.
 *
 * @param largePoplitealAneurysm known, and not known to be small
 * @param earlierRepairOccluded an earlier stent or bypass of this leg is occluded
 * @param abandonedProcedure an earlier procedure on this leg was incomplete or failed
 */
public record Background(boolean largePoplitealAneurysm, boolean earlierRepairOccluded, boolean abandonedProcedure) {

    public static Background of(Side side, ReferralDocument document, Limits limits) {
        var lesions = document.lesions().orElse(List.of()).stream()
                .filter(lesion -> Case.concerns(lesion.side(), side))
                .toList();
        var procedures = document.procedures().orElse(List.of()).stream()
                .filter(procedure -> Case.concerns(procedure.side(), side))
                .toList();
        return new Background(
                largePoplitealAneurysm(document, lesions, limits),
                lesions.stream().anyMatch(Background::stentOccluded)
                        || procedures.stream().anyMatch(Background::bypassOccluded),
                procedures.stream().anyMatch(Background::abandoned));
    }

    private static boolean largePoplitealAneurysm(ReferralDocument document, List<Lesion> lesions, Limits limits) {
        var measured = lesions.stream().filter(Background::poplitealAneurysm).toList();
        if (measured.isEmpty()) {
            return document.history().poplitealAneurysm().orElse(false)
                    && document.lesions().orElse(List.of()).stream().noneMatch(Background::poplitealAneurysm);
        }
        return measured.stream()
                .anyMatch(lesion -> lesion.diameterMm()
                        .map(diameter -> diameter.value() >= limits.of(Limit.POPLITEAL_ANEURYSM_AT_LEAST))
                        .orElse(true));
    }

    private static boolean poplitealAneurysm(Lesion lesion) {
        return lesion.aneurysm().orElse(false) && lesion.segment().equals(Optional.of(Segment.POPLITEAL));
    }

    private static boolean stentOccluded(Lesion lesion) {
        return lesion.inStent().orElse(false)
                && lesion.stenosisPercent()
                        .map(percent -> percent.value() >= 100)
                        .orElse(false);
    }

    private static boolean bypassOccluded(Procedure procedure) {
        return procedure.kind().equals(Optional.of(ProcedureKind.BYPASS))
                && procedure.complication().equals(Optional.of(Complication.THROMBOSIS));
    }

    private static boolean abandoned(Procedure procedure) {
        return procedure
                .outcome()
                .map(outcome -> outcome == Outcome.INCOMPLETE || outcome == Outcome.FAILED)
                .orElse(false);
    }
}
