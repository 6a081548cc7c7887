package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * Whether the bands are honest: many invented practices live for a while, are forecast by what they then know, and live on. Of
 * their true weeks 80 of 100 must lie in the bands that say so.
 *
 * <p>A number of patients is whole, so a band that ends at whole numbers holds more than it says. Whether the distribution
 * behind it is right shows in the rank of the truth among the runs, with equal ones put in random order (C. Czado, T. Gneiting,
 * L. Held. Predictive model assessment for count data. Biometrics 2009;65:1254-1261): it lies in the middle eight tenths 80 times of 100.
 */
class BacktestTest {

    private static final LocalDate OPENING = LocalDate.of(2024, 1, 1);
    private static final int PRACTICES = 150;
    private static final int RUNS = 300;
    private static final int BEFORE = 26;
    private static final int HISTORY = 12;
    private static final int WEEKS = 12;

    /** How often the truth lay where it should. */
    private static final class Held {
        private int all;
        private int inTheMiddle;
        private int inTheBand;

        double inTheMiddle() {
            return (double) inTheMiddle / all;
        }

        double inTheBand() {
            return (double) inTheBand / all;
        }

        void add(double truth, double[] runs, Random order) {
            var below = Arrays.stream(runs).filter(run -> run < truth).count();
            var equal = Arrays.stream(runs).filter(run -> run == truth).count();
            var rank = (below + order.nextDouble() * (equal + 1)) / (runs.length + 1);
            var band = Band.of(runs);
            all++;
            inTheMiddle += rank >= 0.1 && rank <= 0.9 ? 1 : 0;
            inTheBand += truth >= band.low() && truth <= band.high() ? 1 : 0;
        }
    }

    private static final class Result {
        private final Held waits = new Held();
        private final Held waitsOfAllWeeks = new Held();
        private final Held breaches = new Held();
        private final Held waiting = new Held();
        private final Held waitingAtTheEnd = new Held();
    }

    private static Result backtest() {
        var result = new Result();
        var order = new Random(1);
        var today = OPENING.plusWeeks(BEFORE);
        for (var seed = 0; seed < PRACTICES; seed++) {
            var practice = new PlainPractice(seed);
            practice.live(OPENING, BEFORE * 7);
            var situation = practice.known(today, HISTORY, WEEKS);
            var forecast = Forecast.of(situation, RUNS, seed);
            practice.live(today, WEEKS * 7);
            for (var tier = 0; tier < practice.kinds.size(); tier++) {
                compareAllWeeks(practice, forecast.tally(), tier, result, order);
                for (var week = 0; week < WEEKS; week++) {
                    compare(practice, forecast.tally(), tier, week, result, order);
                }
            }
        }
        return result;
    }

    private static void compare(PlainPractice practice, Tally tally, int tier, int week, Result result, Random order) {
        var first = OPENING.plusWeeks(BEFORE).plusWeeks(week);
        var last = first.plusDays(6);
        var ofTier = practice.patients.stream()
                .filter(patient ->
                        patient.kind.tier() == practice.kinds.get(tier).tier())
                .toList();
        var waiting =
                ofTier.stream().filter(patient -> patient.waitsAfter(last)).count();
        result.waiting.add((double) waiting, tally.waiting(tier, week), order);
        if (week == WEEKS - 1) {
            result.waitingAtTheEnd.add((double) waiting, tally.waiting(tier, week), order);
        }
        var breaches = ofTier.stream()
                .filter(patient ->
                        !patient.target().isBefore(first) && !patient.target().isAfter(last))
                .filter(patient -> patient.waitsAfter(patient.target()))
                .count();
        result.breaches.add((double) breaches, tally.breached(tier, week), order);
        var runs = tally.meanWaits(tier, week);
        var waits = meanWait(practice, tier, first, last);
        if (waits.isPresent() && runs.length >= RUNS / 2) {
            result.waits.add(waits.getAsDouble(), runs, order);
        }
    }

    /** The mean wait of all who are treated, which is hardly ever equal in two runs. */
    private static void compareAllWeeks(PlainPractice practice, Tally tally, int tier, Result result, Random order) {
        var days = new double[RUNS];
        var treated = new double[RUNS];
        for (var week = 0; week < WEEKS; week++) {
            var daysOfWeek = tally.daysWaited(tier, week);
            var treatedInWeek = tally.treated(tier, week);
            Arrays.setAll(days, run -> days[run] + daysOfWeek[run]);
            Arrays.setAll(treated, run -> treated[run] + treatedInWeek[run]);
        }
        var runs = IntStream.range(0, RUNS)
                .filter(run -> treated[run] > 0)
                .mapToDouble(run -> days[run] / treated[run])
                .toArray();
        var first = OPENING.plusWeeks(BEFORE);
        var wait = meanWait(practice, tier, first, first.plusWeeks(WEEKS).minusDays(1));
        if (wait.isPresent() && runs.length >= RUNS / 2) {
            result.waitsOfAllWeeks.add(wait.getAsDouble(), runs, order);
        }
    }

    private static OptionalDouble meanWait(PlainPractice practice, int tier, LocalDate first, LocalDate last) {
        return practice.patients.stream()
                .filter(patient ->
                        patient.kind.tier() == practice.kinds.get(tier).tier())
                .filter(patient -> patient.treated
                        .filter(day -> !day.isBefore(first) && !day.isAfter(last))
                        .isPresent())
                .mapToLong(patient -> patient.treated.orElseThrow().toEpochDay() - patient.received.toEpochDay())
                .average();
    }

    @Test
    void ofEightyInAHundredTheTruthLiesInTheBand() {
        var result = backtest();
        for (var held : List.of(
                result.waits, result.waitsOfAllWeeks, result.breaches, result.waiting, result.waitingAtTheEnd)) {
            assertThat(held.inTheMiddle()).isBetween(0.75, 0.85);
            assertThat(held.inTheBand()).isGreaterThanOrEqualTo(0.75);
        }
        assertThat(result.waitsOfAllWeeks.inTheBand()).isBetween(0.75, 0.85);
        assertThat(result.waiting.all).isEqualTo(PRACTICES * 4 * WEEKS);
    }
}
