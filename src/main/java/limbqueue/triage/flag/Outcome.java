package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.finding.Evidence;

/** What a rule makes of a referral. */
public sealed interface Outcome {

    /** @param evidence paths of the fields on which the flag rests */
    record Fires(String text, List<String> evidence) implements Outcome {}

    record Silent() implements Outcome {}

    /** @param missing paths of the fields that would settle it */
    record CannotTell(List<String> missing) implements Outcome {}

    static Outcome fires(String text, List<String> evidence) {
        return new Fires(text, evidence);
    }

    static Outcome silent() {
        return new Silent();
    }

    static Outcome cannotTell(String... missing) {
        return new CannotTell(List.of(missing));
    }

    static Outcome cannotTell(List<String> missing) {
        return new CannotTell(missing);
    }

    /** Fires when there is evidence, and is silent without. */
    static Outcome onEvidence(String text, Evidence evidence) {
        return evidence.isEmpty() ? silent() : fires(text, evidence.paths());
    }
}
