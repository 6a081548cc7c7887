package limbqueue.triage.grade;

import java.util.List;
import limbqueue.triage.ReferralDocument.Doppler;
import limbqueue.triage.ReferralDocument.Exposes;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Motor;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.grade.InfectionGrade.Infection;
import limbqueue.triage.perfusion.Supply;
import limbqueue.triage.question.Topic;

/** What the rules ask about one leg. */
public final class LegTopics {

    /** How far somebody walks without pain, as far as rules tell distances apart. */
    public enum Walking {
        SHORT,
        FONTAINE_IIB,
        FONTAINE_IIA
    }

    /** The ankle pressure after exercise, as far as rules tell it apart; nothing stands in for it. */
    public enum AfterExercise {
        NOT_MEASURED,
        SEVERE,
        NOT_SEVERE
    }

    public static final Topic<Boolean> ACUTE = Topic.yesOrNo("acute");
    public static final Topic<Sensory> SENSORY = Topic.of("sensory loss", List.of(Sensory.values()));
    public static final Topic<Motor> MOTOR = Topic.of("motor loss", List.of(Motor.values()));
    public static final Topic<Doppler> ARTERIAL_DOPPLER = Topic.of("arterial Doppler", List.of(Doppler.values()));
    public static final Topic<Doppler> VENOUS_DOPPLER = Topic.of("venous Doppler", List.of(Doppler.values()));
    public static final Topic<Boolean> LATE_AFTER_SUDDEN_ONSET = Topic.yesOrNo("late after sudden onset");

    public static final Topic<Gangrene> GANGRENE = Topic.of("gangrene", List.of(Gangrene.values()));
    public static final Topic<Ulcer> ULCER = Topic.of("ulcer", List.of(Ulcer.values()));

    /** Forefoot stands for the sites that no rule tells apart from it. */
    public static final Topic<WoundSite> WOUND_SITE =
            Topic.of("wound site", List.of(WoundSite.FOREFOOT, WoundSite.MIDFOOT, WoundSite.HEEL));

    /** Nothing stands for the distal phalanx too, which the wound table lets be exposed in a shallow ulcer. */
    public static final Topic<Exposes> EXPOSES =
            Topic.of("exposed", List.of(Exposes.NOTHING, Exposes.BONE_JOINT_OR_TENDON, Exposes.CALCANEUS));

    public static final Topic<Boolean> SPREADING = Topic.yesOrNo("spreading");
    public static final Topic<Boolean> ULCER_LASTING = Topic.yesOrNo("ulcer lasting");

    public static final Topic<Boolean> REST_PAIN = Topic.yesOrNo("rest pain");
    public static final Topic<Boolean> REST_PAIN_LASTING = Topic.yesOrNo("rest pain lasting");
    public static final Topic<Boolean> CLAUDICATION = Topic.yesOrNo("claudication");
    public static final Topic<Walking> WALKING = Topic.of("walking", List.of(Walking.values()));
    public static final Topic<AfterExercise> AFTER_EXERCISE =
            Topic.of("ankle pressure after exercise", List.of(AfterExercise.values()));
    public static final Topic<Boolean> LIMITS_LIFE = Topic.yesOrNo("limits life");
    public static final Topic<Boolean> WORSENING = Topic.yesOrNo("worsening");

    public static final Topic<Boolean> DEEP_INFECTION = Topic.yesOrNo("deep infection");
    public static final Topic<Boolean> LOCALLY_INFECTED = Topic.yesOrNo("locally infected");
    public static final Topic<Boolean> WIDELY_RED = Topic.yesOrNo("widely red");
    public static final Topic<Boolean> TEMPERATURE_OFF = Topic.yesOrNo("temperature off");
    public static final Topic<Boolean> HEART_RATE_HIGH = Topic.yesOrNo("heart rate high");
    public static final Topic<Boolean> BREATHING_FAST = Topic.yesOrNo("breathing fast");
    public static final Topic<Boolean> WHITE_CELLS_OFF = Topic.yesOrNo("white cells off");

    /** The infection of the foot, from facts that nothing else asks about. */
    public static final Topic<Infection> INFECTION = Topic.of("infection", Infection.ALL);

    /*
     * The supply of the leg is one fact that rules look at from several sides; no rule looks at it from two sides on one
     * way, since the sides would then be answered apart.
     */

    /** For rules about wounds. */
    public static final Topic<Supply.OfTissue> SUPPLY_OF_TISSUE = Topic.of("supply of tissue", Supply.OfTissue.ALL);

    /** For the definition of limb-threatening ischaemia. */
    public static final Topic<Supply.AtRest> SUPPLY_AT_REST = Topic.of("supply at rest", Supply.AtRest.ALL);

    /** Whether the ankle figures are low enough to deal with claudication soon. */
    public static final Topic<Boolean> LOW_AT_ANKLE = Topic.yesOrNo("low at the ankle");

    /** WIfI ischaemia grade. */
    public static final Topic<Integer> ISCHAEMIA = Topic.of("ischaemia", List.of(0, 1, 2, 3));

    private LegTopics() {}
}
