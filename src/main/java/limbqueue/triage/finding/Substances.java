package limbqueue.triage.finding;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

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
    private static final List<String> SGLT2_INHIBITORS = List.of(
            "canagliflozin", "dapagliflozin", "empagliflozin", "ertugliflozin", "sotagliflozin", "bexagliflozin");
    private static final List<String> SULFONYLUREAS = List.of(
            "glibenclamide", "glyburide", "gliclazide", "glimepiride", "glipizide", "gliquidone", "tolbutamide");
    private static final List<String> GLP1_AGONISTS =
            List.of("semaglutide", "liraglutide", "dulaglutide", "exenatide", "lixisenatide", "tirzepatide");
    private static final List<String> NSAIDS = List.of(
            "ibuprofen",
            "diclofenac",
            "naproxen",
            "indometacin",
            "indomethacin",
            "ketoprofen",
            "ketorolac",
            "meloxicam",
            "piroxicam",
            "celecoxib",
            "etoricoxib");
    private static final List<String> RENIN_BLOCKERS_AND_DIURETICS = List.of(
            "lisinopril",
            "ramipril",
            "enalapril",
            "perindopril",
            "captopril",
            "quinapril",
            "trandolapril",
            "fosinopril",
            "benazepril",
            "losartan",
            "valsartan",
            "candesartan",
            "irbesartan",
            "telmisartan",
            "olmesartan",
            "furosemide",
            "frusemide",
            "torasemide",
            "bumetanide",
            "hydrochlorothiazide",
            "bendroflumethiazide",
            "chlortalidone",
            "indapamide",
            "spironolactone",
            "eplerenone",
            "amiloride");
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

    public static boolean isSulfonylurea(String name) {
        return named(name, SULFONYLUREAS);
    }

    public static boolean isGlp1Agonist(String name) {
        return named(name, GLP1_AGONISTS);
    }

    /** A drug against inflammation that is hard on the kidneys. */
    public static boolean isNsaid(String name) {
        return named(name, NSAIDS);
    }

    /** An ACE inhibitor, a receptor blocker or a diuretic. */
    public static boolean isReninBlockerOrDiuretic(String name) {
        return named(name, RENIN_BLOCKERS_AND_DIURETICS);
    }

    /** The generic name of the SGLT2 inhibitor that {@code text} names. */
    public static Optional<String> sglt2Inhibitor(String text) {
        return first(text, SGLT2_INHIBITORS);
    }

    /** The generic name of the anticoagulant that {@code text} names. */
    public static Optional<String> anticoagulant(String text) {
        return first(text, VITAMIN_K_ANTAGONISTS).or(() -> first(text, OTHER_ANTICOAGULANTS));
    }

    /** The generic name of the antiplatelet that {@code text} names. */
    public static Optional<String> antiplatelet(String text) {
        return first(text, ANTIPLATELETS).map(name -> name.equals("acetylsalicylic") ? "aspirin" : name);
    }

    /** Seafood, povidone and iodine as such are not reactions to contrast media. */
    public static boolean isContrastMedium(String name) {
        return named(name, CONTRAST_MEDIA);
    }

    private static boolean named(String text, List<String> names) {
        return first(text, names).isPresent();
    }

    private static Optional<String> first(String text, List<String> names) {
        var lower = text.toLowerCase(Locale.ROOT);
        for (var name : names) {
            if (lower.contains(name)) {
                return Optional.of(name);
            }
        }
        return Optional.empty();
    }
}
