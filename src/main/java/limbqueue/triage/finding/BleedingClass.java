package limbqueue.triage.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * How much a procedure may bleed (sir-2019): low with a small sheath in the leg, high with a larger one or in aorta and
 * pelvis. Sheaths of 6 and 7 Fr stand in neither class in print and are taken as high.
 */
public enum BleedingClass {
    LOW("low"),
    HIGH("high");

    private static final Set<Segment> AORTA_AND_PELVIS =
            Set.of(Segment.INFRARENAL_AORTA, Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);

    private final String words;

    BleedingClass(String words) {
        this.words = words;
    }

    /** @param french size of the largest planned sheath */
    public static BleedingClass of(double french, ReferralDocument document, Limits limits) {
        return french >= limits.of(Limit.BLEEDING_SHEATH_AT_LEAST)
                        || Entries.any(document.lesions().orElse(List.of()), BleedingClass::inAortaOrPelvis)
                ? HIGH
                : LOW;
    }

    public static boolean inAortaOrPelvis(Lesion lesion) {
        return lesion.segment().map(AORTA_AND_PELVIS::contains).orElse(false);
    }

    public String words() {
        return words;
    }

    /** What the class asks of INR and platelets. */
    public String limitsInWords(Limits limits) {
        return this == HIGH
                ? Sentence.of(
                        "INR at most 1.5 to %.1f, platelets at least %.0f x 10^9/L",
                        limits.of(Limit.BLEEDING_INR_AT_LEAST), limits.of(Limit.BLEEDING_PLATELETS_LESS_THAN))
                : Sentence.of(
                        "INR under %.1f from the groin and under %.1f from an arm, platelets over %.0f x 10^9/L",
                        limits.of(Limit.BLEEDING_INR_AT_LEAST),
                        limits.of(Limit.BLEEDING_INR_ARM_AT_LEAST),
                        limits.of(Limit.BLEEDING_PLATELETS_LOW_CLASS_AT_MOST));
    }

    /** The latest values held that are outside of the limits, each in words. */
    public List<String> outside(ReferralDocument document, Limits limits) {
        var outside = new ArrayList<String>();
        LatestLab.of(document, LabTest.INR).map(LatestLab::value).ifPresent(inr -> inr(inr, limits, outside));
        LatestLab.of(document, LabTest.PLATELETS)
                .map(LatestLab::value)
                .ifPresent(platelets -> platelets(platelets, limits, outside));
        return outside;
    }

    private void inr(double inr, Limits limits, List<String> outside) {
        var femoral = limits.of(Limit.BLEEDING_INR_AT_LEAST);
        var arm = limits.of(Limit.BLEEDING_INR_ARM_AT_LEAST);
        if (inr > femoral) {
            outside.add(Sentence.of("INR %s is above %s", inr, femoral) + (this == LOW ? access(inr, arm) : ""));
        } else if (inr == femoral) {
            outside.add(Sentence.of("INR %s is the limit itself", inr) + (this == LOW ? access(inr, arm) : ""));
        }
    }

    private static String access(double inr, double arm) {
        return inr < arm
                ? Sentence.of(", the limit from the groin; from an arm it is under %.1f", arm)
                : Sentence.of(", and not under %.1f, the limit from an arm", arm);
    }

    private void platelets(double platelets, Limits limits, List<String> outside) {
        var limit = limits.of(
                this == HIGH ? Limit.BLEEDING_PLATELETS_LESS_THAN : Limit.BLEEDING_PLATELETS_LOW_CLASS_AT_MOST);
        if (this == HIGH ? platelets < limit : platelets <= limit) {
            outside.add(Sentence.of(
                    "platelets %.0f x 10^9/L are %s %.0f", platelets, this == HIGH ? "below" : "not over", limit));
        }
    }
}
