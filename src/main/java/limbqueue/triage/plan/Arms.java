package limbqueue.triage.plan;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.Place;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Side;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * Which arm to go in by: the left, from which the way is shorter and passes no artery of the brain, unless it is at
 * risk.
 */
final class Arms {

    /** Which arm has the clearly lower pressure, and so perhaps a narrowed artery. */
    enum Weaker {
        NEITHER,
        LEFT,
        RIGHT
    }

    private final ReferralDocument document;
    private final Limits limits;
    private final EarlierProcedures earlier;
    private final PlanAnswers answers;

    Arms(ReferralDocument document, Limits limits, EarlierProcedures earlier, PlanAnswers answers) {
        this.document = document;
        this.limits = limits;
        this.earlier = earlier;
        this.answers = answers;
    }

    AccessSite site(Side treated) {
        var side = risk(Side.LEFT, treated) <= risk(Side.RIGHT, treated) ? Side.LEFT : Side.RIGHT;
        return AccessSite.of(side, Place.BRACHIAL);
    }

    /** A graft weighs more than a narrowed artery, and this more than an earlier attempt. */
    private int risk(Side arm, Side treated) {
        return (weaker() == Weaker.valueOf(arm.name()) ? 4 : 0)
                + (arm == Side.LEFT && graft() ? 8 : 0)
                + (earlier.against(AccessSite.of(arm, Place.BRACHIAL), treated).isPresent() ? 1 : 0);
    }

    private boolean graft() {
        var history = document.history();
        return answers.of(PlanFact.yesOrNo(
                "history.leftInternalMammaryGraft",
                history.coronaryBypass().equals(Optional.of(false))
                        ? Optional.of(history.leftInternalMammaryGraft().orElse(false))
                        : history.leftInternalMammaryGraft(),
                "Has the patient a bypass from the left internal mammary artery to the heart?"));
    }

    private Weaker weaker() {
        var known = known(document.armPressures(), limits);
        if (known.isPresent()) {
            return known.get();
        }
        var arms = document.armPressures();
        var left = arms.left().isPresent() ? Weaker.NEITHER : unmeasured(Side.LEFT);
        return left != Weaker.NEITHER || arms.right().isPresent() ? left : unmeasured(Side.RIGHT);
    }

    private Weaker unmeasured(Side arm) {
        return answers.of(new PlanFact<>(
                arm == Side.LEFT ? "armPressures.left" : "armPressures.right",
                Optional.empty(),
                Weaker.NEITHER,
                List.of(Weaker.values()),
                arm == Side.LEFT
                        ? "What is the blood pressure in the left arm?"
                        : "What is the blood pressure in the right arm?"));
    }

    /** Empty where an arm has not been measured. */
    static Optional<Weaker> known(ReferralDocument.ArmPressures arms, Limits limits) {
        return arms.left()
                .flatMap(left -> arms.right().map(right -> {
                    var difference = left.value() - right.value();
                    if (Math.abs(difference) < limits.of(Limit.ARM_DIFFERENCE_AT_LEAST)) {
                        return Weaker.NEITHER;
                    }
                    return difference < 0 ? Weaker.LEFT : Weaker.RIGHT;
                }));
    }
}
