package limbqueue.triage.workup;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.finding.BleedingClass;
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
 * @param kidney kidney function, which many items go by
 * @param vesselMayRupture whether a vessel may rupture when it is opened, so that a covered stent must be at hand
 * @param bleedingClass by the usual sheath and the lesions
 * @param substances the names of the medicines, in lower case
 */
record Occasion(
        Case referral,
        Policy policy,
        Set<String> flags,
        List<Anatomy> anatomy,
        LocalDate day,
        Optional<LocalDateTime> at,
        Optional<KidneyFunction> kidney,
        boolean vesselMayRupture,
        BleedingClass bleedingClass,
        List<String> substances) {

    static Occasion of(
            Case referral, Policy policy, Set<String> flags, List<Anatomy> anatomy, Optional<LocalDateTime> at) {
        var wanted = at.map(LocalDateTime::toLocalDate).or(referral::targetDate).orElse(referral.asOf());
        var day = wanted.isBefore(referral.asOf()) ? referral.asOf() : wanted;
        return new Occasion(
                referral,
                policy,
                flags,
                anatomy,
                day,
                at,
                KidneyFunction.latest(referral.document(), referral.asOf()),
                PlannedSheath.mayRupture(referral.document(), referral.limits()),
                BleedingClass.of(PlannedSheath.of(referral.limits()).french(), referral.document(), referral.limits()),
                substances(referral.document()));
    }

    private static List<String> substances(ReferralDocument document) {
        var names = new ArrayList<String>();
        for (var medicine : document.medicines().orElse(List.of())) {
            medicine.name().ifPresent(name -> names.add(name.toLowerCase(Locale.ROOT)));
        }
        return names;
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

    PlannedSheath sheath() {
        return PlannedSheath.of(limits());
    }

    boolean dialysis() {
        return history().dialysis().orElse(false);
    }

    /** Age in whole years today. */
    Optional<Long> age() {
        return document().patient().born().map(born -> ChronoUnit.YEARS.between(born, asOf()));
    }

    boolean takes(Predicate<String> substance) {
        for (var name : substances) {
            if (substance.test(name)) {
                return true;
            }
        }
        return false;
    }
}
