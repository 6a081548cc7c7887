package limbqueue.triage.workup;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.DrugTiming;
import limbqueue.triage.Policy;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.finding.Case;
import limbqueue.triage.rule.RuleBook;

/**
 * What must be known or done before a procedure. An item that is already held and stays valid until the day of the
 * procedure is listed as not needed, with the last day of its validity.
 *
 * @param drugs what is proposed for each drug that clots, sugar or contrast make a matter of
 * @param questions what is not known and would change an item or a figure in it
 */
public record WorkUp(List<WorkUpItem> items, List<DrugTiming> drugs, List<OpenInput> questions) {

    /**
     * @param flags codes of the red flags raised
     * @param anatomy what the lesions amount to
     * @param at the booked time; while there is none, the target date counts and no times are worked out
     */
    public static WorkUp of(
            Case referral,
            Policy policy,
            RuleBook book,
            Set<String> flags,
            List<Anatomy> anatomy,
            Optional<LocalDateTime> at) {
        var on = Occasion.of(referral, policy, flags, anatomy, at);
        var sheet = new Sheet(on, book);
        List<DrugTiming> timings = List.of();
        SafetyCalls.propose(on, sheet);
        if (on.procedureAhead()) {
            KidneyCheck.propose(on, sheet);
            LaboratoryTests.propose(on, sheet);
            Pictures.propose(on, sheet);
            OutsideRecords.propose(on, sheet);
            var drugs = new DrugPlan(on, book);
            timings = drugs.timings();
            drugs.propose(timings, sheet);
            ContrastReaction.propose(on, sheet);
            HeartCheck.propose(on, sheet);
            BypassVeins.propose(on, sheet);
            ConsentRisks.propose(on, sheet);
        }
        LastingCare.propose(on, sheet);
        return new WorkUp(sheet.items(), timings, OpenInputs.of(on));
    }
}
