package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;

/** A rule that raises one red flag. */
public interface FlagRule {

    /** The code of the flag, as the public format and the rule book name it. */
    String code();

    Outcome look(Case referral);
}
