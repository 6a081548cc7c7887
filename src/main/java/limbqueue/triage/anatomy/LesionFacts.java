package limbqueue.triage.anatomy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * What is known, or could be asked, about one reported lesion of which the artery is known. How narrow, how long, how
 * calcified, whether at the origin and on which side are findings of imaging, so each unknown is acted on as the most
 * serious.
 *
 * @param index place in the referral's list
 * @param path the path of the lesion in the referral
 * @param words the artery, as in {@code left external iliac artery}
 */
public record LesionFacts(int index, String path, Lesion lesion, Segment segment, String words, Limits limits) {

    private static final double CLOSED = 100;
    private static final String ASK_LENGTH = "How many millimetres long is the diseased part of the %s?";
    private static final String ASK_CALCIFICATION =
            "How calcified is the %s at the lesion: not, moderately or severely?";
    private static final List<Boolean> NO_OR_YES = List.of(false, true);
    private static final List<Side> SIDES = List.of(Side.values());
    private static final List<Narrowing> NARROWINGS = List.of(Narrowing.values());
    private static final List<Calcification> CALCIFICATIONS = List.of(Calcification.values());

    /** An entry of the list in which nothing stands yet. */
    private static final Lesion NOTHING_SAID = new Lesion(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());

    static LesionFacts of(int index, Lesion lesion, Segment segment, boolean oneOfSeveral, Limits limits) {
        var side = lesion.side()
                .filter(known -> segment != Segment.INFRARENAL_AORTA)
                .map(known -> known.name().toLowerCase(Locale.ROOT) + " ")
                .orElse("");
        return new LesionFacts(
                index,
                "lesions[" + index + "]",
                lesion,
                segment,
                side + artery(segment) + (oneOfSeveral ? " (lesion " + (index + 1) + ")" : ""),
                limits);
    }

    private static String artery(Segment segment) {
        return switch (segment) {
            case INFRARENAL_AORTA -> "aorta below the kidneys";
            case COMMON_ILIAC -> "common iliac artery";
            case EXTERNAL_ILIAC -> "external iliac artery";
            case INTERNAL_ILIAC -> "internal iliac artery";
            case COMMON_FEMORAL -> "common femoral artery";
            case PROFUNDA_FEMORIS -> "deep femoral artery";
            case SUPERFICIAL_FEMORAL -> "superficial femoral artery";
            case POPLITEAL -> "popliteal artery";
            case TIBIOPERONEAL_TRUNK -> "tibioperoneal trunk";
            case ANTERIOR_TIBIAL -> "anterior tibial artery";
            case POSTERIOR_TIBIAL -> "posterior tibial artery";
            case PERONEAL -> "peroneal artery";
            case PEDAL -> "arteries of the foot";
        };
    }

    /** The lesions of a referral of which the artery is known, in the order of its list. */
    public static List<LesionFacts> placed(List<Lesion> reported, Limits limits) {
        var placed = new ArrayList<LesionFacts>();
        for (var i = 0; i < reported.size(); i++) {
            var index = i;
            reported.get(i)
                    .segment()
                    .map(segment -> of(index, reported, segment, limits))
                    .ifPresent(placed::add);
        }
        return List.copyOf(placed);
    }

    /** The lesion at {@code index} of {@code reported}, as it would be in the artery {@code segment}. */
    public static LesionFacts of(int index, List<Lesion> reported, Segment segment, Limits limits) {
        var lesion = reported.get(index);
        var inThisArtery = 0;
        for (var other : reported) {
            if (other.segment().isPresent()
                    && other.segment().get() == segment
                    && other.side().equals(lesion.side())) {
                inThisArtery++;
            }
        }
        return of(index, lesion, segment, inThisArtery > 1, limits);
    }

    /** Whether a lesion of which the artery is not known may count, so that it is worth asking in which artery it lies. */
    public static boolean mayCount(Lesion lesion, Limits limits) {
        var tooLittle = lesion.stenosisPercent()
                .map(percent -> percent.value() < limits.of(Limit.LESION_COUNTED_AT_LEAST))
                .orElse(false);
        return !tooLittle && !lesion.equals(NOTHING_SAID);
    }

    /** The question for the artery of the lesion at {@code index}. */
    public static String askArtery(int index) {
        return Sentence.of("In which artery is lesion %d of the list?", index + 1);
    }

    /** Whether it may lie on {@code side}; the aorta has no side and concerns both. */
    boolean mayConcern(Side side) {
        return segment == Segment.INFRARENAL_AORTA
                || lesion.side().map(side::equals).orElse(true);
    }

    /** Whether it is known to be too narrow a lesion to count. */
    public boolean knownNotToCount() {
        return lesion.stenosisPercent()
                .map(percent -> narrowing(percent.value()) == Narrowing.NONE)
                .orElse(false);
    }

