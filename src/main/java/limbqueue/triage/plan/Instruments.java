package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import limbqueue.triage.ProcedurePlan.Access;
import limbqueue.triage.ProcedurePlan.Advice;
import limbqueue.triage.ProcedurePlan.BailOut;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.ProcedurePlan.Sheath;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.IliacDisease;
import limbqueue.triage.plan.PlanLesion.Level;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;

/** Sheaths, support, wires, and what has to be in the room. Classes of instruments only, never a brand. */
final class Instruments {

    private final Case referral;
    private final RuleBook book;
    private final PlanAnswers answers;
    private final List<PlanLesion> targets;
    private final Set<String> flags = new TreeSet<>();

    private final boolean overBifurcation;
    private final boolean shortFromGroin;
    private final boolean fromArm;
    private final boolean fromAboveAndBelow;
    private final boolean small;
    private final boolean bailOut;

    Instruments(
            Case referral,
            RuleBook book,
            List<RedFlag> flags,
            PlanAnswers answers,
            List<PlanLesion> targets,
            List<Access> access,
            List<BailOut> bailOut) {
        this.referral = referral;
        this.book = book;
        this.answers = answers;
        this.targets = targets;
        flags.forEach(flag -> this.flags.add(flag.code()));
        this.overBifurcation = any(access, step -> alone(step) && !ofTreatedLeg(step) && !ofArm(step));
        this.shortFromGroin = any(
                access,
                step -> Entries.any(step.sites(), site -> !site.place().ofArm())
                        && (!alone(step) || ofTreatedLeg(step)));
        this.fromArm = any(access, Instruments::ofArm);
        this.fromAboveAndBelow = any(access, step -> ofArm(step) && !alone(step));
        this.bailOut = !bailOut.isEmpty();
        this.small = this.bailOut
                || any(
                        access,
                        step -> Entries.any(step.sites(), site -> site.place().small()));
    }

    private static boolean any(List<Access> access, Predicate<Access> condition) {
        return Entries.any(access, condition);
    }

    private static boolean alone(Access step) {
        return step.sites().size() == 1;
    }

    private static boolean ofTreatedLeg(Access step) {
        return step.sides().contains(step.sites().getFirst().side());
    }

    private static boolean ofArm(Access step) {
        return Entries.any(step.sites(), site -> site.place().ofArm());
    }

    List<Sheath> sheaths() {
        var sheaths = new ArrayList<Sheath>();
        var working = onlyBelowKnee() ? Limit.PLAN_SHEATH_BELOW_KNEE : Limit.PLAN_SHEATH_WORKING;
        var covered = onlyBelowKnee() ? "balloons and stents of arteries below the knee" : "a covered stent";
        if (overBifurcation) {
            sheaths.add(sheath(
                    "the opposite groin, over the aortic bifurcation",
                    working,
                    Limit.PLAN_SHEATH_OVER_BIFURCATION,
                    covered));
        }
        if (shortFromGroin) {
            sheaths.add(sheath("the groin", working, Limit.PLAN_SHEATH_SHORT, covered));
        }
        if (fromArm) {
            sheaths.add(sheath("the upper arm", working, Limit.PLAN_SHEATH_FROM_ARM, covered));
            sheaths.add(sheath(
                    "the wrist in place of the upper arm",
                    Limit.PLAN_SHEATH_WRIST,
                    Limit.PLAN_SHEATH_FROM_ARM,
                    "balloons and bare stents; a covered stent may not fit"));
        }
        if (small) {
            sheaths.add(sheath(
                    "below the common femoral artery, a small system",
                    Limit.PLAN_SHEATH_SMALL,
                    Limit.PLAN_SHEATH_SHORT,
                    "wire, support catheter and small balloons; no covered stent"));
        }
        return List.copyOf(sheaths);
    }

    private boolean onlyBelowKnee() {
        return Entries.all(targets, PlanLesion::belowKnee);
    }

    private Sheath sheath(String from, Limit french, Limit length, String fits) {
        return new Sheath(from, whole(french), whole(length), fits, "plan-sheath", book.sourceOf("plan-sheath"));
    }

    private int whole(Limit limit) {
        return referral.limits().whole(limit);
    }

    List<Advice> support() {
        var advice = new ArrayList<Advice>();
        if (fromArm) {
            advice.add(advice(
                    "plan-support",
                    Sentence.of("support catheter of about %d cm from the arm", whole(Limit.PLAN_SUPPORT_FROM_ARM)),
                    "The way from the arm is long."));
            if (Entries.any(targets, lesion -> lesion.level() == Level.BELOW_GROIN)) {
                advice.add(advice(
                        "plan-support",
                        Sentence.of(
                                "balloons and stents on shafts of %d cm and more from the arm",
                                whole(Limit.PLAN_SHAFT_BELOW_GROIN_FROM_ARM)),
                        "Whether they reach below the groin depends on the height of the patient."));
            }
        }
        if (overBifurcation || shortFromGroin) {
            advice.add(advice(
                    "plan-support",
                    "support catheter of the usual length from the groin",
                    "It carries the wire and keeps its tip from bending away."));
        }
        return List.copyOf(advice);
    }

