package limbqueue.triage.workup;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.LatestLab;
import limbqueue.triage.finding.PlannedSheath;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limits;

/**
 * A referral and the day for which it is prepared.
 *
 * @param flags codes of the red flags raised
 * @param day the day of the procedure: the booked one, else the target date, else today; never before today
 * @param at the booked time
 */
record Occasion(
        Case referral,
        Policy policy,
        Set<String> flags,
        List<Anatomy> anatomy,
        LocalDate day,
        Optional<LocalDateTime> at) {

    static Occasion of(
            Case referral, Policy policy, Set<String> flags, List<Anatomy> anatomy, Optional<LocalDateTime> at) {
        var wanted = at.map(LocalDateTime::toLocalDate).or(referral::targetDate).orElse(referral.asOf());
        var day = wanted.isBefore(referral.asOf()) ? referral.asOf() : wanted;
        return new Occasion(referral, policy, flags, anatomy, day, at);
    }

    ReferralDocument document() {
        return referral.document();
    }

    ReferralDocument.History history() {
        return document().history();
    }

    Limits limits() {
        return referral.limits();
    }

    LocalDate asOf() {
        return referral.asOf();
    }

    /** Whether a procedure is ahead: for advice only nothing is prepared. */
    boolean procedureAhead() {
        return referral.tier() != Tier.ADVICE_ONLY || at.isPresent();
    }

    boolean anyLeg(Predicate<LegPicture> condition) {
        return referral.anyLeg(condition);
    }

    boolean flag(String code) {
        return flags.contains(code);
    }

    Optional<LatestLab> lab(LabTest test) {
        return LatestLab.of(document(), test);
    }

    Optional<KidneyFunction> kidney() {
        return KidneyFunction.latest(document(), asOf());
    }

    PlannedSheath sheath() {
        return PlannedSheath.of(limits());
    }

    boolean vesselMayRupture() {
        return PlannedSheath.mayRupture(document(), limits());
    }

    boolean dialysis() {
        return history().dialysis().orElse(false);
    }

    /** Age in whole years today. */
    Optional<Long> age() {
        return document().patient().born().map(born -> ChronoUnit.YEARS.between(born, asOf()));
    }

    boolean takes(Predicate<String> substance) {
        return document().medicines().orElse(List.of()).stream()
                .anyMatch(medicine -> medicine.name().map(substance::test).orElse(false));
    }
}
