package limbqueue.prospect;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import limbqueue.forecast.Forecast;
import limbqueue.forecast.ForecastTable;
import limbqueue.forecast.HeldBack;
import limbqueue.forecast.WeeklySession;

/**
 * What comes of a {@link Basis.Given}, lived through many times. The same basis gives the same figures.
 *
 * @param lines as things are
 * @param table the same in words and figures
 * @param more the session that was tried in addition, in every week
 * @param gains what it brings each tier
 * @param curve what comes of each choice of minutes to hold and of days before a session at which they are released; empty
 *     where there is no usual week
 */
public record Simulation(
        List<Forecast.Line> lines,
        ForecastTable table,
        WeeklySession more,
        List<Forecast.Gain> gains,
        List<HeldBack.Point> curve) {

    /** A probability is known to within about 0.03 by them. */
    private static final int RUNS = 1_000;

    private static final HeldBack.Lives LIVES = new HeldBack.Lives(200, 26, 1);
    private static final long SEED = 1;
    private static final List<Integer> RELEASE_DAYS = List.of(0, 1, 2, 3);
    private static final int CHOICES = 8;
    private static final int QUARTER_OF_AN_HOUR = 15;
    private static final int LEAST_STEP = 30;

    /** @param more tried in addition, in every week */
    static Simulation of(Basis.Given basis, WeeklySession more) {
        var forecast = Forecast.of(basis.situation(), RUNS, SEED);
        return new Simulation(
                forecast.lines(),
                ForecastTable.of(forecast),
                more,
                forecast.gainOf(forecast.withOneMoreSession(more)),
                basis.held()
                        .map(held -> distinct(held.curve(choices(held), RELEASE_DAYS, LIVES)))
                        .orElse(List.of()));
    }

    /** More than the sessions have cannot be held, so several choices may come to the same. */
    private static List<HeldBack.Point> distinct(List<HeldBack.Point> points) {
        var seen = new HashSet<List<Integer>>();
        return points.stream()
                .filter(point -> seen.add(List.of(point.minutes(), point.releaseDays())))
                .toList();
    }

    /** From nothing to three times of what the urgent cases of a week are expected to take, in equal steps. */
    static List<Integer> choices(HeldBack held) {
        var expected = held.tiers().stream()
                .mapToDouble(tier ->
                        held.arrivals().inAWeek(tier.tier()) * tier.minutes().ninety())
                .sum();
        var step =
                Math.max(LEAST_STEP, (int) Math.ceil(3 * expected / CHOICES / QUARTER_OF_AN_HOUR) * QUARTER_OF_AN_HOUR);
        var most = held.sessions().stream().mapToInt(WeeklySession::minutes).sum();
        var choices = new ArrayList<Integer>();
        for (var choice = 0; choice <= CHOICES && choice * step <= most; choice++) {
            choices.add(choice * step);
        }
        return choices;
    }
}
