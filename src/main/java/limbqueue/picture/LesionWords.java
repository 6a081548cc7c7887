package limbqueue.picture;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.LesionSource;

/** A lesion in words: in a sentence, and as short as a label must be. */
final class LesionWords {

    private static final double OCCLUSION = 100;

    private LesionWords() {}

    static boolean isOcclusion(Lesion lesion) {
        return lesion.stenosisPercent()
                .filter(percent -> percent.value() >= OCCLUSION)
                .isPresent();
    }

    static boolean isAneurysm(Lesion lesion) {
        return lesion.aneurysm().orElse(false);
    }

    /** As {@code occlusion, 60 mm long, severely calcified, at the origin, seen on CT angiogram}. */
    static String sentence(Lesion lesion) {
        var said = new ArrayList<String>();
        lesion.aneurysm().ifPresent(yes -> said.add(yes ? "aneurysm" : "no aneurysm"));
        lesion.stenosisPercent()
                .ifPresentOrElse(
                        percent -> said.addFirst(
                                isOcclusion(lesion)
                                        ? "occlusion"
                                        : "stenosis of " + number(percent.value()) + "\u00a0%"),
                        () -> {
                            if (!isAneurysm(lesion)) {
                                said.addFirst("narrowing not known");
                            }
                        });
        lesion.lengthMm()
                .ifPresentOrElse(
                        length -> said.add(number(length.value()) + "\u00a0mm long"),
                        () -> said.add("length not known"));
        lesion.diameterMm().ifPresent(width -> said.add("vessel " + number(width.value()) + "\u00a0mm wide"));
        lesion.calcification().ifPresent(calcification -> said.add(words(calcification)));
        lesion.ostial().ifPresent(yes -> said.add(yes ? "at the origin" : "not at the origin"));
        lesion.inStent().ifPresent(yes -> said.add(yes ? "in a stent" : "not in a stent"));
        lesion.ageMonths().ifPresent(age -> said.add(age == 1 ? "1 month old" : age + " months old"));
        lesion.source().ifPresent(source -> said.add("seen on " + words(source)));
        return String.join(", ", said);
    }

    /** At most three short lines, as {@code aneurysm}, {@code ⌀ 34 mm}, {@code 100 % 60 mm}. */
    static List<String> label(Lesion lesion) {
        var lines = new ArrayList<String>();
        if (isAneurysm(lesion)) {
            lines.add("aneurysm");
            lesion.diameterMm().ifPresent(width -> lines.add("\u00f8 " + number(width.value()) + "\u00a0mm"));
        }
        var length = lesion.lengthMm().map(known -> number(known.value()));
        if (lesion.stenosisPercent().isPresent() || !isAneurysm(lesion)) {
            var percent = lesion.stenosisPercent().map(known -> number(known.value()));
            lines.add(percent.orElse("?") + "\u00a0% " + length.orElse("?") + "\u00a0mm");
        } else {
            length.ifPresent(known -> lines.add(known + "\u00a0mm long"));
        }
        return lines;
    }

    private static String words(Calcification calcification) {
        return switch (calcification) {
            case NONE -> "not calcified";
            case MODERATE -> "moderately calcified";
            case SEVERE -> "severely calcified";
        };
    }

    private static String words(LesionSource source) {
        return switch (source) {
            case DUPLEX -> "duplex";
            case CTA -> "CT angiogram";
            case MRA -> "MR angiogram";
            case ANGIOGRAM -> "angiogram";
        };
    }

    /** Without a fraction that says nothing: {@code 38}, {@code 38.4}. */
    static String number(double value) {
        var exact = BigDecimal.valueOf(value).stripTrailingZeros();
        return (exact.scale() < 0 ? exact.setScale(0, RoundingMode.UNNECESSARY) : exact).toPlainString();
    }
}