    List<Advice> wires() {
        return List.copyOf(new LinkedHashSet<>(Entries.each(targets, this::wire)));
    }

    private Advice wire(PlanLesion lesion) {
        var artery = lesion.facts().words();
        if (!lesion.closed()) {
            return advice(
                    "plan-wires", artery + ": hydrophilic wire", "A narrowed artery is passed without much pressure.");
        }
        if (heavilyCalcified(lesion) || lesion.old(answers)) {
            return advice(
                    "plan-wires",
                    Sentence.of(
                            "%s: stiff wire with a high tip load, up to about %d g",
                            artery, whole(Limit.PLAN_WIRE_TIP_LOAD)),
                    "An old or heavily calcified occlusion is hard.");
        }
        return advice("plan-wires", artery + ": hydrophilic wire", "A younger and softer occlusion gives way.");
    }

    private boolean heavilyCalcified(PlanLesion lesion) {
        return lesion.calcification(answers) == Calcification.SEVERE;
    }

    List<RoomItem> room() {
        var room = new ArrayList<RoomItem>();
        if (targets.isEmpty()) {
            return List.of();
        }
        var rupture = Entries.those(targets, this::canRupture);
        rupture.forEach(lesion -> room.add(inRoom(
                "plan-covered-stent",
                "covered stent, sized to the vessel: " + lesion.facts().words() + ", " + size(lesion),
                true,
                "An iliac occlusion or a calcified iliac narrowing can rupture; without it the case is not ready.")));
        if (!rupture.isEmpty()) {
            room.add(inRoom(
                    "plan-covered-stent",
                    "tamponade balloon, sized to the vessel",
                    true,
                    "It stops the bleeding until the covered stent is in place."));
        }
        if (overBifurcation) {
            room.add(inRoom("plan-sheath", "long sheath over the aortic bifurcation", false, "It carries across."));
        }
        if (fromArm) {
            room.add(inRoom("plan-sheath", "long sheath from the arm", false, "It reaches the leg arteries."));
            room.add(inRoom(
                    "plan-support",
                    Sentence.of("support catheter of about %d cm", whole(Limit.PLAN_SUPPORT_FROM_ARM)),
                    false,
                    "The way from the arm is long."));
        }
        if (Entries.any(targets, lesion -> lesion.closed() && !lesion.belowKnee())) {
            room.add(inRoom(
                    "plan-crossing", "re-entry set", false, "A wire beside the true lumen has to find back into it."));
        }
        if (bailOut) {
            room.add(inRoom(
                    "plan-crossing",
                    "set for a puncture from below, a small system",
                    false,
                    "An occlusion that is not crossed from above is crossed from below."));
        }
        if (bailOut || fromAboveAndBelow) {
            room.add(inRoom(
                    "plan-crossing", "snare", false, "A wire that comes from the other end is caught and led out."));
        }
        room.add(inRoom("plan-puncture", "ultrasound for the puncture", false, "Every puncture is seen."));
        carbonDioxide(room);
        if (referral.anyLeg(leg -> leg.acute() && referral.legTiers().get(leg.side()) == referral.tier())) {
            room.add(inRoom(
                    "plan-acute",
                    "set for the removal of clot",
                    false,
                    "Sudden ischaemia: there is clot in front of or behind the lesion."));
        }
        return List.copyOf(room);
    }

    private boolean canRupture(PlanLesion lesion) {
        return lesion.level() == Level.ABOVE_GROIN
                && IliacDisease.canRupture(lesion.segment(), lesion.narrowing(), lesion.calcification(answers));
    }

    /** A covered stent is as wide as the vessel or a little wider. */
    private String size(PlanLesion lesion) {
        var vessel = lesion.facts().aneurysm() ? 0 : answers.of(lesion.facts().vesselDiameter());
        return vessel > 0
                ? Sentence.of(
                        "%.0f to %.0f mm wide",
                        vessel, vessel + referral.limits().of(Limit.PLAN_COVERED_STENT_WIDER_AT_MOST))
                : "whose diameter has to be measured before";
    }

    private void carbonDioxide(List<RoomItem> room) {
        var allergy = flags.contains("contrast-allergy");
        if (allergy || flags.contains("kidney-risk")) {
            room.add(inRoom(
                    "plan-carbon-dioxide",
                    "set for carbon dioxide angiography",
                    allergy,
                    "It can replace contrast medium below the diaphragm, and never above it."));
        }
    }

    private Advice advice(String rule, String text, String why) {
        return new Advice(text, why, rule, book.sourceOf(rule));
    }

    private RoomItem inRoom(String rule, String item, boolean mustBeInRoom, String why) {
        return new RoomItem(item, mustBeInRoom, why, rule, book.sourceOf(rule));
    }
}
