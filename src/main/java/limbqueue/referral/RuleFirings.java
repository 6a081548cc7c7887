package limbqueue.referral;

import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.Map;
import limbqueue.referral.jdbc.LatestProposalStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How often each rule speaks in the referrals that are kept. */
@Service
public class RuleFirings {

    /**
     * @param referrals how many referrals are before a physician or decided; drafts do not count
     * @param byRule in how many of their latest proposals each rule speaks, by its id; one that never does is not in it
     */
    public record Count(int referrals, Map<String, Integer> byRule) {

        public int of(String rule) {
            return byRule.getOrDefault(rule, 0);
        }
    }

    private final LatestProposalStore store;

    RuleFirings(LatestProposalStore store) {
        this.store = store;
    }

    @RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Count count() {
        return new Count(store.referrals(), store.firings());
    }
}
