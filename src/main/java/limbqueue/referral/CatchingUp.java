package limbqueue.referral;

import limbqueue.practice.PolicyInForce;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.stereotype.Component;

/** At start, keeps a proposal of each referral that came before proposals were kept. */
@Component
class CatchingUp implements ApplicationRunner {

    private final LatestProposals latest;
    private final PolicyInForce policy;

    CatchingUp(LatestProposals latest, PolicyInForce policy) {
        this.latest = latest;
        this.policy = policy;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        var caughtUp = 0;
        do {
            caughtUp = latest.catchUp(policy.version().policy());
        } while (caughtUp > 0);
    }
}
