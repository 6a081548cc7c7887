package limbqueue.triage.flag;

import java.util.List;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.ArmPressures;
import limbqueue.triage.finding.Case;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** Arm pressures that differ, or an internal mammary graft fed by the weaker arm. */
final class ArmAccessRule implements FlagRule {

    @Override
    public String code() {
        return "arm-access-risk";
    }

    @Override
    public Outcome look(Case referral) {
        var arms = referral.document().armPressures();
        var graft = referral.document().history().leftInternalMammaryGraft().orElse(false);
        if (arms.left().isEmpty() || arms.right().isEmpty()) {
            return graft ? Outcome.cannotTell(notMeasured(arms)) : Outcome.silent();
        }
        var left = arms.left().get().value();
        var right = arms.right().get().value();
        if (Math.abs(left - right) >= referral.limits().of(Limit.ARM_DIFFERENCE_AT_LEAST)) {
            return Outcome.fires(
                    Sentence.of(
                                    "The arm pressures differ by %.0f mmHg: suspect a narrowed subclavian or axillary artery on the %s",
                                    Math.abs(left - right), left < right ? "left" : "right")
                            + " before an arm is used for access.",
                    List.of("armPressures.left", "armPressures.right"));
        }
        return graft && left < right
                ? Outcome.fires(
                        "The left arm, which feeds the internal mammary graft, has the lower pressure: the graft is at"
                                + " stake if that arm is used.",
                        List.of("history.leftInternalMammaryGraft", "armPressures.left", "armPressures.right"))
                : Outcome.silent();
    }

    private static List<String> notMeasured(ArmPressures arms) {
        return Stream.of(
                        arms.left().isEmpty() ? Stream.of("armPressures.left") : Stream.<String>empty(),
                        arms.right().isEmpty() ? Stream.of("armPressures.right") : Stream.<String>empty())
                .flatMap(paths -> paths)
                .toList();
    }
}
