package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limbqueue.triage.ProcedurePlan.Caution;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.finding.Case;
import limbqueue.triage.plan.PlanLesion.Level;
import limbqueue.triage.question.Entries;
import limbqueue.triage.rule.RuleBook;

/** What the operator has to think of: what the lesions bring with them, and what the patient does. */
final class Cautions {

    /** A red flag that changes a plan, the rule by which it does, and in what words. */
    private record Flagged(String code, String rule, String text) {}

    private static final List<Flagged> FLAGGED = List.of(
            new Flagged(
                    "failed-attempt",
                    "plan-earlier-failure",
                    "An earlier attempt failed: read its report and images, plan more time, another way in and an"
                            + " experienced operator."),
            new Flagged(
                    "earlier-complication",
                    "plan-earlier-complication",
                    "An earlier procedure had a complication: have at hand what treats it, should it return."),
            new Flagged(
                    "contrast-allergy",
                    "plan-carbon-dioxide",
                    "Earlier reaction to contrast medium: settle premedication or another agent; carbon dioxide can"
                            + " replace it below the diaphragm, and never above it."),
            new Flagged(
                    "kidney-risk",
                    "plan-kidney",
                    "The kidneys are at risk: as little contrast medium as possible, carbon dioxide below the diaphragm"
                            + " where it shows enough."),
            new Flagged(
                    "only-leg",
                    "plan-only-leg",
                    "This is the only leg: no step that could cost its flow without a way back."),
            new Flagged(
                    "hard-to-see",
                    "plan-metal",
                    "Metal lies over the iliac arteries: one projection deceives, several obliques."),
            new Flagged(
                    "bleeding-risk",
                    "plan-bleeding",
                    "Raised risk of bleeding: values and drugs settled before, the smallest sheath that does, and the"
                            + " puncture watched."),
            new Flagged(
                    "pregnancy",
                    "plan-pregnancy",
                    "The patient is pregnant: X-rays and contrast medium only after a decision of its own."),
            new Flagged(
                    "aneurysm",
                    "plan-aneurysm",
                    "An aneurysm is known: its treatment is another procedure, and no wire goes through it unseen."));

    private final Case referral;
    private final RuleBook book;
    private final Map<String, RedFlag> flags = new LinkedHashMap<>();
    private final List<Caution> all = new ArrayList<>();

    Cautions(Case referral, RuleBook book, List<RedFlag> flags) {
        this.referral = referral;
        this.book = book;
        flags.forEach(flag -> this.flags.put(flag.code(), flag));
    }

    List<Caution> all() {
        return List.copyOf(all);
    }

    void add(String rule, String text, List<String> because) {
        all.add(new Caution(text, because, rule, book.sourceOf(rule)));
    }

    /** @param lesions all that count, {@code targets} among them */
    void ofLesions(List<PlanLesion> lesions, List<PlanLesion> targets, Set<Side> treated) {
        for (var side : treated) {
            var closed = Entries.those(targets, lesion -> lesion.on(side) && lesion.closed());
            if (Entries.any(
                    closed, lesion -> lesion.level() != closed.getFirst().level())) {
                add(
                        "plan-inflow-first",
                        "Two levels of the " + side.leg() + " are closed: inflow first, and time for both.",
                        paths(Entries.those(targets, lesion -> lesion.on(side) && lesion.closed())));
            }
        }
        var rupture = Entries.those(targets, lesion -> lesion.level() == Level.ABOVE_GROIN && lesion.closed());
        if (!rupture.isEmpty()) {
            add(
                    "plan-surgical-back-up",
                    "An artery above the groin is closed and can rupture: who opens the groin or the abdomen, should it"
                            + " bleed, is settled before the start.",
                    paths(rupture));
        }
        var femoral = Entries.those(targets, lesion -> lesion.segment() == Segment.COMMON_FEMORAL);
        if (!femoral.isEmpty()) {
            add(
                    "plan-access-common-femoral",
                    "Disease of the common femoral artery is usually opened by surgery: discuss it before.",
                    paths(femoral));
        }
        var inStent = Entries.those(targets, PlanLesion::inStent);
        if (!inStent.isEmpty()) {
            add("plan-in-stent", "A lesion lies in an earlier stent: keep the wire inside its struts.", paths(inStent));
        }
        otherLeg(lesions, targets, treated);
    }

    private static List<String> paths(List<PlanLesion> lesions) {
        return Entries.each(lesions, lesion -> lesion.facts().path());
    }

    private void otherLeg(List<PlanLesion> lesions, List<PlanLesion> targets, Set<Side> treated) {
        if (Entries.count(treated, side -> Entries.any(targets, lesion -> lesion.on(side))) > 1) {
            add(
                    "plan-both-legs",
                    "Both legs are to be treated, and the minutes are for both: one session where the disease is above"
                            + " the groins, else one leg at a session.",
                    List.of());
        }
        referral.legTiers().forEach((side, tier) -> {
            var there = Entries.those(
                    lesions, lesion -> lesion.side().map(side::equals).orElse(false));
            if (!treated.contains(side) && tier != Tier.ADVICE_ONLY && !there.isEmpty()) {
                add(
                        "plan-both-legs",
                        "The " + side.leg() + " calls for a procedure too, less soon: it is for another session.",
                        paths(there));
            }
        });
    }

    void ofPatient(Set<Side> treated, List<PlanLesion> lesions) {
        FLAGGED.forEach(flagged -> {
            var raised = flags.get(flagged.code());
            if (raised != null) {
                add(flagged.rule(), flagged.text(), raised.evidence());
            }
        });
        arms();
        if (referral.document().history().dialysis().orElse(false)) {
            add(
                    "plan-fistula",
                    "Dialysis: ask in which arm the fistula lies; that arm is no way in.",
                    List.of("history.dialysis"));
        }
        for (var side : treated) {
            ofLeg(side, lesions);
        }
    }

    private void arms() {
        var history = referral.document().history();
        Arms.known(referral.document().armPressures(), referral.limits())
                .filter(weaker -> weaker != Arms.Weaker.NEITHER)
                .ifPresent(weaker -> add(
                        "plan-arm-risk",
                        "Not from the " + (weaker == Arms.Weaker.LEFT ? "left" : "right")
                                + " arm: its lower pressure speaks for a narrowed artery.",
                        List.of("armPressures.left", "armPressures.right")));
        if (history.leftInternalMammaryGraft().orElse(false)) {
            add(
                    "plan-arm-risk",
                    "Not from the left arm: it feeds the internal mammary graft of the heart.",
                    List.of("history.leftInternalMammaryGraft"));
        }
    }

    private void ofLeg(Side side, List<PlanLesion> lesions) {
        var leg = referral.leg(side);
        if (leg.acute()) {
            add(
                    "plan-acute",
                    "Sudden ischaemia of the " + side.leg() + ": this is for whoever treats it in hospital today or"
                            + " takes it over; clot is removed before the lesion behind it is treated.",
                    List.of(side.path() + ".acute"));
        }
        var pulse = leg.leg().pulses().femoral();
        if (pulse.map(felt -> felt == Pulse.ABSENT).orElse(false)
                && !Entries.any(lesions, lesion -> lesion.on(side) && lesion.level() == Level.ABOVE_GROIN)) {
            add(
                    "plan-absent-pulse",
                    "No pulse is felt in the groin of the " + side.leg()
                            + ", and no lesion above it is known: the inflow is imaged first.",
                    List.of(side.path() + ".pulses.femoral"));
        }
    }
}
