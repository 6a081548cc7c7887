package limbqueue.forecast;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import limbqueue.triage.Tier;

/**
 * How long patients will wait and which target dates will be missed, by tier and week, if sessions and arrivals go on as the
 * {@link Situation} has them. Found by Monte Carlo: each run draws how many referrals really come in a week, of what tier and
 * on which days, who stays away and how long each case takes, and fills one session after the other. Since the rates
 * themselves are drawn, the bands are as wide as what is not known of them makes them.
 *
 * <p>The same situation, number of runs and seed give the same forecast.
 */
public final class Forecast {

    /**
     * A tier in a week.
     *
     * @param week the first is 1
     * @param begins its first day
     * @param waited by who is treated in the week; empty where in no run anybody was
     * @param due cases whose target date lies in the week, on average
     * @param breach the probability that such a case is not treated by its target date; empty where there was none in any run.
     *     A date that had passed before the forecast began is in no week of it
     * @param breaches how many of them
     * @param waiting how many have been received and not been treated at the end of the week
     */
    public record Line(
            Tier tier,
            int week,
            LocalDate begins,
            Optional<Wait> waited,
            double due,
            Optional<Estimate> breach,
            Band breaches,
            Band waiting) {}

    /**
     * Days from being received until being treated.
     *
     * @param days expected is the mean over patients, the band is that of the mean of a week
     * @param runs in which anybody was treated, on which this rests
     */
    public record Wait(Band days, int runs) {}

    /**
     * What a change brings a tier, each run compared with itself.
     *
     * @param breaches how many dates fewer are missed in all weeks together; negative where there are more
     * @param meanBreaches their mean
     * @param waiting how many fewer wait at the end of the last week
     */
    public record Gain(Tier tier, Band breaches, Estimate meanBreaches, Band waiting) {}

    private final Situation situation;
    private final int runs;
    private final long seed;
    private final Tally tally;

    private Forecast(Situation situation, int runs, long seed, Tally tally) {
        this.situation = situation;
        this.runs = runs;
        this.seed = seed;
        this.tally = tally;
    }

    /**
     * @param runs at least 2; with 2,000 a probability is known to within about 0.02
     * @throws IllegalArgumentException if there are fewer
     */
    public static Forecast of(Situation situation, int runs, long seed) {
        if (runs < 2) {
            throw new IllegalArgumentException("a forecast needs at least 2 runs, not " + runs);
        }
        var outset = new Outset(situation);
        var tally = new Tally(outset.kinds().size(), outset.weeks(), runs);
        var sources = Randomness.forRuns(runs, seed);
        for (var run = 0; run < runs; run++) {
            var cases = DrawnCases.drawn(outset, sources[run]);
            tally.add(run, cases, Rounds.days(cases, outset));
        }
        return new Forecast(situation, runs, seed, tally);
    }

    /**
     * What would be with one more session in every week. The same people come, take as long and stay away as often, so that what
     * differs is what the session does.
     */
    public Forecast withOneMoreSession(WeeklySession session) {
        return of(situation.withOneMoreSession(session), runs, seed);
    }

    /** Tier by tier, most urgent first, and week by week. */
    public List<Line> lines() {
        var lines = new ArrayList<Line>();
        for (var at = 0; at < tiers().size(); at++) {
            for (var week = 0; week < situation.weeks(); week++) {
                lines.add(line(at, week));
            }
        }
        return List.copyOf(lines);
    }

    private Line line(int at, int week) {
        return new Line(
                tiers().get(at),
                week + 1,
                situation.from().plusWeeks(week),
                wait(at, week),
                Estimate.mean(tally.due(at, week)).value(),
                Estimate.ratio(tally.breached(at, week), tally.due(at, week)),
                Band.of(tally.breached(at, week)),
                Band.of(tally.waiting(at, week)));
    }

    private Optional<Wait> wait(int at, int week) {
        var waits = tally.meanWaits(at, week);
        return Estimate.ratio(tally.daysWaited(at, week), tally.treated(at, week))
                .map(mean -> new Wait(Band.of(waits, mean.value()), waits.length));
    }

    /**
     * What {@code changed} brings against this, most urgent tier first.
     *
     * @param changed of the same weeks and tiers, with the same seed and number of runs
     * @throws IllegalArgumentException if it is not
     */
    public List<Gain> gainOf(Forecast changed) {
        if (runs != changed.runs
                || seed != changed.seed
                || situation.weeks() != changed.situation.weeks()
                || !tiers().equals(changed.tiers())) {
            throw new IllegalArgumentException("only forecasts of the same runs, weeks and tiers can be compared");
        }
        var last = situation.weeks() - 1;
        return IntStream.range(0, tiers().size())
                .mapToObj(at -> {
                    var breaches = fewer(changed, forecast -> forecast.tally.breached(at));
                    return new Gain(
                            tiers().get(at),
                            Band.of(breaches),
                            Estimate.mean(breaches),
                            Band.of(fewer(changed, forecast -> forecast.tally.waiting(at, last))));
                })
                .toList();
    }

    private double[] fewer(Forecast changed, Function<Forecast, double[]> figure) {
        var before = figure.apply(this);
        var after = figure.apply(changed);
        return IntStream.range(0, runs)
                .mapToDouble(run -> before[run] - after[run])
                .toArray();
    }

    private List<Tier> tiers() {
        return situation.tiers();
    }

    /** Every run by itself. */
    Tally tally() {
        return tally;
    }
}
