package limbqueue.practice;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.document.PolicyFormat;
import limbqueue.practice.jdbc.PolicyStore;
import limbqueue.triage.Policy;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The days of each tier and the other choices of the practice, version by version. A version is never changed or taken
 * back; another one follows it.
 */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
public class Policies {

    private final PolicyStore store;
    private final PolicyInForce inForce;
    private final LeadPhysicians lead;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;

    Policies(
            PolicyStore store,
            PolicyInForce inForce,
            LeadPhysicians lead,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events) {
        this.store = store;
        this.inForce = inForce;
        this.lead = lead;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
    }

    /** The latest version whose first day has come. */
    public PolicyVersion inForce() {
        return inForce.version();
    }

    /** The version with this id, in force or not. */
    public Optional<PolicyVersion> find(String policyId) {
        return inForce.find(policyId);
    }

    /** Every version, the newest first. */
    public List<PolicyVersion> versions() {
        return store.all().stream().map(inForce::version).toList();
    }

    /** The version that counts on {@code day}, as far as versions are published by now. */
    public PolicyVersion on(LocalDate day) {
        return inForce.on(day);
    }

    /** As {@link #publish(Policy, LocalDate, String, SecondLook)}, with the second look of the version in force. */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public PolicyVersion publish(Policy policy, LocalDate validFrom, String reason) {
        return publish(policy, validFrom, reason, inForce.version().secondLook());
    }

    /**
     * Publishes another version, which takes the place of every other from its first day on. Only the lead physician may.
     *
     * @param policy with an id that no version has yet
     * @param validFrom today or later: what was proposed stays as it was
     * @param reason why, in one's own words
     * @param secondLook which decisions a second physician looks at
     * @throws NotPossibleException if somebody else leads, the id is taken, the day is past or no reason is given
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public PolicyVersion publish(Policy policy, LocalDate validFrom, String reason, SecondLook secondLook) {
        if (!lead.leads()) {
            throw new NotPossibleException(
                    lead.named().map(Person::displayName).orElseThrow() + " leads, and publishes the policy.");
        }
        if (validFrom.isBefore(inForce.today())) {
            throw new NotPossibleException("A policy cannot count from a day that is past. Choose today or later.");
        }
        if (reason.isBlank()) {
            throw new NotPossibleException("Say why the policy changes; it is kept with the policy.");
        }
        store.lock();
        if (store.find(policy.id()).isPresent()) {
            throw new NotPossibleException(
                    "There is a policy " + policy.id() + " already. Give this one another name.");
        }
        var published = inForce.version(store.add(
                policy.id(),
                PolicyFormat.write(policy).toString(),
                validFrom,
                currentPerson.get(),
                reason.strip(),
                secondLook));
        auditTrail.record("published policy", policy.id());
        events.publishEvent(new PolicyPublished(published));
        return published;
    }
}
