package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;

/** A rule that raises one red flag. */
public interface FlagRule {

    /** The code of the flag, as the public format names it. */
    String code();

    /** Id of the source. */
    String source();

    Outcome look(Case referral);
}
