package limbqueue.access;

import java.util.List;
import limbqueue.access.jdbc.AuditStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Component;

/** The append-only record of who did what and when. It holds references, never a patient's name. */
@Component
public class AuditTrail {

    private static final Logger LOG = LoggerFactory.getLogger(AuditTrail.class);

    private final AuditStore store;
    private final CurrentPerson currentPerson;

    AuditTrail(AuditStore store, CurrentPerson currentPerson) {
        this.store = store;
        this.currentPerson = currentPerson;
    }

    /**
     * Records, within the current transaction, that the current person did {@code action} to {@code subject}.
     *
     * @param action a verb phrase, as {@code submitted} or {@code approved}
     * @param subject what it was done to, as a referral's reference
     * @throws org.springframework.security.access.AccessDeniedException if nobody is signed in
     */
    public void record(String action, String subject) {
        var person = currentPerson.get();
        store.append(person.id(), person.displayName(), action, subject);
        LOG.atInfo()
                .addKeyValue("person", person.id())
                .addKeyValue("action", action)
                .addKeyValue("subject", subject)
                .log("{} {}", action, subject);
    }

    /** Records what the application did by itself, before anybody could sign in. */
    void recordOwn(String action, String subject) {
        store.append(null, "LimbQueue", action, subject);
        LOG.atInfo()
                .addKeyValue("action", action)
                .addKeyValue("subject", subject)
                .log("{} {}", action, subject);
    }

    /** The entries from number {@code offset} on, newest first. */
    List<AuditEntry> newestFirst(int offset, int limit) {
        return store.newestFirst(offset, limit);
    }
}
