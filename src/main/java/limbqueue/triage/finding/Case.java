package limbqueue.triage.finding;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
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
        return Stream.of(Side.values()).map(this::leg).filter(condition);
    }

    /** Paths of the entries of a list of which {@code condition} holds, as {@code procedures[1]}. */
    public static <T> List<String> entries(String field, Optional<List<T>> list, Predicate<T> condition) {
        var entries = list.orElse(List.of());
        var paths = new ArrayList<String>();
        for (var i = 0; i < entries.size(); i++) {
            if (condition.test(entries.get(i))) {
                paths.add(field + "[" + i + "]");
            }
        }
        return paths;
    }

    /** Whether something recorded for {@code side} concerns this leg; an unknown side may concern either. */
    public static boolean concerns(Optional<Side> side, Side leg) {
        return side.map(leg::equals).orElse(true);
    }
}
