package limbqueue.triage.flag;

import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Substances;

/** An earlier reaction to contrast medium. */
final class ContrastAllergyRule implements FlagRule {

    @Override
    public String code() {
        return "contrast-allergy";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "An earlier reaction to contrast medium: premedication, another agent or carbon dioxide, by local"
                        + " protocol.",
                Stream.concat(
                        Case.entries(
                                        "allergies",
                                        referral.document().allergies(),
                                        allergy -> allergy.to()
                                                .map(Substances::isContrastMedium)
                                                .orElse(false))
                                .stream()
                                .map(entry -> entry + ".to"),
                        Case.entries(
                                        "procedures",
                                        referral.document().procedures(),
                                        procedure -> procedure
                                                .complication()
                                                .equals(Optional.of(Complication.CONTRAST_REACTION)))
                                .stream()
                                .map(entry -> entry + ".complication")));
    }
}
