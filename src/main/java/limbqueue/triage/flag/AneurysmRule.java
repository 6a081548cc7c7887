package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.finding.Case;

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
                Stream.of(
                                history.poplitealAneurysm().orElse(false)
                                        ? Stream.of("history.poplitealAneurysm")
                                        : Stream.<String>empty(),
                                history.aorticAneurysm().orElse(false)
                                        ? Stream.of("history.aorticAneurysm")
                                        : Stream.<String>empty(),
                                Case.entries(
                                                "lesions",
                                                referral.document().lesions(),
                                                lesion -> lesion.aneurysm().orElse(false))
                                        .stream()
                                        .map(entry -> entry + ".aneurysm"))
                        .flatMap(paths -> paths));
    }
}
