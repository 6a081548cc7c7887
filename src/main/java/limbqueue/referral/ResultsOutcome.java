package limbqueue.referral;

import java.util.List;
import limbqueue.document.Problem;

/** What became of results that were typed in. */
public sealed interface ResultsOutcome {

    /**
     * They are in the referral.
     *
     * @param changes what they change of what was decided on, one sentence each; if there is any, the referral is before
     *     the physician again
     */
    record Entered(Referral referral, List<String> changes) implements ResultsOutcome {}

    /** A value cannot be right; nothing was saved. */
    record NotRight(List<Problem> problems) implements ResultsOutcome {}

    /** Somebody else saved or decided first, or the referral takes no results any more. What was typed is kept. */
    record Overtaken(Referral now) implements ResultsOutcome {}
}
