package limbqueue.sameday;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.sameday.jdbc.SameDayChoiceStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the practice has chosen for same-day cases, version by version. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
public class SameDayChoices {

    private final SameDayChoiceStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;

    SameDayChoices(SameDayChoiceStore store, CurrentPerson currentPerson, AuditTrail auditTrail) {
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
    }

    /** The choice in force. */
    public SameDayChoiceVersion inForce() {
        return store.newest();
    }

    /** Every version, the newest first. */
    public List<SameDayChoiceVersion> versions() {
        return store.all();
    }

    /**
     * Chooses anew, in force at once, also for cases that ring already.
     *
     * @param version the version that was looked at
     * @param reason why, in one's own words
     * @throws NotPossibleException if no reason is given, or somebody else has chosen meanwhile
     */
    @RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
    @Transactional
    public SameDayChoiceVersion choose(int version, SameDayChoice choice, String reason) {
        if (reason.isBlank()) {
            throw new NotPossibleException("Say why it changes; the reason is kept with it.");
        }
        if (store.newest().version() != version
                || !store.add(version + 1, choice, currentPerson.get(), reason.strip())) {
            throw new NotPossibleException(
                    "Somebody else has changed it meanwhile. What they chose stands in the list; look, then save yours"
                            + " again.");
        }
        auditTrail.record("chose what happens with same-day cases", "version " + (version + 1));
        return store.newest();
    }
}
