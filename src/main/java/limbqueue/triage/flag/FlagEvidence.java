package limbqueue.triage.flag;

import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.TriageResult.IndexOrigin;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;

/** The fields that several flags rest on. */
final class FlagEvidence {

    private FlagEvidence() {}

    /** Rest pain, ulcer, gangrene of a leg, as far as they are there. */
    static Stream<String> threat(LegPicture leg) {
        return Stream.of(
                        leg.restPain() ? Optional.of("restPain.present") : Optional.<String>empty(),
                        leg.ulcer() != Ulcer.NONE ? Optional.of("wound.ulcer") : Optional.<String>empty(),
                        leg.gangrene() != Gangrene.NONE ? Optional.of("wound.gangrene") : Optional.<String>empty())
                .flatMap(Optional::stream)
                .map(leg.facts()::path);
    }

    /** The complaints of a leg, as far as they are there. */
    static Stream<String> symptom(LegPicture leg) {
        return Stream.of(
                        threat(leg),
                        Stream.of(
                                        leg.claudication() ? "claudication.present" : "",
                                        leg.acute() ? "acute" : "",
                                        leg.infection() > 0 ? "infection" : "")
                                .filter(field -> !field.isEmpty())
                                .map(leg.facts()::path))
                .flatMap(paths -> paths);
    }

    /** The fields from which the ankle-brachial index of a leg came. */
    static Stream<String> ankleIndex(LegPicture leg, Case referral) {
        var reported = leg.facts()
                .figures()
                .abi()
                .map(abi -> abi.from() == IndexOrigin.REPORTED)
                .orElse(false);
        if (reported) {
            return Stream.of(leg.facts().path("abi"));
        }
        var pressures = leg.leg().pressures();
        var arms = referral.document().armPressures();
        return Stream.of(
                        pressures.dorsalisPedis().map(value -> leg.facts().path("pressures.dorsalisPedis")),
                        pressures.posteriorTibial().map(value -> leg.facts().path("pressures.posteriorTibial")),
                        arms.left().map(value -> "armPressures.left"),
                        arms.right().map(value -> "armPressures.right"))
                .flatMap(Optional::stream);
    }
}