    /** A lesion of an unknown side is acted on as being on the side that is looked at. */
    public LesionFact<Side> side(Side looking) {
        return new LesionFact<>(
                path, ".side", lesion.side(), looking, SIDES, "On which side is the lesion of the %s?", words);
    }

    /**
     * A narrowing under 50 % is not counted as a lesion (common practice), 100 % is an occlusion. Of an aneurysm nobody
     * has said that it is narrowed, so that is asked and not assumed.
     */
    public LesionFact<Narrowing> narrowing() {
        var aneurysm = lesion.aneurysm().orElse(false);
        return new LesionFact<>(
                path,
                ".stenosisPercent",
                lesion.stenosisPercent().map(percent -> narrowing(percent.value())),
                aneurysm ? Narrowing.NONE : Narrowing.OCCLUSION,
                NARROWINGS,
                aneurysm
                        ? "By how many percent is the %s narrowed where it is widened (0 if it is open, 100 if it is closed)?"
                        : "By how many percent is the %s narrowed (100 if it is closed)?",
                words);
    }

    private Narrowing narrowing(double percent) {
        if (percent >= CLOSED) {
            return Narrowing.OCCLUSION;
        }
        return percent >= limits.of(Limit.LESION_COUNTED_AT_LEAST) ? Narrowing.STENOSIS : Narrowing.NONE;
    }

    /** In nanometres. */
    LesionFact<Long> length(Lengths lengths) {
        return new LesionFact<>(
                path,
                ".lengthMm",
                lesion.lengthMm().map(length -> Lengths.of(length.value())),
                lengths.longest(),
                lengths.choices(),
                ASK_LENGTH,
                words);
    }

    /**
     * In millimetres.
     *
     * @param actOn the length to act on while it is not known
     */
    public LesionFact<Double> millimetres(double actOn) {
        return new LesionFact<>(
                path,
                ".lengthMm",
                lesion.lengthMm().map(length -> length.value()),
                actOn,
                List.of(0.0, actOn),
                ASK_LENGTH,
                words);
    }

    /** Heavily calcified is severe calcification (common practice). */
    LesionFact<Boolean> heavilyCalcified() {
        return yesOrNo(
                ".calcification",
                lesion.calcification().map(calcification -> calcification == Calcification.SEVERE),
                true,
                ASK_CALCIFICATION);
    }

    public LesionFact<Calcification> calcification() {
        return new LesionFact<>(
                path,
                ".calcification",
                lesion.calcification(),
                Calcification.SEVERE,
                CALCIFICATIONS,
                ASK_CALCIFICATION,
                words);
    }

    /** Months since the artery closed; of an age not known an old occlusion is the more serious. */
    public LesionFact<Integer> ageMonths(int old) {
        return new LesionFact<>(
                path,
                ".ageMonths",
                lesion.ageMonths(),
                old,
                List.of(0, old),
                "For how many months has the %s been closed?",
                words);
    }

    /** Diameter in millimetres of the sound vessel, by which a stent is chosen; 0 while it is not known. */
    public LesionFact<Double> vesselDiameter() {
        return new LesionFact<>(
                path,
                ".diameterMm",
                lesion.diameterMm().map(diameter -> diameter.value()),
                0.0,
                List.of(5.0, 9.0),
                "How many millimetres wide is the %s beside the lesion?",
                words);
    }

    /**
     * For the external iliac artery its origin is that of the internal iliac artery, for the superficial femoral artery an
     * occlusion at the origin is a flush one (common practice).
     */
    public LesionFact<Boolean> atOrigin() {
        return yesOrNo(
                ".ostial", lesion.ostial(), true, "Does the lesion of the %s begin at the very origin of the artery?");
    }

    /** Whether there is an earlier stent is a matter of the patient's history: asked, not assumed. */
    LesionFact<Boolean> inStent() {
        return yesOrNo(".inStent", lesion.inStent(), false, "Is the lesion of the %s inside an earlier stent?");
    }

    public boolean aneurysm() {
        return lesion.aneurysm().orElse(false);
    }

    LesionFact<Boolean> aneurysmWide() {
        return yesOrNo(
                ".diameterMm",
                lesion.diameterMm()
                        .map(diameter -> diameter.value() >= limits.of(Limit.AORTIC_ANEURYSM_TREATED_AT_LEAST)),
                true,
                "How many millimetres wide is the %s at its widest?");
    }

    /**
     * Whether an occlusion reaches below the knee joint. The format has no field for it, so nobody can be asked: it stays
     * open in what is possible.
     */
    LesionFact<Boolean> belowKnee() {
        return yesOrNo(".belowKnee", Optional.empty(), true, "");
    }

    private LesionFact<Boolean> yesOrNo(String field, Optional<Boolean> known, boolean actOn, String ask) {
        return new LesionFact<>(path, field, known, actOn, NO_OR_YES, ask, words);
    }
}
