package limbqueue.chasing;

import java.util.List;
import limbqueue.triage.TriageResult;

/** What became of something done about a referral. */
public sealed interface ChasingOutcome {

    record Done() implements ChasingOutcome {}

    /**
     * Something new is in the document, which was triaged anew.
     *
     * @param before what was proposed for it until now
     * @param now what is proposed for it since
     * @param changes what it changes of what a physician decided on, one sentence each; if there is any, the referral is
     *     before the physician again
     */
    record Retriaged(TriageResult before, TriageResult now, List<String> changes) implements ChasingOutcome {}

    /** @param why in words for the person who tried */
    record Refused(String why) implements ChasingOutcome {}

    /** Somebody else was first. */
    record Overtaken() implements ChasingOutcome {}
}
