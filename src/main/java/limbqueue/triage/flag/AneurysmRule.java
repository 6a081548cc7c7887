package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;

/** A popliteal or aortic aneurysm. */
final class AneurysmRule implements FlagRule {

    @Override
    public String code() {
        return "aneurysm";
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        return Outcome.onEvidence(
                "A popliteal or aortic aneurysm: a source of emboli, and another pathway.",
                new Evidence()
                        .when(history.poplitealAneurysm(), "history.poplitealAneurysm")
                        .when(history.aorticAneurysm(), "history.aorticAneurysm")
                        .entries(
                                "lesions",
                                referral.document().lesions(),
                                lesion -> lesion.aneurysm().orElse(false),
                                "aneurysm"));
    }
}
