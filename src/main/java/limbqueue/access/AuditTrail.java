package limbqueue.access;

import org.springframework.stereotype.Component;

/** The append-only record of who did what and when. It holds references, never a patient's name. */
@Component
public class AuditTrail {

    /**
     * Records, within the current transaction, that the current person did {@code action} to {@code subject}.
     *
     * @param action a verb phrase, as {@code submitted} or {@code approved}
     * @param subject what it was done to, as a referral's reference
     */
    public void record(String action, String subject) {
        throw new IllegalStateException("being built");
    }
}
