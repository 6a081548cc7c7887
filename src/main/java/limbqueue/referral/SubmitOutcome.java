package limbqueue.referral;

import java.util.List;
import limbqueue.document.Problem;

/** What became of an attempt to put a referral before the physician. */
public sealed interface SubmitOutcome {

    record Submitted(Referral referral) implements SubmitOutcome {}

    /** Something typed cannot be right and must be mended first. */
    record NotYet(List<Problem> problems) implements SubmitOutcome {}

    /** Somebody else saved first. */
    record Conflict(Referral theirs) implements SubmitOutcome {}
}
