package limbqueue.triage.finding;

import java.util.EnumSet;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.anatomy.Narrowing;

/** Where a referral shows, or lets expect, disease of the iliac arteries. */
public final class IliacDisease {

    private static final Set<Segment> ILIAC =
            EnumSet.of(Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);

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

    /**
     * Whether a lesion can rupture when it is opened, so that a covered stent has to be in the room: an iliac occlusion or
     * a calcified iliac narrowing (common practice). Aorta below the kidneys and iliac arteries go together in this.
     */
    public static boolean canRupture(Segment segment, Narrowing narrowing, Calcification calcification) {
        return (ILIAC.contains(segment) || segment == Segment.INFRARENAL_AORTA)
                && (narrowing == Narrowing.OCCLUSION
                        || (narrowing == Narrowing.STENOSIS && calcification != Calcification.NONE));
    }

    /** As above, with what imaging has not told taken at its most serious. */
    public static boolean canRupture(LesionFacts lesion) {
        return canRupture(
                lesion.segment(),
                lesion.narrowing().acting(),
                lesion.calcification().acting());
    }
}
