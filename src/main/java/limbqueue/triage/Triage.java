package limbqueue.triage;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.LinkedHashSet;
import java.util.Optional;
import limbqueue.triage.plan.CaseFeatures;
import limbqueue.triage.rule.RuleBook;

/** Triage of one referral. */
public final class Triage {

    private Triage() {}

    /**
     * What is proposed for {@code document} on the day {@code asOf} under {@code policy} and the rule book that comes
     * with the product.
     *
     * @return the proposal; the same for the same arguments, always
     */
    public static TriageResult triage(ReferralDocument document, Policy policy, LocalDate asOf) {
        return triage(document, policy, RuleBook.shipped(), asOf);
    }

    /**
     * What was or would be proposed by {@code book}.
     *
     * @return the proposal; the same for the same arguments, always
     */
    public static TriageResult triage(ReferralDocument document, Policy policy, RuleBook book, LocalDate asOf) {
        return new Assessment(document, policy, book, LegRules.drawn(), asOf).result();
    }

    /** The grades and the tier alone, as they are acted on. */
    public static Grading grade(ReferralDocument document, Policy policy, RuleBook book, LocalDate asOf) {
        return new Assessment(document, policy, book, LegRules.drawn(), asOf).grading();
    }

    /**
     * The work-up for a procedure that has a time: what must be held on that day, and when drugs are held and taken again.
     * Proposed on the day {@code asOf}, as everything else; a clinician decides.
     *
     * @param procedureAt the booked time, on the clock of the place
     */
    public static ProcedureWorkUp workUpFor(
            ReferralDocument document, Policy policy, RuleBook book, LocalDate asOf, LocalDateTime procedureAt) {
        return new Assessment(document, policy, book, LegRules.drawn(), asOf).workUpFor(procedureAt);
    }

    /**
     * What the time of the procedure depends on, as planned by {@code book}.
     *
     * @return nothing while no lesion of a leg that is treated is known, or where only advice is proposed
     */
    public static Optional<CaseFeatures> caseFeatures(
            ReferralDocument document, Policy policy, RuleBook book, LocalDate asOf) {
        return new Assessment(document, policy, book, LegRules.drawn(), asOf).caseFeatures();
    }

    /**
     * What would be acted on if {@code document} were {@code changed}: cheap enough to be asked for every answer that
     * somebody could give.
     */
    public static WhatIf whatIf(
            ReferralDocument document, ReferralDocument changed, Policy policy, RuleBook book, LocalDate asOf) {
        var before = new Assessment(document, policy, book, LegRules.drawn(), asOf);
        var after = new Assessment(changed, policy, book, LegRules.drawn(), asOf);
        var raised = new LinkedHashSet<>(after.flags());
        raised.removeAll(before.flags());
        var withdrawn = new LinkedHashSet<>(before.flags());
        withdrawn.removeAll(after.flags());
        return new WhatIf(before.grading(), after.grading(), after.targetDate(), raised, withdrawn);
    }
}
