package limbqueue.triage.finding;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limits;

/**
 * One referral as it is acted on: what red flags and work-up look at.
 *
 * @param tier the tier acted on
 * @param targetDate empty for advice only
 * @param legTiers the tier that each leg calls for
 */
public record Case(
        ReferralDocument document,
        LocalDate asOf,
        Limits limits,
        Map<Side, LegPicture> legs,
        Map<Side, Tier> legTiers,
        Tier tier,
        Optional<LocalDate> targetDate) {

    public LegPicture leg(Side side) {
        var leg = legs.get(side);
        return leg == null ? legs.values().iterator().next() : leg;
    }

    /** The legs of which {@code condition} holds, left first. */
    public List<LegPicture> legsWith(Predicate<LegPicture> condition) {
        var found = new ArrayList<LegPicture>(2);
        for (var leg : List.of(leg(Side.LEFT), leg(Side.RIGHT))) {
            if (condition.test(leg)) {
                found.add(leg);
            }
        }
        return found;
    }

    public boolean anyLeg(Predicate<LegPicture> condition) {
        return condition.test(leg(Side.LEFT)) || condition.test(leg(Side.RIGHT));
    }

    /** Whether something recorded for {@code side} concerns this leg; an unknown side may concern either. */
    public static boolean concerns(Optional<Side> side, Side leg) {
        return side.map(leg::equals).orElse(true);
    }
}
