package limbqueue.practice;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.practice.jdbc.LeadPhysicianStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The physician whom the practice names as lead, and who alone publishes a policy. Where nobody is named, or who was named
 * may not sign in any more, every physician does.
 */
@Service
public class LeadPhysicians {

    private final LeadPhysicianStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;

    LeadPhysicians(LeadPhysicianStore store, CurrentPerson currentPerson, AuditTrail auditTrail) {
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
    }

    /** The one who is named. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Optional<Person> named() {
        return store.lead();
    }

    /** Whether the person signed in leads. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public boolean leads() {
        var me = currentPerson.get();
        return me.role() == Role.PHYSICIAN
                && store.lead().map(lead -> lead.id() == me.id()).orElse(true);
    }

    /** Physicians who may sign in, by name. */
    @RolesAllowed(IS_MANAGER)
    @Transactional(readOnly = true)
    public List<Person> physicians() {
        return store.physicians();
    }

    /**
     * Names the lead.
     *
     * @param physician nobody: from then on every physician leads
     * @throws NotPossibleException if this is no physician who may sign in
     */
    @RolesAllowed(IS_MANAGER)
    @Transactional
    public void name(Optional<Person> physician) {
        if (physician.isPresent() && !store.physicians().contains(physician.get())) {
            throw new NotPossibleException("Only a physician who may sign in can lead. Choose one from the list.");
        }
        store.add(physician, currentPerson.get());
        auditTrail.record(
                "named lead physician", physician.map(Person::signInName).orElse("nobody"));
    }
}
