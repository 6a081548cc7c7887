package limbqueue.triage.flag;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.question.Entries;
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
                new Evidence()
                        .when(referral.document().history().bleedingDisorder(), "history.bleedingDisorder")
                        .entries(
                                "medicines",
                                referral.document().medicines(),
                                medicine -> medicine.name()
                                        .map(Substances::isAnticoagulant)
                                        .orElse(false),
                                "name")
                        .entries(
                                "labs",
                                referral.document().labs(),
                                lab -> risky(lab, referral) && latest(lab, referral),
                                "value"));
    }

    /** Whether no later value of the same test is held; an old value says nothing once there is a newer one. */
    private static boolean latest(Lab lab, Case referral) {
        return !Entries.any(
                referral.document().labs().orElse(List.of()),
                other -> other.test().equals(lab.test())
                        && other.value().isPresent()
                        && day(other).isAfter(day(lab)));
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
