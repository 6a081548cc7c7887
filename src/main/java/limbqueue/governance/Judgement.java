package limbqueue.governance;

import java.time.LocalDate;
import java.util.List;
import limbqueue.triage.Tier;

/**
 * A decision that says of a proposal whether it is right.
 *
 * @param person who decided, by the number of the account
 * @param agrees whether tier and grades are those proposed; a patient sent to hospital at once agrees where the same day is
 *     proposed
 * @param rules ids of the rules that gave a reason for what was proposed, and of its red flags
 */
public record Judgement(
        long decision,
        LocalDate day,
        long person,
        String personName,
        Tier proposed,
        Tier decided,
        boolean agrees,
        List<String> rules) {}
