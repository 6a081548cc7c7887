package limbqueue.triage.grade;

import limbqueue.triage.ReferralDocument.Doppler;
import limbqueue.triage.ReferralDocument.Motor;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.question.Answers;

/**
 * Class of acute limb ischaemia: the most serious that a column of the published table allows.
 *
 * <p>Source: rutherford-1997, table of clinical categories of acute limb ischaemia.
 */
public final class AcuteClass {

    private AcuteClass() {}

    /** Whether there is new limb ischaemia in this leg. */
    public static boolean present(Answers answers) {
        return answers.of(LegTopics.ACUTE);
    }

    /** The class of a leg with new limb ischaemia. */
    public static Rutherford of(Answers answers) {
        var byVein =
                answers.of(LegTopics.VENOUS_DOPPLER) == Doppler.INAUDIBLE ? Rutherford.ACUTE_III : Rutherford.ACUTE_I;
        if (byVein == Rutherford.ACUTE_III) {
            return byVein;
        }
        var byMotor = bySensoryOrMotor(answers.of(LegTopics.MOTOR));
        if (byMotor == Rutherford.ACUTE_III) {
            return byMotor;
        }
        var bySensory = bySensoryOrMotor(answers.of(LegTopics.SENSORY));
        var worse = max(byMotor, bySensory);
        if (worse != Rutherford.ACUTE_I) {
            return worse;
        }
        return answers.of(LegTopics.ARTERIAL_DOPPLER) == Doppler.INAUDIBLE ? Rutherford.ACUTE_IIA : worse;
    }

    private static Rutherford bySensoryOrMotor(Motor motor) {
        return switch (motor) {
            case NONE -> Rutherford.ACUTE_I;
            case MILD -> Rutherford.ACUTE_IIB;
            case PARALYSIS -> Rutherford.ACUTE_III;
        };
    }

    private static Rutherford bySensoryOrMotor(Sensory sensory) {
        return switch (sensory) {
            case NONE -> Rutherford.ACUTE_I;
            case TOES -> Rutherford.ACUTE_IIA;
            case BEYOND_TOES -> Rutherford.ACUTE_IIB;
            case COMPLETE -> Rutherford.ACUTE_III;
        };
    }

    private static Rutherford max(Rutherford one, Rutherford other) {
        return one.compareTo(other) >= 0 ? one : other;
    }
}
