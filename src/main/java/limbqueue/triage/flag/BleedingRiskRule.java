package limbqueue.triage.flag;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.threshold.Limit;

/** A bleeding disorder, an anticoagulant, few platelets or a high INR. */
final class BleedingRiskRule implements FlagRule {

    @Override
    public String code() {
        return "bleeding-risk";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "Raised risk of bleeding: settle drugs and values with the prescriber before the puncture.",
                Stream.of(
                                referral.document().history().bleedingDisorder().orElse(false)
                                        ? Stream.of("history.bleedingDisorder")
                                        : Stream.<String>empty(),
                                Case.entries(
                                                "medicines",
                                                referral.document().medicines(),
                                                medicine -> medicine.name()
                                                        .map(Substances::isAnticoagulant)
                                                        .orElse(false))
                                        .stream()
                                        .map(entry -> entry + ".name"),
                                Case.entries(
                                                "labs",
                                                referral.document().labs(),
                                                lab -> latest(lab, referral) && risky(lab, referral))
                                        .stream()
                                        .map(entry -> entry + ".value"))
                        .flatMap(paths -> paths));
    }

    /** Whether no later value of the same test is held; an old value says nothing once there is a newer one. */
    private static boolean latest(Lab lab, Case referral) {
        return referral.document().labs().orElse(List.of()).stream()
                .filter(other ->
                        other.test().equals(lab.test()) && other.value().isPresent())
                .noneMatch(other -> day(other).isAfter(day(lab)));
    }

    private static LocalDate day(Lab lab) {
        return lab.taken().orElse(LocalDate.MIN);
    }

    private static boolean risky(Lab lab, Case referral) {
        if (lab.value().isEmpty()) {
            return false;
        }
        var value = lab.value().get();
        return (lab.test().equals(Optional.of(LabTest.PLATELETS))
                        && value < referral.limits().of(Limit.BLEEDING_PLATELETS_LESS_THAN))
                || (lab.test().equals(Optional.of(LabTest.INR))
                        && value >= referral.limits().of(Limit.BLEEDING_INR_AT_LEAST));
    }
}
