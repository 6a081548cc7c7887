package limbqueue.practice;

import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.practice.jdbc.PracticeStore;
import limbqueue.triage.Policy;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the practice has set for itself. */
@Service
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
public class PracticeSettings {

    private final PracticeStore store;
    private final Policies policies;
    private final LetterheadCheck check;
    private final AuditTrail auditTrail;

    PracticeSettings(PracticeStore store, Policies policies, LetterheadCheck check, AuditTrail auditTrail) {
        this.store = store;
        this.policies = policies;
        this.check = check;
        this.auditTrail = auditTrail;
    }

    public Practice practice() {
        return store.get();
    }

    /**
     * Replaces what the practice says of itself.
     *
     * @param practice with the version it was read at
     */
    @Transactional
    @RolesAllowed(Role.IS_MANAGER)
    public PracticeSaveOutcome save(Practice practice) {
        var wrong = check.wrongWith(practice);
        if (wrong.isPresent()) {
            return new PracticeSaveOutcome.NotRight(wrong.get());
        }
        if (!store.replace(practice)) {
            return new PracticeSaveOutcome.Conflict(store.get());
        }
        auditTrail.record("changed practice", practice.name());
        return new PracticeSaveOutcome.Saved(store.get());
    }

    /** The policy in force. */
    public Policy policy() {
        return policies.inForce().policy();
    }
}
