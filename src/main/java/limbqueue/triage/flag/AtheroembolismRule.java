package limbqueue.triage.flag;

import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.finding.Case;
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
                referral.legsWith(leg -> leg.acute() && palpable(leg) && atToes(leg))
                        .flatMap(leg ->
                                Stream.of(leg.facts().path("acute"), leg.facts().path("pulses"))));
    }

    private static boolean palpable(LegPicture leg) {
        var pulses = leg.leg().pulses();
        return pulses.dorsalisPedis().equals(Optional.of(Pulse.PRESENT))
                || pulses.posteriorTibial().equals(Optional.of(Pulse.PRESENT));
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
