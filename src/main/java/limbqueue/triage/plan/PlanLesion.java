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

    /**
     * The lesions of a referral that count.
     *
     * @param placed inflow first
     * @param unplaced paths of the fields that would say in which artery, or on which side, the others lie
     */
    record Reported(List<PlanLesion> placed, List<String> unplaced) {}

    static Reported of(List<Lesion> reported, Limits limits, PlanAnswers answers) {
        var placed = new ArrayList<PlanLesion>();
        var unplaced = new ArrayList<String>();
        for (var i = 0; i < reported.size(); i++) {
            if (reported.get(i).segment().isEmpty() && !LesionFacts.mayCount(reported.get(i), limits)) {
                continue;
            }
            var segment = segment(i, reported.get(i), answers);
            if (segment.isEmpty()) {
                unplaced.add("lesions[" + i + "].segment");
                continue;
            }
            var facts = LesionFacts.of(i, reported, segment.get(), limits);
            var narrowing = answers.of(facts.narrowing());
            if (narrowing.counts()) {
                var side = facts.segment() == Segment.INFRARENAL_AORTA ? Optional.<Side>empty() : side(facts, answers);
                if (side.isEmpty() && facts.segment() != Segment.INFRARENAL_AORTA) {
                    unplaced.add(facts.path() + ".side");
                } else {
                    placed.add(new PlanLesion(facts, side, narrowing));
                }
            }
        }
        placed.sort(INFLOW_FIRST);
        return new Reported(List.copyOf(placed), List.copyOf(unplaced));
    }

    private static Optional<Segment> segment(int index, Lesion lesion, PlanAnswers answers) {
        return lesion.segment()
                .or(() -> answers.of(PlanFact.untold(
                        "lesions[" + index + "].segment",
                        List.of(Segment.EXTERNAL_ILIAC, Segment.SUPERFICIAL_FEMORAL, Segment.ANTERIOR_TIBIAL),
                        LesionFacts.askArtery(index))));
    }

    private static Optional<Side> side(LesionFacts facts, PlanAnswers answers) {
        var asked = facts.side(Side.LEFT);
        return asked.known().or(() -> answers.of(PlanFact.untold(asked.path(), asked.choices(), asked.ask())));
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
        return answers.of(facts.millimetres(facts.limits().of(Limit.PLAN_LENGTH_WHEN_UNKNOWN)));
    }

    boolean atOrigin(PlanAnswers answers) {
        return answers.of(facts.atOrigin());
    }

    Calcification calcification(PlanAnswers answers) {
        return answers.of(facts.calcification());
    }

    /** Whether it has been closed for long. */
    boolean old(PlanAnswers answers) {
        var limit = facts.limits().whole(Limit.PLAN_OLD_OCCLUSION_AT_LEAST);
        return answers.of(facts.ageMonths(limit)) >= limit;
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
