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
import limbqueue.triage.question.Agenda;
import limbqueue.triage.question.Facts;
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

    private static final Agenda AGENDA = new Agenda();

    public static final Topic<Boolean> ACUTE = AGENDA.yesOrNo("acute");
    public static final Topic<Sensory> SENSORY = AGENDA.topic("sensory loss", List.of(Sensory.values()));
    public static final Topic<Motor> MOTOR = AGENDA.topic("motor loss", List.of(Motor.values()));
    public static final Topic<Doppler> ARTERIAL_DOPPLER = AGENDA.topic("arterial Doppler", List.of(Doppler.values()));
    public static final Topic<Doppler> VENOUS_DOPPLER = AGENDA.topic("venous Doppler", List.of(Doppler.values()));
    public static final Topic<Boolean> LATE_AFTER_SUDDEN_ONSET = AGENDA.yesOrNo("late after sudden onset");

    public static final Topic<Gangrene> GANGRENE = AGENDA.topic("gangrene", List.of(Gangrene.values()));
    public static final Topic<Ulcer> ULCER = AGENDA.topic("ulcer", List.of(Ulcer.values()));

    /** Forefoot stands for the sites that no rule tells apart from it. */
    public static final Topic<WoundSite> WOUND_SITE =
            AGENDA.topic("wound site", List.of(WoundSite.FOREFOOT, WoundSite.MIDFOOT, WoundSite.HEEL));

    /** Nothing stands for the distal phalanx too, which the wound table lets be exposed in a shallow ulcer. */
    public static final Topic<Exposes> EXPOSES =
            AGENDA.topic("exposed", List.of(Exposes.NOTHING, Exposes.BONE_JOINT_OR_TENDON, Exposes.CALCANEUS));

    public static final Topic<Boolean> SPREADING = AGENDA.yesOrNo("spreading");
    public static final Topic<Boolean> ULCER_LASTING = AGENDA.yesOrNo("ulcer lasting");

    public static final Topic<Boolean> REST_PAIN = AGENDA.yesOrNo("rest pain");
    public static final Topic<Boolean> REST_PAIN_LASTING = AGENDA.yesOrNo("rest pain lasting");
    public static final Topic<Boolean> CLAUDICATION = AGENDA.yesOrNo("claudication");
    public static final Topic<Walking> WALKING = AGENDA.topic("walking", List.of(Walking.values()));
    public static final Topic<AfterExercise> AFTER_EXERCISE =
            AGENDA.topic("ankle pressure after exercise", List.of(AfterExercise.values()));
    public static final Topic<Boolean> LIMITS_LIFE = AGENDA.yesOrNo("limits life");
    public static final Topic<Boolean> WORSENING = AGENDA.yesOrNo("worsening");

    public static final Topic<Boolean> DEEP_INFECTION = AGENDA.yesOrNo("deep infection");
    public static final Topic<Boolean> LOCALLY_INFECTED = AGENDA.yesOrNo("locally infected");
    public static final Topic<Boolean> WIDELY_RED = AGENDA.yesOrNo("widely red");
    public static final Topic<Boolean> TEMPERATURE_OFF = AGENDA.yesOrNo("temperature off");
    public static final Topic<Boolean> HEART_RATE_HIGH = AGENDA.yesOrNo("heart rate high");
    public static final Topic<Boolean> BREATHING_FAST = AGENDA.yesOrNo("breathing fast");
    public static final Topic<Boolean> WHITE_CELLS_OFF = AGENDA.yesOrNo("white cells off");

    /** The infection of the foot, from facts that nothing else asks about. */
    public static final Topic<Infection> INFECTION = AGENDA.topic("infection", Infection.ALL);

    /*
     * The supply of the leg is one fact that rules look at from several sides; no rule looks at it from two sides on one
     * way, since the sides would then be answered apart.
     */

    /** For rules about wounds. */
    public static final Topic<Supply.OfTissue> SUPPLY_OF_TISSUE = AGENDA.topic("supply of tissue", Supply.OfTissue.ALL);

    /** For the definition of limb-threatening ischaemia. */
    public static final Topic<Supply.AtRest> SUPPLY_AT_REST = AGENDA.topic("supply at rest", Supply.AtRest.ALL);

    /** Whether the ankle figures are low enough to deal with claudication soon. */
    public static final Topic<Boolean> LOW_AT_ANKLE = AGENDA.yesOrNo("low at the ankle");

    /** WIfI ischaemia grade. */
    public static final Topic<Integer> ISCHAEMIA = AGENDA.topic("ischaemia", List.of(0, 1, 2, 3));

    public static final Topic<Boolean> LARGE_POPLITEAL_ANEURYSM = AGENDA.yesOrNo("large popliteal aneurysm");
    public static final Topic<Boolean> EARLIER_REPAIR_OCCLUDED = AGENDA.yesOrNo("earlier repair occluded");
    public static final Topic<Boolean> ABANDONED_PROCEDURE = AGENDA.yesOrNo("abandoned procedure");

    private LegTopics() {}

    static Facts nothingKnown() {
        return new Facts(AGENDA);
    }
}
