package limbqueue.prospect;

import java.util.List;
import java.util.Optional;
import limbqueue.forecast.Band;
import limbqueue.forecast.Forecast;
import limbqueue.triage.Tier;

/**
 * A tier over all weeks of a forecast.
 *
 * @param waiting how many wait now
 * @param aWeek referrals to be expected in a week
 * @param due target dates in these weeks, on average
 * @param missed how many of them, on average
 * @param waitingAtTheEnd how many will wait after the last week
 */
public record TierOutlook(Tier tier, long waiting, double aWeek, double due, double missed, Band waitingAtTheEnd) {

    /** The probability that a case whose date lies in these weeks is not treated by then; empty where there is none. */
    public Optional<Double> breach() {
        return due > 0 ? Optional.of(missed / due) : Optional.empty();
    }

    /** Most urgent first. */
    public static List<TierOutlook> of(Basis.Given basis, Simulation simulation) {
        var situation = basis.situation();
        return situation.coming().keySet().stream()
                .map(tier -> {
                    var lines = simulation.lines().stream()
                            .filter(line -> line.tier() == tier)
                            .toList();
                    return new TierOutlook(
                            tier,
                            situation.queue().stream()
                                    .filter(one -> one.tier() == tier)
                                    .count(),
                            situation.arrivals().inAWeek(tier),
                            lines.stream().mapToDouble(Forecast.Line::due).sum(),
                            lines.stream()
                                    .mapToDouble(line -> line.breaches().expected())
                                    .sum(),
                            lines.getLast().waiting());
                })
                .toList();
    }
}
