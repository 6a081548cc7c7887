package limbqueue.triage.grade;

import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Leg;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.Side;
import limbqueue.triage.perfusion.Perfusion;

/**
 * One leg as it is acted on: every unknown answered by the rules for acting.
 *
 * @param infection WIfI foot infection grade, 0 to 3
 */
public record LegPicture(
        LegFacts facts,
        boolean acute,
        Ulcer ulcer,
        Gangrene gangrene,
        boolean restPain,
        boolean claudication,
        int infection,
        Perfusion perfusion) {

    public static LegPicture of(LegFacts facts) {
        return new LegPicture(
                facts,
                facts.acting(LegTopics.ACUTE),
                facts.acting(LegTopics.ULCER),
                facts.acting(LegTopics.GANGRENE),
                facts.acting(LegTopics.REST_PAIN),
                facts.acting(LegTopics.CLAUDICATION),
                facts.acting(LegTopics.INFECTION).grade(),
                facts.supply());
    }

    public Side side() {
        return facts.side();
    }

    public Leg leg() {
        return facts.leg();
    }

    public boolean tissueLoss() {
        return ulcer != Ulcer.NONE || gangrene != Gangrene.NONE;
    }

    /** Rest pain, ulcer or gangrene. */
    public boolean threatening() {
        return tissueLoss() || restPain;
    }

    public boolean symptoms() {
        return threatening() || claudication || acute || infection > 0;
    }
}
