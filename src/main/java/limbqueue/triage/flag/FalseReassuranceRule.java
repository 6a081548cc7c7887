package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;

/** A normal or unmeasurable ankle index in a leg whose arteries may be calcified. */
final class FalseReassuranceRule implements FlagRule {

    @Override
    public String code() {
        return "false-reassurance";
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        var calcifying = Stream.of(
                        history.diabetes().orElse(false) ? Stream.of("history.diabetes") : Stream.<String>empty(),
                        history.dialysis().orElse(false) ? Stream.of("history.dialysis") : Stream.<String>empty())
                .flatMap(paths -> paths)
                .toList();
        var suspects =
                referral.legsWith(leg -> unreliable(leg) && leg.symptoms()).toList();
        var evidence = suspects.stream()
                .filter(leg -> leg.threatening() || !calcifying.isEmpty())
                .flatMap(leg -> Stream.of(
                                FlagEvidence.ankleIndex(leg, referral),
                                FlagEvidence.symptom(leg),
                                leg.threatening() ? Stream.<String>empty() : calcifying.stream())
                        .flatMap(paths -> paths))
                .distinct()
                .toList();
        var unknown = Stream.of(
                        history.diabetes().isEmpty() ? Stream.of("history.diabetes") : Stream.<String>empty(),
                        history.dialysis().isEmpty() ? Stream.of("history.dialysis") : Stream.<String>empty())
                .flatMap(paths -> paths)
                .toList();
        if (evidence.isEmpty() && !suspects.isEmpty() && !unknown.isEmpty()) {
            return Outcome.cannotTell(unknown);
        }
        return Outcome.onEvidence(
                "The ankle-brachial index is normal or cannot be measured, which calcified arteries can feign: rely on toe"
                        + " pressure or toe-brachial index.",
                evidence.stream());
    }

    private static boolean unreliable(LegPicture leg) {
        return leg.facts()
                .figures()
                .abi()
                .map(abi -> abi.band() == AbiBand.NORMAL || abi.band() == AbiBand.NONCOMPRESSIBLE)
                .orElse(false);
    }
}
