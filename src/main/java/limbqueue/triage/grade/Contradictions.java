package limbqueue.triage.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.ArmPressures;
import limbqueue.triage.ReferralDocument.Exposes;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.TriageResult.Contradiction;
import limbqueue.triage.perfusion.Indices;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** Answers about one leg that cannot all be true. The more serious reading is acted on until somebody settles it. */
public final class Contradictions {

    private final LegFacts facts;
    private final List<Contradiction> found = new ArrayList<>();

    private Contradictions(LegFacts facts) {
        this.facts = facts;
    }

    public static List<Contradiction> of(LegPicture picture, ArmPressures arms) {
        var contradictions = new Contradictions(picture.facts());
        contradictions.index(arms);
        contradictions.wound();
        contradictions.complaints();
        contradictions.amputation();
        contradictions.acute();
        contradictions.restPainWithGoodFlow(picture);
        return contradictions.found;
    }

    private void index(ArmPressures arms) {
        var leg = facts.leg();
        var reported = leg.abi();
        var measured = reported.flatMap(_ -> Indices.measuredAbi(leg, arms));
        if (reported.isPresent() && measured.isPresent()) {
            var difference = Math.abs(reported.get().value() - measured.get());
            // Two decimals on both sides: the tolerance is compared at two decimals as well.
            if (Math.round(difference * 100) > Math.round(facts.limits().of(Limit.ABI_CONTRADICTION_MORE_THAN) * 100)) {
                add(
                        "contradiction-abi",
                        Sentence.of(
                                "The ankle-brachial index reported, %.2f, is not the one that the pressures give, %.2f; the pressures count.",
                                reported.get().value(), measured.get()),
                        "abi",
                        "pressures");
            }
        }
    }

    private void wound() {
        var wound = facts.leg().wound();
        if (wound.ulcer().equals(Optional.of(Ulcer.NONE))
                && wound.exposes().map(exposes -> exposes != Exposes.NOTHING).orElse(false)) {
            add(
                    "contradiction-wound",
                    "No ulcer is stated, yet something is exposed in it; an ulcer is assumed.",
                    "wound.ulcer",
                    "wound.exposes");
        }
        if (wound.ulcer().equals(Optional.of(Ulcer.SHALLOW)) && facts.acting(LegTopics.ULCER) != Ulcer.SHALLOW) {
            add(
                    "contradiction-wound",
                    "The ulcer is called shallow, yet bone, joint or tendon is exposed in it; it is taken as deep.",
                    "wound.ulcer",
                    "wound.exposes");
        }
        if (wound.ulcer().equals(Optional.of(Ulcer.NONE))
                && wound.gangrene().equals(Optional.of(Gangrene.NONE))
                && wound.spreading().orElse(false)) {
            add(
                    "contradiction-wound",
                    "A wound is said to spread, yet there is none.",
                    "wound.spreading",
                    "wound.ulcer",
                    "wound.gangrene");
        }
        if (facts.leg().infection().localSigns().equals(Optional.of(0))
                && facts.leg()
                        .infection()
                        .rednessMm()
                        .map(reach -> reach.value() > facts.limits().of(Limit.INFECTION_REDNESS_MILD_MORE_THAN))
                        .orElse(false)) {
            add(
                    "contradiction-infection",
                    "No local sign of infection is counted, yet there is redness around the wound.",
                    "infection.localSigns",
                    "infection.rednessMm");
        }
    }

    private void complaints() {
        var claudication = facts.leg().claudication();
        if (claudication.present().equals(Optional.of(false))
                && claudication.distanceMetres().isPresent()) {
            add(
                    "contradiction-claudication",
                    "No pain on walking is stated, yet there is a distance at which it begins; it is assumed to be there.",
                    "claudication.present",
                    "claudication.distanceMetres");
        }
        var restPain = facts.leg().restPain();
        if (restPain.present().equals(Optional.of(false))
                && (restPain.needsOpioid().orElse(false)
                        || restPain.easedByHanging().orElse(false))) {
            add(
                    "contradiction-rest-pain",
                    "No rest pain is stated, yet there is something that eases it; it is assumed to be there.",
                    "restPain.present",
                    restPain.needsOpioid().orElse(false) ? "restPain.needsOpioid" : "restPain.easedByHanging");
        }
    }

    private void amputation() {
        if (!facts.footGone()) {
            return;
        }
        var leg = facts.leg();
        if (leg.claudication().distanceMetres().isPresent()) {
            add(
                    "contradiction-amputation",
                    "The leg is amputated above the ankle, yet a walking distance is given for it.",
                    "amputation",
                    "claudication.distanceMetres");
        }
        var pressures = leg.pressures();
        if (pressures.dorsalisPedis().isPresent()
                || pressures.posteriorTibial().isPresent()
                || pressures.toe().isPresent()) {
            add(
                    "contradiction-amputation",
                    "The leg is amputated above the ankle, yet pressures of its foot are given.",
                    "amputation",
                    "pressures");
        }
    }

    private void acute() {
        var acute = facts.leg().acute();
        if (acute.present().equals(Optional.of(false)) && facts.acting(LegTopics.ACUTE)) {
            add(
                    "contradiction-acute",
                    "New limb ischaemia is denied, yet it has an onset or a finding; it is assumed to be there.",
                    "acute.present",
                    "acute");
        }
    }

    private void restPainWithGoodFlow(LegPicture picture) {
        if (picture.restPain()
                && facts.figures().known()
                && picture.perfusion().ischaemia() <= 1
                && !picture.perfusion().poorAtRest()) {
            add(
                    "contradiction-good-flow",
                    "Pain at rest with good pressures: the pain keeps its grade until the cause is settled"
                            + (facts.figures().distalKnown() ? "." : "; a toe pressure helps."),
                    "restPain.present",
                    "pressures");
        }
    }

    private void add(String rule, String text, String... fields) {
        found.add(new Contradiction(
                rule, java.util.Arrays.stream(fields).map(facts::path).toList(), text));
    }
}
