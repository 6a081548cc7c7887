package limbqueue.triage.flag;

import java.util.Optional;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limit;

/** A sudden onset or a sudden worsening within two weeks. */
final class SuddenChangeRule implements FlagRule {

    @Override
    public String code() {
        return "sudden-change";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "Sudden onset or sudden worsening within two weeks: acute on chronic ischaemia is possible.",
                referral.legsWith(leg -> leg.acute() || suddenClaudication(leg, referral))
                        .map(leg -> leg.facts()
                                .path(
                                        leg.acute() && !suddenClaudication(leg, referral)
                                                ? "acute"
                                                : "claudication.course")));
    }

    private static boolean suddenClaudication(LegPicture leg, Case referral) {
        var claudication = leg.leg().claudication();
        return claudication.course().equals(Optional.of(Course.SUDDEN))
                && claudication
                        .sinceDays()
                        .map(since -> since.days() <= referral.limits().whole(Limit.ACUTE_AT_MOST))
                        .orElse(true);
    }
}
