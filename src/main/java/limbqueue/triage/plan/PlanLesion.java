package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.anatomy.Narrowing;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * A lesion as a plan acts on it: artery and side known, and narrow enough to count.
 *
 * @param side empty for the aorta
 * @param facts what the referral says of it
 */
record PlanLesion(LesionFacts facts, Optional<Side> side, Narrowing narrowing) {

    /** How far down the leg a lesion lies: treated from above. */
    enum Level {
        ABOVE_GROIN,
        BELOW_GROIN
    }

    /** Inflow first; of several in one artery the longer first. */
    static final Comparator<PlanLesion> INFLOW_FIRST = Comparator.comparing((PlanLesion lesion) -> lesion.segment())
            .thenComparing(lesion -> lesion.side().map(Side::ordinal).orElse(-1))
            .thenComparing(PlanLesion::narrowing, Comparator.reverseOrder())
            .thenComparing(
                    lesion -> lesion.facts()
                            .lesion()
                            .lengthMm()
                            .map(length -> length.value())
                            .orElse(Double.MAX_VALUE),
                    Comparator.reverseOrder());

    /** The lesions of the referral that count, and of which artery and side are known or answered. */
    static List<PlanLesion> of(List<Lesion> reported, Limits limits, PlanAnswers answers) {
        var lesions = new ArrayList<PlanLesion>();
        for (var i = 0; i < reported.size(); i++) {
            var index = i;
            answeredSegment(i, reported.get(i), limits, answers)
                    .map(segment -> LesionFacts.of(index, reported, segment, limits))
                    .flatMap(facts -> placed(facts, answers))
                    .ifPresent(lesions::add);
        }
        lesions.sort(INFLOW_FIRST);
        return List.copyOf(lesions);
    }

    private static Optional<Segment> answeredSegment(int index, Lesion lesion, Limits limits, PlanAnswers answers) {
        if (lesion.segment().isEmpty() && !LesionFacts.mayCount(lesion, limits)) {
            return Optional.empty();
        }
        return answers.of(new PlanFact<>(
                "lesions[" + index + "].segment",
                lesion.segment().map(Optional::of),
                Optional.empty(),
                List.of(
                        Optional.of(Segment.EXTERNAL_ILIAC),
                        Optional.of(Segment.SUPERFICIAL_FEMORAL),
                        Optional.of(Segment.ANTERIOR_TIBIAL)),
                LesionFacts.askArtery(index)));
    }

    /** A lesion that does not count, or of which nobody says on which side it lies, is not planned for. */
    private static Optional<PlanLesion> placed(LesionFacts facts, PlanAnswers answers) {
        if (facts.knownNotToCount()) {
            return Optional.empty();
        }
        var narrowing = answers.of(PlanFact.of(facts.narrowing()));
        if (!narrowing.counts()) {
            return Optional.empty();
        }
        if (facts.segment() == Segment.INFRARENAL_AORTA) {
            return Optional.of(new PlanLesion(facts, Optional.empty(), narrowing));
        }
        var asked = facts.side(Side.LEFT);
        return answers.of(new PlanFact<>(
                        asked.path(),
                        asked.known().map(Optional::of),
                        Optional.empty(),
                        asked.choices().stream().map(Optional::of).toList(),
                        asked.ask()))
                .map(side -> new PlanLesion(facts, Optional.of(side), narrowing));
    }

    Segment segment() {
        return facts.segment();
    }

    boolean closed() {
        return narrowing == Narrowing.OCCLUSION;
    }

    Level level() {
        return switch (segment()) {
            case INFRARENAL_AORTA, COMMON_ILIAC, EXTERNAL_ILIAC, INTERNAL_ILIAC -> Level.ABOVE_GROIN;
            default -> Level.BELOW_GROIN;
        };
    }

    boolean belowKnee() {
        return switch (segment()) {
            case TIBIOPERONEAL_TRUNK, ANTERIOR_TIBIAL, POSTERIOR_TIBIAL, PERONEAL, PEDAL -> true;
            default -> false;
        };
    }

    /** Whether it concerns this side; the aorta concerns both. */
    boolean on(Side one) {
        return side.map(one::equals).orElse(true);
    }

    /** In millimetres, a length that is not known taken as a long one. */
    double length(PlanAnswers answers) {
        return answers.of(
                PlanFact.of(facts.millimetres(facts.limits().of(Limit.PLAN_LENGTH_WHEN_UNKNOWN))));
    }

    boolean atOrigin(PlanAnswers answers) {
        return answers.of(PlanFact.of(facts.atOrigin()));
    }

    Calcification calcification(PlanAnswers answers) {
        return answers.of(PlanFact.of(facts.calcification()));
    }

    /** Whether it has been closed for long. */
    boolean old(PlanAnswers answers) {
        var limit = facts.limits().whole(Limit.PLAN_OLD_OCCLUSION_AT_LEAST);
        return answers.of(PlanFact.of(facts.ageMonths(limit))) >= limit;
    }

    boolean inStent() {
        return facts.lesion().inStent().orElse(false);
    }

    /** As {@code left external iliac artery: closed, 70 mm, severely calcified}. */
    String words(PlanAnswers answers) {
        var words = new StringBuilder(facts.words())
                .append(": ")
                .append(closed() ? "closed" : "narrowed")
                .append(facts.lesion().stenosisPercent().isEmpty() ? " (taken so, not known)" : "");
        var length = facts.lesion().lengthMm();
        words.append(length.map(known -> Sentence.of(", %.0f mm", known.value()))
                .orElseGet(() -> Sentence.of(", length not known, taken as %.0f mm", length(answers))));
        if (facts.lesion().calcification().isEmpty()) {
            return words.append(", calcification not known").toString();
        }
        var calcification = calcification(answers);
        if (calcification != Calcification.NONE) {
            words.append(", ")
                    .append(calcification.name().toLowerCase(Locale.ROOT))
                    .append("ly calcified");
        }
        return words.append(inStent() ? ", in an earlier stent" : "").toString();
    }
}
