package limbqueue.chasing;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.chasing.jdbc.ChasingDaysStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The days that the practice has set for reminders and calls, version by version. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
public class ChasingSettings {

    private final ChasingDaysStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;

    ChasingSettings(ChasingDaysStore store, CurrentPerson currentPerson, AuditTrail auditTrail) {
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
    }

    /** The version in force. */
    public ChasingDaysVersion inForce() {
        return store.newest();
    }

    /** Every version, the newest first. */
    public List<ChasingDaysVersion> versions() {
        return store.all();
    }

    /**
     * Sets other days, in force at once. Requests already sent keep the day on which their answer is due.
     *
     * @param version the version that was looked at
     * @param reason why, in one's own words
     * @throws NotPossibleException if no reason is given, or somebody else has set other days meanwhile
     */
    @RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
    @Transactional
    public ChasingDaysVersion set(int version, ChasingDays days, String reason) {
        if (reason.isBlank()) {
            throw new NotPossibleException("Say why the days change; it is kept with them.");
        }
        if (store.newest().version() != version || !store.add(version + 1, days, currentPerson.get(), reason.strip())) {
            throw new NotPossibleException(
                    "Somebody else has set other days meanwhile. They stand in the list; look, then set yours again.");
        }
        auditTrail.record("set the days of reminders and calls", "version " + (version + 1));
        return store.newest();
    }
}
