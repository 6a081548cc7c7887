package limbqueue.access;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import org.springframework.stereotype.Service;

/** The audit trail, as the manager reads it. */
@Service
@RolesAllowed(Role.IS_MANAGER)
public class Activity {

    private final AuditTrail auditTrail;

    Activity(AuditTrail auditTrail) {
        this.auditTrail = auditTrail;
    }

    /**
     * Entries of the audit trail, newest first.
     *
     * @param offset how many of the newest to pass over, 0 or more
     * @param limit how many at most
     */
    public List<AuditEntry> newestFirst(int offset, int limit) {
        return auditTrail.newestFirst(offset, limit);
    }
}
