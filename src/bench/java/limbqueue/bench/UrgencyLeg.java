package limbqueue.bench;

import java.util.Objects;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.grade.LegTopics;
import limbqueue.triage.grade.LegTopics.Walking;
import limbqueue.triage.grade.WifiTable;
import limbqueue.triage.grade.WoundGrade;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Facts;
import limbqueue.triage.question.Topic;
import limbqueue.triage.urgency.LegUrgency.Rule;
import org.jspecify.annotations.Nullable;

/** One leg with every answer that is acted on, ready for the rules of {@code urgency.drl}, and what they conclude. */
public final class UrgencyLeg {

    /** What is acted on, known or not. */
    private record Acting(Facts facts) implements Answers {
        @Override
        public <T> T of(Topic<T> topic) {
            return facts.of(topic).acting();
        }
    }

    private final boolean acute;
    private final int infection;
    private final boolean deepInfection;
    private final Gangrene gangrene;
    private final boolean tissueLoss;
    private final boolean spreading;
    private final int ischaemia;
    private final boolean distalFigure;
    private final int stage;
    private final boolean restPain;
    private final boolean lateAfterSuddenOnset;
    private final boolean largePoplitealAneurysm;
    private final boolean claudication;
    private final boolean earlierRepairOccluded;
    private final boolean abandonedProcedure;
    private final boolean worsening;
    private final boolean shortDistance;
    private final boolean lowAtAnkle;
    private final boolean limitsLife;
    private @Nullable Rule concluded;

    UrgencyLeg(Facts facts) {
        var answers = new Acting(facts);
        acute = answers.of(LegTopics.ACUTE);
        infection = answers.of(LegTopics.INFECTION).grade();
        deepInfection = answers.of(LegTopics.INFECTION).deep();
        gangrene = answers.of(LegTopics.GANGRENE);
        tissueLoss = gangrene != Gangrene.NONE || answers.of(LegTopics.ULCER) != Ulcer.NONE;
        spreading = answers.of(LegTopics.SPREADING);
        ischaemia = answers.of(LegTopics.SUPPLY_OF_TISSUE).ischaemia();
        distalFigure = answers.of(LegTopics.SUPPLY_OF_TISSUE).distal();
        stage = WifiTable.stage(WoundGrade.of(answers), ischaemia, infection);
        restPain = answers.of(LegTopics.REST_PAIN);
        lateAfterSuddenOnset = answers.of(LegTopics.LATE_AFTER_SUDDEN_ONSET);
        largePoplitealAneurysm = answers.of(LegTopics.LARGE_POPLITEAL_ANEURYSM);
        claudication = answers.of(LegTopics.CLAUDICATION);
        earlierRepairOccluded = answers.of(LegTopics.EARLIER_REPAIR_OCCLUDED);
        abandonedProcedure = answers.of(LegTopics.ABANDONED_PROCEDURE);
        worsening = answers.of(LegTopics.WORSENING);
        shortDistance = answers.of(LegTopics.WALKING) == Walking.SHORT;
        lowAtAnkle = answers.of(LegTopics.LOW_AT_ANKLE);
        limitsLife = answers.of(LegTopics.LIMITS_LIFE);
    }

    /** Called by the rules. */
    public void conclude(Rule rule) {
        concluded = rule;
    }

    /** What the rules concluded since this was last called. */
    Rule takeConclusion() {
        var rule = Objects.requireNonNull(concluded, "no rule concluded anything");
        concluded = null;
        return rule;
    }

    public boolean isAcute() {
        return acute;
    }

    /** WIfI foot infection grade, 0 to 3. */
    public int getInfection() {
        return infection;
    }

    public boolean isDeepInfection() {
        return deepInfection;
    }

    public Gangrene getGangrene() {
        return gangrene;
    }

    public boolean isTissueLoss() {
        return tissueLoss;
    }

    public boolean isSpreading() {
        return spreading;
    }

    /** WIfI ischaemia grade, 0 to 3. */
    public int getIschaemia() {
        return ischaemia;
    }

    public boolean isDistalFigure() {
        return distalFigure;
    }

    /** WIfI stage, 1 to 4. */
    public int getStage() {
        return stage;
    }

    public boolean isRestPain() {
        return restPain;
    }

    public boolean isLateAfterSuddenOnset() {
        return lateAfterSuddenOnset;
    }

    public boolean isLargePoplitealAneurysm() {
        return largePoplitealAneurysm;
    }

    public boolean isClaudication() {
        return claudication;
    }

    public boolean isEarlierRepairOccluded() {
        return earlierRepairOccluded;
    }

    public boolean isAbandonedProcedure() {
        return abandonedProcedure;
    }

    public boolean isWorsening() {
        return worsening;
    }

    public boolean isShortDistance() {
        return shortDistance;
    }

    public boolean isLowAtAnkle() {
        return lowAtAnkle;
    }

    public boolean isLimitsLife() {
        return limitsLife;
    }
}
