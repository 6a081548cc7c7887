package limbqueue.referral;

import org.springframework.context.ApplicationContext;

/** Lets a test of another module wait until the referrals that wait are triaged anew. */
public final class AgeingNow {

    private final Ageing ageing;

    public AgeingNow(ApplicationContext application) {
        this.ageing = application.getBean(Ageing.class);
    }

    /** Returns when every referral is at today's proposal. */
    public void run() {
        ageing.run();
    }
}
