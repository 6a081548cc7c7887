package limbqueue.triage.finding;

import java.util.Set;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Segment;

/** Where a referral shows, or lets expect, disease of the iliac arteries. */
public final class IliacDisease {

    private static final Set<Segment> ILIAC =
            Set.of(Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);

    private IliacDisease() {}

    /** Paths of iliac lesions, and of femoral pulses that are weak or absent. */
    public static Evidence evidence(Case referral) {
        var evidence = new Evidence().entries("lesions", referral.document().lesions(), IliacDisease::iliac, "segment");
        referral.legsWith(leg -> leg.leg()
                        .pulses()
                        .femoral()
                        .map(pulse -> pulse != Pulse.PRESENT)
                        .orElse(false))
                .forEach(leg -> evidence.add(leg.facts().path("pulses.femoral")));
        return evidence;
    }

    public static boolean iliac(Lesion lesion) {
        return lesion.segment().map(ILIAC::contains).orElse(false);
    }
}
