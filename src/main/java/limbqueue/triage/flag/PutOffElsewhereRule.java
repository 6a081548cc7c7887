package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** Treatment of rest pain or tissue loss was put off elsewhere. */
final class PutOffElsewhereRule implements FlagRule {

    @Override
    public String code() {
        return "put-off-elsewhere";
    }

    @Override
    public Outcome look(Case referral) {
        var deferred = referral.document().deferredElsewhere();
        var threatened = referral.legsWith(leg -> leg.threatening());
        if (threatened.isEmpty()) {
            return Outcome.silent();
        }
        if (deferred.days().isEmpty()) {
            return deferred.where().isPresent() || deferred.reason().isPresent()
                    ? Outcome.cannotTell("deferredElsewhere.days")
                    : Outcome.silent();
        }
        return deferred.days().get().days() >= referral.limits().whole(Limit.DEFERRED_AT_LEAST)
                ? Outcome.fires(
                        Sentence.of(
                                        "Treatment was put off elsewhere for %d days although the leg hurts at rest or has tissue loss:",
                                        deferred.days().get().days())
                                + " the waiting began there.",
                        evidence(threatened))
                : Outcome.silent();
    }

    private static List<String> evidence(List<LegPicture> threatened) {
        var evidence = new Evidence().add("deferredElsewhere.days");
        threatened.forEach(leg -> FlagEvidence.threat(leg, evidence));
        return evidence.paths();
    }
}
