package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.finding.Case;
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
        var threatened = referral.legsWith(leg -> leg.threatening()).toList();
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
                        Stream.concat(
                                        Stream.of("deferredElsewhere.days"),
                                        threatened.stream().flatMap(FlagEvidence::threat))
                                .toList())
                : Outcome.silent();
    }
}
