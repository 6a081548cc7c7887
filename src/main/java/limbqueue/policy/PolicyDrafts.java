package limbqueue.policy;

import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.policy.jdbc.PolicyDraftStore;
import limbqueue.policy.jdbc.PolicyDraftStore.Ending;
import limbqueue.practice.LeadPhysicians;
import limbqueue.practice.Policies;
import limbqueue.practice.PolicyVersion;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The one draft of the next policy, which the lead physician writes. Every step of it is kept. */
@Service
@RolesAllowed(IS_PHYSICIAN)
public class PolicyDrafts {

    private final PolicyDraftStore store;
    private final Policies policies;
    private final LeadPhysicians lead;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    PolicyDrafts(
            PolicyDraftStore store,
            Policies policies,
            LeadPhysicians lead,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.policies = policies;
        this.lead = lead;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** The draft as it stands, if there is one. */
    @Transactional(readOnly = true)
    public Optional<PolicyDraft> current() {
        return store.current();
    }

    /** What a new draft begins with: the policy in force, under the next name that is free. */
    @Transactional(readOnly = true)
    public TypedPolicy beginning() {
        var number = policies.versions().size() + 1;
        while (policies.find("policy-" + number).isPresent()) {
            number++;
        }
        return TypedPolicy.of(policies.inForce(), "policy-" + number, today());
    }

    /**
     * Keeps what is typed.
     *
     * @param madeOn the step that it was typed on; empty if there was no draft
     * @throws NotPossibleException if somebody else leads
     */
    @Transactional
    public DraftOutcome save(Optional<Long> madeOn, TypedPolicy typed) {
        requireLead();
        store.lock();
        var before = store.current();
        if (!before.map(PolicyDraft::id).equals(madeOn)) {
            store.keepOvertaken(madeOn, typed, me(), now());
            return new DraftOutcome.Overtaken(before);
        }
        return new DraftOutcome.Saved(store.add(madeOn, typed, me(), now()));
    }

    /**
     * Puts the draft away. Its steps are kept.
     *
     * @throws NotPossibleException if somebody else leads, or the draft is another by now
     */
    @Transactional
    public void discard(long draft) {
        requireLead();
        var current = locked(draft);
        store.end(current, Ending.DISCARDED, me(), now());
        auditTrail.record("discarded the draft of policy", current.typed().get(TypedPolicy.NAME));
    }

    /**
     * Publishes the draft.
     *
     * @throws NotPossibleException if somebody else leads, the draft is another by now, or something in it cannot be right
     */
    @Transactional
    public PolicyVersion publish(long draft) {
        requireLead();
        var current = locked(draft);
        var read = current.typed().read(today());
        if (!read.problems().isEmpty()) {
            throw new NotPossibleException(String.join(" ", read.problems().values()));
        }
        var published = policies.publish(
                read.policy().orElseThrow(), read.validFrom().orElseThrow(), read.reason(), read.secondLook());
        store.end(current, Ending.PUBLISHED, me(), now());
        return published;
    }

    private PolicyDraft locked(long draft) {
        store.lock();
        return store.current()
                .filter(current -> current.id() == draft)
                .orElseThrow(() -> new NotPossibleException(
                        "The draft was changed by somebody else meanwhile. Look at it again, then repeat."));
    }

    private void requireLead() {
        if (!lead.leads()) {
            throw new NotPossibleException(
                    lead.named().map(Person::displayName).orElse("Somebody else") + " leads, and writes the policy.");
        }
    }

    private LocalDate today() {
        return LocalDate.now(clock);
    }

    private Person me() {
        return currentPerson.get();
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
