package limbqueue.referral;

import java.util.List;
import limbqueue.access.Person;
import limbqueue.practice.Policies;
import limbqueue.referral.jdbc.SecondLookStore;
import limbqueue.triage.Policy;
import org.springframework.stereotype.Component;

/** Whether a lowered tier is shown to a second physician, by the practice's choice. */
@Component
class SecondLookRule {

    private final Policies policies;
    private final SecondLookStore store;

    SecondLookRule(Policies policies, SecondLookStore store) {
        this.policies = policies;
        this.store = store;
    }

    /**
     * What is shown to a second physician before the tier counts; nothing where the practice does not want it, and where no
     * other physician can sign in, since nobody could ever agree.
     */
    List<String> against(Lowering lowering, Policy policy, Person first) {
        if (!lowering.stands()) {
            return List.of();
        }
        var choice = policies.find(policy.id()).orElseThrow().secondLook();
        var shown = lowering.shown(choice);
        return shown.isEmpty() || !store.anotherPhysician(first.id()) ? List.of() : shown;
    }
}
