package limbqueue.triage.flag;

import java.util.Optional;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;

/** Suddenly painful or discoloured toes with palpable foot pulses. */
final class AtheroembolismRule implements FlagRule {

    @Override
    public String code() {
        return "atheroembolism";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "Sudden trouble at the toes although a foot pulse can be felt: look for a source of emboli; the pulse"
                        + " reassures falsely.",
                evidence(referral));
    }

    private static Evidence evidence(Case referral) {
        var evidence = new Evidence();
        referral.legsWith(leg -> leg.acute() && palpable(leg) && atToes(leg))
                .forEach(leg ->
                        evidence.add(leg.facts().path("acute")).add(leg.facts().path("pulses")));
        return evidence;
    }

    private static boolean palpable(LegPicture leg) {
        var pulses = leg.leg().pulses();
        return felt(pulses.dorsalisPedis()) || felt(pulses.posteriorTibial());
    }

    /** A weak pulse can be felt too. */
    private static boolean felt(Optional<Pulse> pulse) {
        return pulse.map(found -> found != Pulse.ABSENT).orElse(false);
    }

    private static boolean atToes(LegPicture leg) {
        var acute = leg.leg().acute();
        return acute.pain().orElse(false)
                || acute.pale().orElse(false)
                || acute.cold().orElse(false)
                || acute.sensory().equals(Optional.of(Sensory.TOES))
                || leg.gangrene() == Gangrene.DIGITS;
    }
}
