package limbqueue.triage.flag;

import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.Intent;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;

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
        var evidence = Stream.concat(procedures(referral), imaging(referral)).toList();
        if (evidence.isEmpty()) {
            return Outcome.silent();
        }
        var deferred = referral.document().deferredElsewhere();
        var all = Stream.concat(
                        evidence.stream(),
                        deferred.days().isPresent() ? Stream.of("deferredElsewhere.days") : Stream.empty())
                .toList();
        return Outcome.fires(
                "An angiogram elsewhere is called diagnostic, the leg is ill enough to treat, nothing was done, and the"
                        + " report or the images are not here. An attempt that failed, a complication, or a lesion judged"
                        + " too hard is possible: get report, images and a word with the operator before a room is booked.",
                all);
    }

    private static Stream<String> procedures(Case referral) {
        var procedures = referral.document().procedures().orElse(List.of());
        return IntStream.range(0, procedures.size())
                .filter(i -> {
                    var procedure = procedures.get(i);
                    return procedure.kind().equals(Optional.of(ProcedureKind.ANGIOGRAM))
                            && !procedure.intent().equals(Optional.of(Intent.TREATMENT))
                            && worthTreating(referral, procedure.side())
                            && !treatedSince(procedures, procedure.side(), procedure.date())
                            && !held(procedure.reportHeld(), procedure.imagesHeld());
                })
                .boxed()
                .flatMap(i -> missing(
                        "procedures[" + i + "]",
                        procedures.get(i).reportHeld(),
                        procedures.get(i).imagesHeld()));
    }

    private static Stream<String> imaging(Case referral) {
        var imaging = referral.document().imaging().orElse(List.of());
        var procedures = referral.document().procedures().orElse(List.of());
        return IntStream.range(0, imaging.size())
                .filter(i -> {
                    var image = imaging.get(i);
                    return image.kind().equals(Optional.of(ImagingKind.ANGIOGRAM))
                            && worthTreating(referral, image.side())
                            && !treatedSince(procedures, image.side(), image.date())
                            && !held(image.reportHeld(), image.imagesHeld());
                })
                .boxed()
                .flatMap(i -> missing(
                        "imaging[" + i + "]",
                        imaging.get(i).reportHeld(),
                        imaging.get(i).imagesHeld()));
    }

    private static boolean worthTreating(Case referral, Optional<Side> side) {
        return referral.legsWith(leg -> Case.concerns(side, leg.side()))
                .anyMatch(leg -> referral.legTiers()
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

    private static boolean held(Optional<Boolean> report, Optional<Boolean> images) {
        return report.orElse(false) && images.orElse(false);
    }

    private static Stream<String> missing(String entry, Optional<Boolean> report, Optional<Boolean> images) {
        return Stream.of(
                        Optional.of(entry + ".kind"),
                        report.orElse(false) ? Optional.<String>empty() : Optional.of(entry + ".reportHeld"),
                        images.orElse(false) ? Optional.<String>empty() : Optional.of(entry + ".imagesHeld"))
                .flatMap(Optional::stream);
    }
}
