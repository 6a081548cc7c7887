package limbqueue.governance;

import java.time.LocalDate;
import java.util.List;
import limbqueue.triage.Tier;

/**
 * A rule whose proposals were overruled.
 *
 * @param says the rule in a sentence; empty where the rule book in force has it no more
 * @param reasons the latest ones that were given, without the patient's name
 */
public record Overruling(String rule, String says, Proportion overruled, List<Reason> reasons) {

    /** @param words as typed, or who was told where the patient went to hospital; names of the patient replaced */
    public record Reason(LocalDate day, Tier proposed, Tier decided, String words) {}
}
