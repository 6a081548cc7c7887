package limbqueue.triage.flag;

import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Relief;
import limbqueue.triage.ReferralDocument.Waveform;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.TbiBand;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.perfusion.Indices;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Source;

/** Symptoms that good figures, relief by sitting or a narrow spinal canal explain otherwise. */
final class SymptomsDoNotFitRule implements FlagRule {

    @Override
    public String code() {
        return "symptoms-do-not-fit";
    }

    @Override
    public String source() {
        return Source.TASC_2007;
    }

    @Override
    public Outcome look(Case referral) {
        var spine = referral.document().history().spinalStenosis().orElse(false);
        return Outcome.onEvidence(
                "The symptoms do not fit blocked arteries: think of spine, nerve, vein and muscle.",
                referral.legsWith(leg -> leg.claudication() || leg.restPain())
                        .flatMap(leg -> evidence(leg, referral, spine)));
    }

    private static Stream<String> evidence(LegPicture leg, Case referral, boolean spine) {
        return Stream.of(
                        goodFigures(leg, referral) ? FlagEvidence.ankleIndex(leg, referral) : Stream.<String>empty(),
                        leg.leg().claudication().relief().equals(Optional.of(Relief.SITTING))
                                ? Stream.of(leg.facts().path("claudication.relief"))
                                : Stream.<String>empty(),
                        spine ? Stream.of("history.spinalStenosis") : Stream.<String>empty())
                .flatMap(paths -> paths);
    }

    /** Rest pain or claudication at a short distance although index, toe index and waveform are normal. */
    private static boolean goodFigures(LegPicture leg, Case referral) {
        var shortDistance = leg.leg()
                .claudication()
                .distanceMetres()
                .map(distance -> distance.value() <= referral.limits().of(Limit.FONTAINE_IIB_AT_MOST))
                .orElse(false);
        var abi = leg.facts().figures().abi();
        var tbi = Indices.tbi(leg.leg(), referral.document().armPressures(), referral.limits());
        var toe = leg.leg()
                .pressures()
                .toe()
                .map(pressure -> pressure.value() >= referral.limits().of(Limit.WIFI_ISCHAEMIA_0_TOE_AT_LEAST))
                .orElse(false);
        var waveform = leg.leg()
                .pressures()
                .waveform()
                .map(form -> form == Waveform.TRIPHASIC || form == Waveform.BIPHASIC)
                .orElse(true);
        return (leg.restPain() || shortDistance)
                && abi.map(index -> index.band() == AbiBand.NORMAL).orElse(false)
                && tbi.map(index -> index.band() == TbiBand.NORMAL).orElse(toe)
                && waveform;
    }
}
