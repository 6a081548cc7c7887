package limbqueue.triage.finding;

import java.util.List;
import java.util.Locale;

/**
 * Generic names of substances that the work-up and the red flags look for. Common practice, no source: the names are
 * international nonproprietary names.
 */
public final class Substances {

    private static final List<String> VITAMIN_K_ANTAGONISTS =
            List.of("warfarin", "acenocoumarol", "phenprocoumon", "fluindione");
    private static final List<String> OTHER_ANTICOAGULANTS = List.of(
            "apixaban",
            "rivaroxaban",
            "edoxaban",
            "dabigatran",
            "heparin",
            "enoxaparin",
            "dalteparin",
            "tinzaparin",
            "nadroparin",
            "certoparin",
            "fondaparinux",
            "argatroban",
            "bivalirudin");
    private static final List<String> ANTIPLATELETS = List.of(
            "aspirin",
            "acetylsalicylic",
            "clopidogrel",
            "ticagrelor",
            "prasugrel",
            "dipyridamole",
            "cilostazol",
            "ticlopidine");
    private static final List<String> CONTRAST_MEDIA = List.of(
            "contrast",
            "iodinated",
            "iohexol",
            "iodixanol",
            "iopamidol",
            "iopromide",
            "ioversol",
            "iomeprol",
            "ioxaglate",
            "iobitridol",
            "x-ray dye",
            "radiographic dye",
            "gadolinium");

    private Substances() {}

    public static boolean isAnticoagulant(String name) {
        return isVitaminKAntagonist(name) || named(name, OTHER_ANTICOAGULANTS);
    }

    public static boolean isVitaminKAntagonist(String name) {
        return named(name, VITAMIN_K_ANTAGONISTS);
    }

    public static boolean isAntiplatelet(String name) {
        return named(name, ANTIPLATELETS);
    }

    /** Statins share the ending of their generic names. */
    public static boolean isStatin(String name) {
        return name.toLowerCase(Locale.ROOT).contains("statin")
                && !name.toLowerCase(Locale.ROOT).contains("nystatin");
    }

    public static boolean isMetformin(String name) {
        return named(name, List.of("metformin"));
    }

    public static boolean isInsulin(String name) {
        return named(name, List.of("insulin"));
    }

    /** Seafood, povidone and iodine as such are not reactions to contrast media. */
    public static boolean isContrastMedium(String name) {
        return named(name, CONTRAST_MEDIA);
    }

    private static boolean named(String text, List<String> names) {
        var lower = text.toLowerCase(Locale.ROOT);
        for (var name : names) {
            if (lower.contains(name)) {
                return true;
            }
        }
        return false;
    }
}
