package limbqueue.triage.flag;

import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.Intent;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Entries;

/** An angiogram elsewhere, called diagnostic, on a leg ill enough to treat; nothing done, and report or images not held. */
final class UndisclosedAttemptRule implements FlagRule {

    private static final Set<ProcedureKind> NO_TREATMENT_OF_FLOW =
            EnumSet.of(ProcedureKind.ANGIOGRAM, ProcedureKind.AMPUTATION);

    @Override
    public String code() {
        return "possible-undisclosed-attempt";
    }

    @Override
    public Outcome look(Case referral) {
        var evidence = new Evidence();
        procedures(referral, evidence);
        imaging(referral, evidence);
        if (evidence.isEmpty()) {
            return Outcome.silent();
        }
        evidence.when(referral.document().deferredElsewhere().days().isPresent(), "deferredElsewhere.days");
        return Outcome.fires(
                "An angiogram elsewhere is called diagnostic, the leg is ill enough to treat, nothing was done, and the"
                        + " report or the images are not here. An attempt that failed, a complication, or a lesion judged"
                        + " too hard is possible: get report, images and a word with the operator before a room is booked.",
                evidence.paths());
    }

    private static void procedures(Case referral, Evidence evidence) {
        var procedures = referral.document().procedures().orElse(List.of());
        for (var i = 0; i < procedures.size(); i++) {
            var procedure = procedures.get(i);
            if (procedure.kind().equals(Optional.of(ProcedureKind.ANGIOGRAM))
                    && !procedure.intent().equals(Optional.of(Intent.TREATMENT))
                    && worthTreating(referral, procedure.side())
                    && !treatedSince(procedures, procedure.side(), procedure.date())) {
                missing("procedures[" + i + "]", procedure.reportHeld(), procedure.imagesHeld(), evidence);
            }
        }
    }

    private static void imaging(Case referral, Evidence evidence) {
        var imaging = referral.document().imaging().orElse(List.of());
        var procedures = referral.document().procedures().orElse(List.of());
        for (var i = 0; i < imaging.size(); i++) {
            var image = imaging.get(i);
            if (image.kind().equals(Optional.of(ImagingKind.ANGIOGRAM))
                    && worthTreating(referral, image.side())
                    && !treatedSince(procedures, image.side(), image.date())) {
                missing("imaging[" + i + "]", image.reportHeld(), image.imagesHeld(), evidence);
            }
        }
    }

    private static boolean worthTreating(Case referral, Optional<Side> side) {
        return Entries.any(
                referral.legsWith(leg -> Case.concerns(side, leg.side())),
                leg -> referral.legTiers()
                                .getOrDefault(leg.side(), Tier.ADVICE_ONLY)
                                .moreUrgentThan(Tier.ADVICE_ONLY)
                        || claudicationMayLimitLife(leg)
                        || lowFigures(leg));
    }

    private static boolean claudicationMayLimitLife(LegPicture leg) {
        return leg.claudication() && leg.leg().claudication().limitsLife().isEmpty();
    }

    private static boolean lowFigures(LegPicture leg) {
        return leg.facts().figures().known()
                && (leg.perfusion().low() || leg.perfusion().poorAtRest());
    }

    /** A treatment that was completed on that side, on or after the day of the angiogram as far as days are known. */
    private static boolean treatedSince(List<Procedure> procedures, Optional<Side> side, Optional<LocalDate> day) {
        return procedures.stream()
                .filter(procedure -> procedure
                        .kind()
                        .map(NO_TREATMENT_OF_FLOW::contains)
                        .map(none -> !none)
                        .orElse(false))
                .filter(procedure -> procedure.outcome().equals(Optional.of(ReferralDocument.Outcome.COMPLETED)))
                .filter(procedure -> side.isEmpty()
                        || procedure.side().map(side.get()::equals).orElse(false))
                .anyMatch(procedure -> day.isPresent()
                        && procedure
                                .date()
                                .map(done -> !done.isBefore(day.get()))
                                .orElse(false));
    }

    /** Nothing is missing where both report and images are held. */
    private static void missing(String entry, Optional<Boolean> report, Optional<Boolean> images, Evidence evidence) {
        if (report.orElse(false) && images.orElse(false)) {
            return;
        }
        evidence.add(entry + ".kind")
                .when(!report.orElse(false), entry + ".reportHeld")
                .when(!images.orElse(false), entry + ".imagesHeld");
    }
}
