package limbqueue.triage.plan;

import java.util.List;
import limbqueue.triage.ProcedurePlan.Place;

/**
 * How to get to the lesions between the aorta and the groin, or below it: one constant for each printed row. Common
 * practice, no published source.
 *
 * @param finding what is found, without a full stop
 * @param ways in the order in which they are tried
 * @param bailOut where a puncture upwards is left when those fail
 * @param armReaches whether instruments from an arm get there
 */
record AccessRow(String rule, String finding, List<Way> ways, List<Place> bailOut, boolean armReaches) {

    static final AccessRow AORTO_ILIAC = new AccessRow(
            "plan-access-aorto-iliac",
            "An occlusion of the aorta or the common iliac artery is crossed from above and below at once",
            List.of(Way.BOTH_GROINS_AND_ARM, Way.ARM),
            List.of(),
            true);
    static final AccessRow WHOLE_ILIAC = new AccessRow(
            "plan-access-whole-iliac",
            "Common and external iliac artery are closed together",
            List.of(Way.ARM, Way.OPPOSITE_GROIN),
            List.of(Place.SUPERFICIAL_FEMORAL, Place.PROFUNDA),
            true);
    static final AccessRow EXTERNAL_ILIAC = new AccessRow(
            "plan-access-external-iliac",
            "The external iliac artery is closed",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(Place.SUPERFICIAL_FEMORAL, Place.PROFUNDA),
            true);
    static final AccessRow ILIAC_ORIGIN_NARROWED = new AccessRow(
            "plan-access-iliac-narrowing",
            "A narrowing of the aorta or at the origin of the common iliac artery is treated on both sides at once",
            List.of(Way.BOTH_GROINS, Way.ARM),
            List.of(),
            true);
    static final AccessRow COMMON_ILIAC_NARROWED = new AccessRow(
            "plan-access-iliac-narrowing",
            "The common iliac artery is narrowed",
            List.of(Way.SAME_GROIN_UPWARDS, Way.OPPOSITE_GROIN),
            List.of(),
            true);
    static final AccessRow EXTERNAL_ILIAC_NARROWED = new AccessRow(
            "plan-access-iliac-narrowing",
            "The external or the internal iliac artery is diseased",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(),
            true);
    static final AccessRow COMMON_FEMORAL = new AccessRow(
            "plan-access-common-femoral",
            "The common or the deep femoral artery is diseased",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(Place.SUPERFICIAL_FEMORAL),
            true);
    static final AccessRow FLUSH_FEMORAL = new AccessRow(
            "plan-access-flush-femoral",
            "The superficial femoral artery is closed from its origin",
            List.of(Way.OPPOSITE_GROIN),
            List.of(Place.POPLITEAL, Place.TIBIAL),
            true);
    static final AccessRow SUPERFICIAL_FEMORAL = new AccessRow(
            "plan-access-superficial-femoral",
            "The superficial femoral artery is closed and its origin is to be seen",
            List.of(Way.OPPOSITE_GROIN, Way.SAME_GROIN_DOWNWARDS),
            List.of(Place.POPLITEAL, Place.TIBIAL),
            true);
    static final AccessRow FEMORAL_ORIGIN_NARROWED = new AccessRow(
            "plan-access-femoral-narrowing",
            "The superficial femoral artery is narrowed at its origin",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(),
            true);
    static final AccessRow FEMORAL_NARROWED = new AccessRow(
            "plan-access-femoral-narrowing",
            "The superficial femoral artery is narrowed",
            List.of(Way.OPPOSITE_GROIN, Way.SAME_GROIN_DOWNWARDS),
            List.of(),
            true);
    static final AccessRow POPLITEAL = new AccessRow(
            "plan-access-popliteal",
            "The disease begins at the popliteal artery",
            List.of(Way.SAME_GROIN_DOWNWARDS, Way.OPPOSITE_GROIN),
            List.of(Place.TIBIAL),
            false);
    static final AccessRow BELOW_KNEE = new AccessRow(
            "plan-access-below-knee",
            "The disease begins below the knee",
            List.of(Way.SAME_GROIN_DOWNWARDS, Way.OPPOSITE_GROIN),
            List.of(Place.TIBIAL),
            false);

    /** A way in. */
    enum Way {
        OPPOSITE_GROIN,
        SAME_GROIN_UPWARDS,
        SAME_GROIN_DOWNWARDS,
        ARM,
        BOTH_GROINS,
        BOTH_GROINS_AND_ARM
    }
}
