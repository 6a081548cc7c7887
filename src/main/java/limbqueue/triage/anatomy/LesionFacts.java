package limbqueue.triage.anatomy;

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
 * @param words the artery, as in {@code left external iliac artery}
 */
record LesionFacts(int index, Lesion lesion, Segment segment, String words, Limits limits) {

    private static final double CLOSED = 100;

    static LesionFacts of(int index, Lesion lesion, Segment segment, boolean oneOfSeveral, Limits limits) {
        var side = lesion.side()
                .filter(known -> segment != Segment.INFRARENAL_AORTA)
                .map(known -> known.name().toLowerCase(Locale.ROOT) + " ")
                .orElse("");
        return new LesionFacts(
                index,
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

    /** The path of the lesion in the referral. */
    String path() {
        return "lesions[" + index + "]";
    }

    /** Whether it may lie on {@code side}; the aorta has no side and concerns both. */
    boolean mayConcern(Side side) {
        return segment == Segment.INFRARENAL_AORTA
                || lesion.side().map(side::equals).orElse(true);
    }

    /** Whether it is known to be too narrow a lesion to count. */
    boolean knownNotToCount() {
        return narrowing().known().equals(Optional.of(Narrowing.NONE));
    }

    /** A lesion of an unknown side is acted on as being on the side that is looked at. */
    LesionFact<Side> side(Side looking) {
        return new LesionFact<>(
                path() + ".side",
                lesion.side(),
                looking,
                List.of(Side.LEFT, Side.RIGHT),
                Sentence.of("On which side is the lesion of the %s?", words));
    }

    /**
     * A narrowing under 50 % is not counted as a lesion (common practice), 100 % is an occlusion. Of an aneurysm nobody
     * has said that it is narrowed, so that is asked and not assumed.
     */
    LesionFact<Narrowing> narrowing() {
        var aneurysm = lesion.aneurysm().orElse(false);
        return new LesionFact<>(
                path() + ".stenosisPercent",
                lesion.stenosisPercent().map(percent -> narrowing(percent.value())),
                aneurysm ? Narrowing.NONE : Narrowing.OCCLUSION,
                List.of(Narrowing.values()),
                Sentence.of(
                        aneurysm
                                ? "By how many percent is the %s narrowed at its aneurysm (0 if it is open, 100 if it is closed)?"
                                : "By how many percent is the %s narrowed (100 if it is closed)?",
                        words));
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
                path() + ".lengthMm",
                lesion.lengthMm().map(length -> Lengths.of(length.value())),
                lengths.longest(),
                lengths.choices(),
                Sentence.of("How many millimetres long is the diseased part of the %s?", words));
    }

    /** Heavily calcified is severe calcification (common practice). */
    LesionFact<Boolean> heavilyCalcified() {
        return yesOrNo(
                ".calcification",
                lesion.calcification().map(calcification -> calcification == Calcification.SEVERE),
                true,
                Sentence.of("How calcified is the %s at the lesion: not, moderately or severely?", words));
    }

    /**
     * For the external iliac artery its origin is that of the internal iliac artery, for the superficial femoral artery an
     * occlusion at the origin is a flush one (common practice).
     */
    LesionFact<Boolean> atOrigin() {
        return yesOrNo(
                ".ostial",
                lesion.ostial(),
                true,
                Sentence.of("Does the lesion of the %s begin at the very origin of the artery?", words));
    }

    /** Whether there is an earlier stent is a matter of the patient's history: asked, not assumed. */
    LesionFact<Boolean> inStent() {
        return yesOrNo(
                ".inStent",
                lesion.inStent(),
                false,
                Sentence.of("Is the lesion of the %s inside an earlier stent?", words));
    }

    boolean aneurysm() {
        return lesion.aneurysm().orElse(false);
    }

    LesionFact<Boolean> aneurysmWide() {
        return yesOrNo(
                ".diameterMm",
                lesion.diameterMm()
                        .map(diameter -> diameter.value() >= limits.of(Limit.AORTIC_ANEURYSM_TREATED_AT_LEAST)),
                true,
                Sentence.of("How many millimetres wide is the aneurysm of the %s?", words));
    }

    /**
     * Whether an occlusion reaches below the knee joint. The format has no field for it, so nobody can be asked: it stays
     * open in what is possible.
     */
    LesionFact<Boolean> belowKnee() {
        return yesOrNo(".belowKnee", Optional.empty(), true, "");
    }

    private LesionFact<Boolean> yesOrNo(String field, Optional<Boolean> known, boolean actOn, String ask) {
        return new LesionFact<>(path() + field, known, actOn, List.of(false, true), ask);
    }
}
