package limbqueue.triage.finding;

import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
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
        return legs.getOrDefault(side, legs.values().iterator().next());
    }

    /** The legs of which {@code condition} holds, left first. */
    public Stream<LegPicture> legsWith(Predicate<LegPicture> condition) {
        return Stream.of(leg(Side.LEFT), leg(Side.RIGHT)).filter(condition);
    }

    public boolean anyLeg(Predicate<LegPicture> condition) {
        return condition.test(leg(Side.LEFT)) || condition.test(leg(Side.RIGHT));
    }

    /** Whether something recorded for {@code side} concerns this leg; an unknown side may concern either. */
    public static boolean concerns(Optional<Side> side, Side leg) {
        return side.map(leg::equals).orElse(true);
    }
}
