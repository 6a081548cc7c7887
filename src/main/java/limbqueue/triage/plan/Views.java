package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ProcedurePlan.Projection;
import limbqueue.triage.Side;
import limbqueue.triage.finding.Case;
import limbqueue.triage.plan.PlanLesion.Level;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;

/**
 * From where the arteries are looked at: the iliac bifurcation from the opposite oblique, the femoral bifurcation
 * from the oblique of the same side.
 */
final class Views {

    private static final String BIFURCATIONS = "plan-bifurcation-views";
    private static final String RULE = "plan-projections";

    private final Case referral;
    private final RuleBook book;
    private final PlanAnswers answers;
    private final List<PlanLesion> targets;
    private final List<Projection> projections = new ArrayList<>();

    Views(Case referral, RuleBook book, PlanAnswers answers, List<PlanLesion> targets) {
        this.referral = referral;
        this.book = book;
        this.answers = answers;
        this.targets = targets;
    }

    List<Projection> projections() {
        for (var lesion : targets) {
            lesion.side().ifPresentOrElse(side -> ofLeg(lesion, side), this::aorta);
        }
        if (Entries.any(targets, lesion -> lesion.level() == Level.ABOVE_GROIN) && metal()) {
            add(
                    "iliac arteries behind metal",
                    "several obliques, so that the metal lies beside the artery in each",
                    "One projection deceives behind metal of spine, hip or pelvis.",
                    "plan-metal");
        }
        return List.copyOf(new LinkedHashSet<>(projections));
    }

    private void aorta() {
        add(
                "aortic bifurcation",
                "straight from the front, tilted to the head or the feet where vessels overlap",
                "Both origins of the common iliac arteries are seen at once.",
                RULE);
    }

    private void ofLeg(PlanLesion lesion, Side side) {
        var word = side == Side.LEFT ? "left" : "right";
        switch (lesion.segment()) {
            case INFRARENAL_AORTA -> aorta();
            case COMMON_ILIAC -> {
                aorta();
                iliacBifurcation(side, word);
            }
            case EXTERNAL_ILIAC, INTERNAL_ILIAC -> iliacBifurcation(side, word);
            case COMMON_FEMORAL, PROFUNDA_FEMORIS -> femoralBifurcation(side, word);
            case SUPERFICIAL_FEMORAL -> {
                femoralBifurcation(side, word);
                if (lesion.closed() && lesion.atOrigin(answers)) {
                    add(
                            word + " superficial femoral origin",
                            "several obliques",
                            "The stump of a flush occlusion shows in one projection only.",
                            RULE);
                }
            }
            case POPLITEAL ->
                add(
                        word + " popliteal artery",
                        "from the front and from the side",
                        "The knee hides it from the front.",
                        RULE);
            case TIBIOPERONEAL_TRUNK, ANTERIOR_TIBIAL, POSTERIOR_TIBIAL, PERONEAL ->
                add(
                        word + " arteries below the knee",
                        oblique(side) + "; the foot from the front and from the side",
                        "The three arteries part in the oblique of the same side, and the foot is the aim.",
                        RULE);
            case PEDAL ->
                add(word + " foot", "from the front and from the side", "The arch of the foot lies in both.", RULE);
        }
    }

    private void iliacBifurcation(Side side, String word) {
        add(
                word + " iliac bifurcation",
                oblique(side.opposite()) + degrees(Limit.PLAN_OBLIQUE_ILIAC_FROM, Limit.PLAN_OBLIQUE_ILIAC_TO),
                "The opposite oblique opens the origin of the internal iliac artery.",
                BIFURCATIONS);
    }

    private void femoralBifurcation(Side side, String word) {
        add(
                word + " femoral bifurcation",
                oblique(side) + degrees(Limit.PLAN_OBLIQUE_FEMORAL_FROM, Limit.PLAN_OBLIQUE_FEMORAL_TO),
                "The oblique of the same side opens the origin of the deep femoral artery.",
                BIFURCATIONS);
    }

    private static String oblique(Side side) {
        return side == Side.LEFT ? "left anterior oblique" : "right anterior oblique";
    }

    private String degrees(Limit from, Limit to) {
        return Sentence.of(
                ", about %.0f to %.0f degrees",
                referral.limits().of(from), referral.limits().of(to));
    }

    private boolean metal() {
        var history = referral.document().history();
        var spine = hardware("history.spinalHardware", history.spinalHardware(), "Is there metal in the spine?");
        var hip = hardware(
                "history.hipOrPelvicHardware",
                history.hipOrPelvicHardware(),
                "Is there metal in a hip or in the pelvis?");
        return spine || hip;
    }

    private boolean hardware(String path, Optional<Boolean> known, String ask) {
        return answers.of(PlanFact.yesOrNo(path, known, ask));
    }

    private void add(String target, String view, String why, String rule) {
        projections.add(new Projection(target, view, why, rule, book.sourceOf(rule)));
    }
}
