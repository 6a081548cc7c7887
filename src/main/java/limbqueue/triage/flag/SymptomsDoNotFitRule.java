package limbqueue.triage.flag;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Relief;
import limbqueue.triage.ReferralDocument.Waveform;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.TbiBand;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.perfusion.Indices;
import limbqueue.triage.threshold.Limit;

/** Symptoms that good figures, relief by sitting or a narrow spinal canal explain otherwise. */
final class SymptomsDoNotFitRule implements FlagRule {

    private static final Set<Waveform> GOOD = EnumSet.of(Waveform.TRIPHASIC, Waveform.BIPHASIC);

    @Override
    public String code() {
        return "symptoms-do-not-fit";
    }

    @Override
    public Outcome look(Case referral) {
        var spine = referral.document().history().spinalStenosis().orElse(false);
        var painful =
                referral.legsWith(leg -> leg.claudication() || leg.restPain()).toList();
        var evidence = painful.stream()
                .flatMap(leg -> evidence(leg, referral, spine))
                .distinct()
                .toList();
        var waveforms = painful.stream()
                .filter(leg -> goodIndices(leg, referral) && waveform(leg).isEmpty())
                .map(leg -> leg.facts().path("pressures.waveform"))
                .toList();
        if (evidence.isEmpty() && !waveforms.isEmpty()) {
            return Outcome.cannotTell(waveforms);
        }
        return Outcome.onEvidence(
                "The symptoms do not fit blocked arteries: think of spine, nerve, vein and muscle.", evidence.stream());
    }

    private static Stream<String> evidence(LegPicture leg, Case referral, boolean spine) {
        var good =
                goodIndices(leg, referral) && waveform(leg).map(GOOD::contains).orElse(false);
        return Stream.of(
                        good ? FlagEvidence.ankleIndex(leg, referral) : Stream.<String>empty(),
                        good ? Stream.of(leg.facts().path("pressures.waveform")) : Stream.<String>empty(),
                        leg.leg().claudication().relief().equals(Optional.of(Relief.SITTING))
                                ? Stream.of(leg.facts().path("claudication.relief"))
                                : Stream.<String>empty(),
                        spine ? Stream.of("history.spinalStenosis") : Stream.<String>empty())
                .flatMap(paths -> paths);
    }

    private static Optional<Waveform> waveform(LegPicture leg) {
        return leg.leg().pressures().waveform();
    }

    /** Rest pain or claudication at a short distance although the indices are normal, and stay so after exercise. */
    private static boolean goodIndices(LegPicture leg, Case referral) {
        var limits = referral.limits();
        var arms = referral.document().armPressures();
        var shortDistance = leg.leg()
                .claudication()
                .distanceMetres()
                .map(distance -> distance.value() <= limits.of(Limit.FONTAINE_IIB_AT_MOST))
                .orElse(false);
        var abi = leg.facts().figures().abi();
        var tbi = Indices.tbi(leg.leg(), arms, limits);
        var toe = leg.leg()
                .pressures()
                .toe()
                .map(pressure -> pressure.value() >= limits.of(Limit.WIFI_ISCHAEMIA_0_TOE_AT_LEAST))
                .orElse(false);
        return (leg.restPain() || shortDistance)
                && abi.map(index -> index.band() == AbiBand.NORMAL).orElse(false)
                && tbi.map(index -> index.band() == TbiBand.NORMAL).orElse(toe)
                && !Indices.fallsWithExercise(leg.leg(), arms, limits);
    }
}
