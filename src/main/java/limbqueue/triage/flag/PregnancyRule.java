package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.finding.Case;

/** The patient is pregnant. */
final class PregnancyRule implements FlagRule {

    @Override
    public String code() {
        return "pregnancy";
    }

    @Override
    public Outcome look(Case referral) {
        return referral.document().history().pregnant().orElse(false)
                ? Outcome.fires(
                        "The patient is pregnant: radiation and contrast need a decision of their own.",
                        List.of("history.pregnant"))
                : Outcome.silent();
    }
}
