package limbqueue.triage.plan;

import java.util.List;
import limbqueue.triage.ProcedurePlan.Place;

/**
 * How to get to the lesions between the aorta and the groin, or below it: one constant for each printed row, first the ways
 * in their order, then those left when they fail. Common practice, no published source.
 */
enum AccessRow {
    AORTO_ILIAC(
            "plan-access-aorto-iliac",
            "An occlusion of the aorta or from the common iliac artery on is crossed from above and below at once",
            List.of(Way.BOTH_GROINS_AND_ARM, Way.ARM),
            List.of()),
    WHOLE_ILIAC(
            "plan-access-whole-iliac",
            "Common and external iliac artery are closed together",
            List.of(Way.ARM, Way.OPPOSITE_GROIN),
            List.of(Place.SUPERFICIAL_FEMORAL, Place.PROFUNDA)),
    EXTERNAL_ILIAC(
            "plan-access-external-iliac",
            "The external iliac artery is closed",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(Place.SUPERFICIAL_FEMORAL, Place.PROFUNDA)),
    ILIAC_ORIGIN_NARROWED(
            "plan-access-iliac-narrowing",
            "A narrowing of the aorta or at the origin of the common iliac artery is treated on both sides at once",
            List.of(Way.BOTH_GROINS, Way.ARM),
            List.of()),
    COMMON_ILIAC_NARROWED(
            "plan-access-iliac-narrowing",
            "The common iliac artery is narrowed",
            List.of(Way.SAME_GROIN_UPWARDS, Way.OPPOSITE_GROIN),
            List.of()),
    EXTERNAL_ILIAC_NARROWED(
            "plan-access-iliac-narrowing",
            "The external or the internal iliac artery is diseased",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of()),
    COMMON_FEMORAL(
            "plan-access-common-femoral",
            "The common or the deep femoral artery is diseased",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of(Place.SUPERFICIAL_FEMORAL)),
    FLUSH_FEMORAL(
            "plan-access-flush-femoral",
            "The superficial femoral artery is closed from its origin",
            List.of(Way.OPPOSITE_GROIN),
            List.of(Place.POPLITEAL, Place.TIBIAL)),
    SUPERFICIAL_FEMORAL(
            "plan-access-superficial-femoral",
            "The superficial femoral artery is closed and its origin is to be seen",
            List.of(Way.OPPOSITE_GROIN, Way.SAME_GROIN_DOWNWARDS),
            List.of(Place.POPLITEAL, Place.TIBIAL)),
    FEMORAL_ORIGIN_NARROWED(
            "plan-access-femoral-narrowing",
            "The superficial femoral artery is narrowed at its origin",
            List.of(Way.OPPOSITE_GROIN, Way.ARM),
            List.of()),
    FEMORAL_NARROWED(
            "plan-access-femoral-narrowing",
            "The superficial femoral artery is narrowed",
            List.of(Way.OPPOSITE_GROIN, Way.SAME_GROIN_DOWNWARDS),
            List.of()),
    POPLITEAL(
            "plan-access-popliteal",
            "The disease begins at the popliteal artery",
            List.of(Way.SAME_GROIN_DOWNWARDS, Way.OPPOSITE_GROIN),
            List.of(Place.TIBIAL)),
    BELOW_KNEE(
            "plan-access-below-knee",
            "The disease begins below the knee",
            List.of(Way.SAME_GROIN_DOWNWARDS, Way.OPPOSITE_GROIN),
            List.of(Place.TIBIAL));

    /** A way in. */
    enum Way {
        OPPOSITE_GROIN,
        SAME_GROIN_UPWARDS,
        SAME_GROIN_DOWNWARDS,
        ARM,
        BOTH_GROINS,
        BOTH_GROINS_AND_ARM
    }

    private final String rule;
    private final String finding;
    private final List<Way> ways;
    private final List<Place> bailOut;

    AccessRow(String rule, String finding, List<Way> ways, List<Place> bailOut) {
        this.rule = rule;
        this.finding = finding;
        this.ways = ways;
        this.bailOut = bailOut;
    }

    String rule() {
        return rule;
    }

    /** What is found, without a full stop. */
    String finding() {
        return finding;
    }

    List<Way> ways() {
        return ways;
    }

    List<Place> bailOut() {
        return bailOut;
    }

    /** Whether instruments from an arm get there. */
    boolean armReaches() {
        return this != POPLITEAL && this != BELOW_KNEE;
    }
}
