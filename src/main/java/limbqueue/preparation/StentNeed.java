package limbqueue.preparation;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toList;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;

/**
 * A vessel for which a covered stent must be in the room: an iliac artery with an occlusion or a calcified narrowing, which
 * can tear when it is opened. What nobody has said counts as said the worse way. Common practice, no source.
 *
 * @param lesions places of its lesions in the document, from 0
 * @param side empty when it is not known
 * @param vesselMm diameter of the vessel, the largest reported; empty when none is
 * @param lengthMm how long a stent must be at least
 * @param unknown what nobody has said and what, if it is the milder way, makes the stent unnecessary
 */
public record StentNeed(
        List<Integer> lesions,
        Optional<Side> side,
        Segment segment,
        Optional<Double> vesselMm,
        double lengthMm,
        Set<Unknown> unknown) {

    /** A fact that would settle whether a stent is needed. */
    public enum Unknown {
        OCCLUDED,
        CALCIFIED
    }

    /** How much wider than the vessel a stent may be, in mm. Common practice, no source. */
    static final double WIDER_AT_MOST_MM = 1;

    /**
     * The longest that is asked for, in mm: a stent seals the tear and need not cover all of a long lesion. Common practice,
     * no source.
     */
    static final double LENGTH_ASKED_AT_MOST_MM = 50;

    private static final Set<Segment> ILIAC =
            EnumSet.of(Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);

    private record Vessel(Optional<Side> side, Segment segment) {}

    /** One for each vessel, in the order of the document. */
    public static List<StentNeed> of(ReferralDocument document) {
        var lesions = document.lesions().orElse(List.of());
        return IntStream.range(0, lesions.size())
                .boxed()
                .filter(i -> wanted(lesions.get(i)))
                .collect(groupingBy(
                        i -> new Vessel(
                                lesions.get(i).side(), lesions.get(i).segment().orElseThrow()),
                        LinkedHashMap::new,
                        toList()))
                .entrySet()
                .stream()
                .map(vessel -> new StentNeed(
                        vessel.getValue(),
                        vessel.getKey().side(),
                        vessel.getKey().segment(),
                        vessel.getValue().stream()
                                .flatMap(i -> lesions.get(i).diameterMm().stream())
                                .map(diameter -> diameter.value())
                                .max(Double::compare),
                        vessel.getValue().stream()
                                .mapToDouble(i -> length(lesions.get(i)))
                                .max()
                                .orElseThrow(),
                        unknown(vessel.getValue().stream().map(lesions::get).toList())))
                .toList();
    }

    /** Whether a stent of this size seals this vessel; false while the vessel's diameter is not known. */
    public boolean fits(double diameterMm, double lengthMm) {
        return vesselMm.map(vessel -> diameterMm >= vessel && diameterMm <= vessel + WIDER_AT_MOST_MM)
                        .orElse(false)
                && lengthMm >= this.lengthMm;
    }

    private static boolean wanted(Lesion lesion) {
        return lesion.segment().map(ILIAC::contains).orElse(false)
                && (mayBeOccluded(lesion) || mayBeCalcified(lesion));
    }

    private static boolean mayBeOccluded(Lesion lesion) {
        return lesion.stenosisPercent()
                .map(percent -> percent.value() >= 100)
                // An aneurysm is not narrowed by nature.
                .orElse(!lesion.aneurysm().orElse(false));
    }

    private static boolean mayBeCalcified(Lesion lesion) {
        return lesion.calcification()
                .map(calcification -> calcification != Calcification.NONE)
                .orElse(lesion.stenosisPercent().isPresent());
    }

    /** Empty as soon as one lesion certainly wants a stent. */
    private static Set<Unknown> unknown(List<Lesion> lesions) {
        var unknown = EnumSet.noneOf(Unknown.class);
        for (var lesion : lesions) {
            var occluded = lesion.stenosisPercent().map(percent -> percent.value() >= 100);
            var calcified = lesion.calcification().map(calcification -> calcification != Calcification.NONE);
            if (occluded.orElse(false) || calcified.orElse(false)) {
                return Set.of();
            }
            if (occluded.isEmpty()) {
                unknown.add(Unknown.OCCLUDED);
            }
            if (calcified.isEmpty()) {
                unknown.add(Unknown.CALCIFIED);
            }
        }
        return Set.copyOf(unknown);
    }

    private static double length(Lesion lesion) {
        return Math.min(
                lesion.lengthMm().map(length -> length.value()).orElse(LENGTH_ASKED_AT_MOST_MM),
                LENGTH_ASKED_AT_MOST_MM);
    }
}
