package limbqueue.policy;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.Placing;
import limbqueue.referral.ReferralState;
import limbqueue.triage.TriageResult;

/**
 * What a policy would propose for every referral that is still to be decided, beside what is proposed without it.
 *
 * @param asOf the first day on which it would count; both sides are as of that day
 * @param without id of the policy that counts on that day otherwise
 * @param lines those that move first, then those that get another work-up, then those that stay; each by urgency
 */
public record PolicyPreview(LocalDate asOf, String without, List<Line> lines) {

    public PolicyPreview {
        lines = List.copyOf(lines);
    }

    /**
     * One referral.
     *
     * @param patient family and given name, as far as known
     */
    public record Line(
            long id,
            String reference,
            String patient,
            ReferralState state,
            Placing before,
            Placing after,
            List<WorkUp> workUpBefore,
            List<WorkUp> workUpAfter) {

        /** Whether tier, target date or red flags become others. */
        public boolean moves() {
            return after.differsFrom(before);
        }

        /** Whether something else must be asked, or a result counts for another time. */
        public boolean workUpChanges() {
            return !workUpBefore.equals(workUpAfter);
        }
    }

    /**
     * An item of the work-up, as far as a policy can change it.
     *
     * @param validUntil the last day on which a result already held may be used
     */
    public record WorkUp(String code, String text, boolean needed, Optional<LocalDate> validUntil) {

        static List<WorkUp> of(TriageResult proposal) {
            return proposal.workUp().stream()
                    .map(item -> new WorkUp(item.code(), item.text(), item.needed(), item.validUntil()))
                    .toList();
        }
    }

    public List<Line> moving() {
        return lines.stream().filter(Line::moves).toList();
    }

    /** Those that do not move but get another work-up. */
    public List<Line> otherWorkUp() {
        return lines.stream()
                .filter(line -> !line.moves() && line.workUpChanges())
                .toList();
    }

    public List<Line> staying() {
        return lines.stream()
                .filter(line -> !line.moves() && !line.workUpChanges())
                .toList();
    }
}
