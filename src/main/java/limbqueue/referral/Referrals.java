package limbqueue.referral;

import java.time.LocalDate;
import java.util.List;
import limbqueue.document.Reading;
import limbqueue.triage.TriageResult;
import org.springframework.stereotype.Service;

/** A referral's life, from the first keystroke to the decision. */
@Service
public class Referrals {

    /** Starts a draft received today, with a reference of its own. */
    public Referral begin() {
        throw new IllegalStateException("being built");
    }

    /** @throws ReferralNotFoundException if there is none with this id */
    public Referral get(long id) {
        throw new IllegalStateException("being built");
    }

    /** Saves the document of a referral that is still open (draft, information needed, or queued). */
    public SaveOutcome save(long id, int version, String document) {
        throw new IllegalStateException("being built");
    }

    /** Puts a draft, or one sent back for information, before the physician. */
    public SubmitOutcome submit(long id, int version) {
        throw new IllegalStateException("being built");
    }

    /** Decides on a queued referral. */
    public DecideOutcome decide(long id, int version, Decision decision) {
        throw new IllegalStateException("being built");
    }

    /** Queued referrals, most urgent tier first, then target date, then waiting longest. */
    public List<ReferralLine> queue() {
        throw new IllegalStateException("being built");
    }

    /** Every referral for the office: open ones first, then those decided, newest first. */
    public List<ReferralLine> worklist() {
        throw new IllegalStateException("being built");
    }

    /** Decisions on this referral, newest first. */
    public List<DecisionRecord> decisions(long id) {
        throw new IllegalStateException("being built");
    }

    /** What happened to this referral, newest first. */
    public List<TimelineEntry> timeline(long id) {
        throw new IllegalStateException("being built");
    }

    /** Triage of a document under the policy in force, as of today. */
    public TriageResult propose(Reading reading) {
        throw new IllegalStateException("being built");
    }

    /** Today in the practice. */
    public LocalDate today() {
        throw new IllegalStateException("being built");
    }
}
