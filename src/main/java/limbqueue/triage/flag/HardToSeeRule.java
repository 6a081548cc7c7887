package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.IliacDisease;

/** Metal in spine, hip or pelvis over diseased iliac arteries. */
final class HardToSeeRule implements FlagRule {

    @Override
    public String code() {
        return "hard-to-see";
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        var hardware = Stream.of(
                        history.spinalHardware().orElse(false)
                                ? Stream.of("history.spinalHardware")
                                : Stream.<String>empty(),
                        history.hipOrPelvicHardware().orElse(false)
                                ? Stream.of("history.hipOrPelvicHardware")
                                : Stream.<String>empty())
                .flatMap(paths -> paths)
                .toList();
        var iliac = IliacDisease.evidence(referral).toList();
        return hardware.isEmpty() || iliac.isEmpty()
                ? Outcome.silent()
                : Outcome.fires(
                        "Metal lies over diseased iliac arteries: one projection deceives, plan several obliques.",
                        Stream.concat(hardware.stream(), iliac.stream()).toList());
    }
}
