package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.forecast.Situation.Coming;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ForecastTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);
    private static final int AGES = 1_000_000_000;
    private static final Attendance EVERYBODY_COMES = new Attendance(0, AGES);

    private static CaseMinutes.Minutes exactly(double minutes) {
        return new CaseMinutes.Minutes(minutes, minutes);
    }

    /** So many cases a day on all days, as well known as if they had been counted for millions of years. */
    private static Arrivals known(Map<Tier, Double> aDay) {
        var counts = new EnumMap<Tier, Map<DayOfWeek, Integer>>(Tier.class);
        aDay.forEach((tier, rate) ->
                counts.put(tier, Arrays.stream(DayOfWeek.values()).collect(Collectors.toMap(Function.identity(), _ ->
                        (int) Math.round(rate * AGES)))));
        return Arrivals.counted(counts, AGES);
    }

    private static List<WeeklySession> everyDay(int minutes) {
        return Arrays.stream(DayOfWeek.values())
                .map(day -> new WeeklySession(day, minutes))
                .toList();
    }

    private static QueuedCase waits(Tier tier, int received, int ready, int target, double minutes) {
        return new QueuedCase(
                tier, MONDAY.plusDays(received), MONDAY.plusDays(ready), MONDAY.plusDays(target), exactly(minutes));
    }

    /** Nobody comes who is not in the queue. */
    private static Situation queueAlone(List<QueuedCase> queue, List<RoomSession> sessions, Attendance attendance) {
        var coming = new Coming(exactly(60), 0);
        return new Situation(
                MONDAY,
                3,
                queue,
                sessions,
                Policy.standard(),
                known(Map.of()),
                Map.of(Tier.WITHIN_5_DAYS, coming, Tier.WITHIN_6_WEEKS, coming),
                attendance);
    }

    private static Forecast.Line line(Forecast forecast, Tier tier, int week) {
        return forecast.lines().stream()
                .filter(line -> line.tier() == tier && line.week() == week)
                .findAny()
                .orElseThrow();
    }

    private static Band sure(double figure) {
        return new Band(figure, figure, figure);
    }

    /**
     * Sessions of 100 minutes on Wednesday of the first and of the second week. Of the urgent two, received 3 and 1 days before,
     * the one with the earlier date is treated first. The next does not fit behind it, but the short one does.
     */
    @Test
    void aQueueIsTreatedByTierAndDateAsFarAsTheMinutesGo() {
        var forecast = Forecast.of(
                queueAlone(
                        List.of(
                                waits(Tier.WITHIN_6_WEEKS, -10, -10, 9, 40),
                                waits(Tier.WITHIN_5_DAYS, -1, 0, 4, 60),
                                waits(Tier.WITHIN_5_DAYS, -3, 0, 2, 60)),
                        List.of(new RoomSession(MONDAY.plusDays(9), 100), new RoomSession(MONDAY.plusDays(2), 100)),
                        EVERYBODY_COMES),
                2,
                1);
        var urgent = line(forecast, Tier.WITHIN_5_DAYS, 1);
        assertThat(urgent.begins()).isEqualTo(MONDAY);
        assertThat(urgent.waited()).hasValue(new Forecast.Wait(sure(5), 2));
        assertThat(urgent.due()).isEqualTo(2);
        assertThat(urgent.breach()).hasValue(new Estimate(0.5, 0));
        assertThat(urgent.breaches()).isEqualTo(sure(1));
        assertThat(urgent.waiting()).isEqualTo(sure(1));
        var next = line(forecast, Tier.WITHIN_5_DAYS, 2);
        assertThat(next.begins()).isEqualTo(MONDAY.plusDays(7));
        assertThat(next.waited()).hasValue(new Forecast.Wait(sure(10), 2));
        assertThat(next.due()).isZero();
        assertThat(next.breach()).isEmpty();
        assertThat(next.waiting()).isEqualTo(sure(0));
        var short6 = line(forecast, Tier.WITHIN_6_WEEKS, 1);
        assertThat(short6.waited()).hasValue(new Forecast.Wait(sure(12), 2));
        assertThat(short6.waiting()).isEqualTo(sure(0));
        assertThat(line(forecast, Tier.WITHIN_6_WEEKS, 2).breach()).hasValue(new Estimate(0, 0));
        assertThat(line(forecast, Tier.WITHIN_6_WEEKS, 2).waited()).isEmpty();
    }

    @Test
    void aCaseLongerThanAnySessionHasOneToItself() {
        var forecast = Forecast.of(
                queueAlone(
                        List.of(waits(Tier.WITHIN_5_DAYS, 0, 0, 5, 200), waits(Tier.WITHIN_6_WEEKS, 0, 0, 40, 20)),
                        List.of(new RoomSession(MONDAY, 100), new RoomSession(MONDAY.plusDays(7), 100)),
                        EVERYBODY_COMES),
                2,
                1);
        assertThat(line(forecast, Tier.WITHIN_5_DAYS, 1).waited()).hasValue(new Forecast.Wait(sure(0), 2));
        assertThat(line(forecast, Tier.WITHIN_6_WEEKS, 1).waited()).isEmpty();
        assertThat(line(forecast, Tier.WITHIN_6_WEEKS, 2).waited()).hasValue(new Forecast.Wait(sure(7), 2));
    }

    @Test
    void nobodyIsTreatedBeforeBeingReadyNorOutsideOfTheWeeks() {
        var forecast = Forecast.of(
                queueAlone(
                        List.of(waits(Tier.WITHIN_5_DAYS, -2, 8, 3, 60)),
                        List.of(
                                new RoomSession(MONDAY.minusDays(1), 100),
                                new RoomSession(MONDAY.plusDays(7), 100),
                                new RoomSession(MONDAY.plusDays(21), 100)),
                        EVERYBODY_COMES),
                2,
                1);
        assertThat(forecast.lines())
                .allSatisfy(line -> assertThat(line.waited()).isEmpty());
        assertThat(line(forecast, Tier.WITHIN_5_DAYS, 1).breaches()).isEqualTo(sure(1));
        assertThat(line(forecast, Tier.WITHIN_5_DAYS, 3).waiting()).isEqualTo(sure(1));
    }

    /** A date that had passed before is no news of any week. */
    @Test
    void aDateThatHasPassedIsInNoWeek() {
        var forecast = Forecast.of(
                queueAlone(List.of(waits(Tier.WITHIN_5_DAYS, -9, -9, -4, 60)), List.of(), EVERYBODY_COMES), 2, 1);
        assertThat(forecast.lines()).allSatisfy(line -> assertThat(line.due()).isZero());
        assertThat(line(forecast, Tier.WITHIN_5_DAYS, 3).waiting()).isEqualTo(sure(1));
    }

    /** Appointments missed before one is kept are geometric: p / (1 - p) on average. A session a day, so each costs a day. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5})
    void whoStaysAwayWaitsForTheNextSession(double share) {
        var forecast = Forecast.of(
                queueAlone(
                        List.of(waits(Tier.WITHIN_5_DAYS, 0, 0, 5, 60)),
                        RoomSession.of(everyDay(100), MONDAY, 3),
                        new Attendance((int) (share * AGES), AGES)),
                4_000,
                11);
        var waits = new double[4_000];
        for (var week = 0; week < 3; week++) {
            var days = forecast.tally().daysWaited(0, week);
            Arrays.setAll(waits, run -> waits[run] + days[run]);
        }
        var mean = Estimate.mean(waits);
        assertThat(mean.value()).isEqualTo(share / (1 - share), within(4 * mean.error()));
        assertThat(mean.error()).isLessThan(0.04);
        // In the session of the first day nobody else is treated instead: the time is lost.
        assertThat(line(forecast, Tier.WITHIN_5_DAYS, 1).due()).isEqualTo(1);
    }

    /** 39 of 180 and the 1 of 20 of the prior are 40 of 200. */
    @Test
    void theShareThatStaysAwayIsLearned() {
        assertThat(new Attendance(0, 0).expected()).isEqualTo(0.05);
        assertThat(new Attendance(39, 180).expected()).isEqualTo(0.2);
        var draws = Arrays.stream(Randomness.forRuns(10_000, 6))
                .mapToDouble(new Attendance(39, 180)::drawn)
                .toArray();
        var mean = Estimate.mean(draws);
        assertThat(mean.value()).isEqualTo(0.2, within(4 * mean.error()));
        // The variance of a beta distribution of 40 and 160: 40 * 160 / (200^2 * 201).
        assertThat(mean.error() * mean.error() * 10_000).isEqualTo(6400.0 / (40_000 * 201), within(0.00006));
    }

    /**
     * A place a day, and cases that each take one: who waits at the end of a day are max(0, who waited before + who came - 1), as in
     * a queue of Poisson arrivals and fixed times. With r arrivals in the time of a case, its line is r^2 / (2 (1 - r)) long and a
     * wait in it r / (2 (1 - r)) times that time (the M/D/1 queue by the formula of Pollaczek and Khinchine, as in L. Kleinrock,
     * Queueing Systems I, 1975; read in a course on waiting lines). The time of a case is a day here.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.6, 0.8})
    void withOneCaseADayTheWaitIsThatOfPollaczekAndKhinchine(double aDay) {
        var weeks = 160;
        var before = 60;
        var forecast = Forecast.of(
                new Situation(
                        MONDAY,
                        weeks,
                        List.of(),
                        RoomSession.of(everyDay(60), MONDAY, weeks),
                        Policy.standard(),
                        known(Map.of(Tier.WITHIN_14_DAYS, aDay)),
                        Map.of(Tier.WITHIN_14_DAYS, new Coming(exactly(60), 0)),
                        EVERYBODY_COMES),
                300,
                2026);
        var wait = meanWait(forecast, 0, before, weeks);
        assertThat(wait.value()).isEqualTo(aDay / (2 * (1 - aDay)), within(4 * wait.error()));
        assertThat(wait.error()).isLessThan(0.03 * wait.value());
    }

    private static Estimate meanWait(Forecast forecast, int tier, int before, int weeks) {
        var days = new double[forecast.tally().treated(0, 0).length];
        var treated = new double[days.length];
        for (var week = before; week < weeks; week++) {
            var ofWeek = week;
            Arrays.setAll(days, run -> days[run] + forecast.tally().daysWaited(tier, ofWeek)[run]);
            Arrays.setAll(treated, run -> treated[run] + forecast.tally().treated(tier, ofWeek)[run]);
        }
        return Estimate.ratio(days, treated).orElseThrow();
    }

    /**
     * Who waits is, on average, who comes a day times the days of a wait, whatever the order and the times (J. D. C. Little. A
     * proof for the queuing formula L = lambda W. Oper Res 1961;9:383-387): here for three tiers, times that vary, and patients
     * who stay away. All days are alike, so the end of a week stands for any day.
     */
    @Test
    void littlesLawHoldsForEachTier() {
        var weeks = 200;
        var before = 80;
        var aDay = Map.of(Tier.WITHIN_5_DAYS, 0.4, Tier.WITHIN_14_DAYS, 0.9, Tier.WITHIN_6_WEEKS, 1.1);
        var coming = new EnumMap<Tier, Coming>(Tier.class);
        aDay.keySet().forEach(tier -> coming.put(tier, new Coming(new CaseMinutes.Minutes(60, 100), 2)));
        var forecast = Forecast.of(
                new Situation(
                        MONDAY,
                        weeks,
                        List.of(),
                        RoomSession.of(everyDay(240), MONDAY, weeks),
                        Policy.standard(),
                        known(aDay),
                        coming,
                        new Attendance(AGES / 20, AGES)),
                200,
                77);
        var tiers = new ArrayList<>(coming.keySet());
        for (var at = 0; at < tiers.size(); at++) {
            var wait = meanWait(forecast, at, before, weeks);
            var ends = new double[200];
            for (var week = before; week < weeks; week++) {
                var waiting = forecast.tally().waiting(at, week);
                Arrays.setAll(ends, run -> ends[run] + waiting[run] / (weeks - before));
            }
            var waiting = Estimate.mean(ends);
            var rate = aDay.getOrDefault(tiers.get(at), 0.0);
            assertThat(waiting.value())
                    .as(tiers.get(at).words())
                    .isEqualTo(rate * wait.value(), within(4 * (waiting.error() + rate * wait.error())));
            assertThat(waiting.error()).isLessThan(0.05 * waiting.value());
            assertThat(wait.value()).isGreaterThan(2);
        }
    }

    private static Situation busy(int capacity) {
        var coming = Map.of(
                Tier.WITHIN_5_DAYS, new Coming(exactly(60), 1),
                Tier.WITHIN_14_DAYS, new Coming(exactly(60), 3),
                Tier.WITHIN_6_WEEKS, new Coming(exactly(60), 7));
        var arrivals = Arrivals.counted(
                Map.of(
                        Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 10, DayOfWeek.THURSDAY, 9),
                        Tier.WITHIN_14_DAYS, Map.of(DayOfWeek.TUESDAY, 30),
                        Tier.WITHIN_6_WEEKS, Map.of(DayOfWeek.FRIDAY, 52)),
                13);
        var queue = new ArrayList<QueuedCase>();
        for (var one = 0; one < 20; one++) {
            queue.add(waits(Tier.WITHIN_6_WEEKS, one - 25, 0, one + 17, 60));
        }
        return new Situation(
                MONDAY,
                12,
                queue,
                RoomSession.of(
                        List.of(
                                new WeeklySession(DayOfWeek.TUESDAY, capacity),
                                new WeeklySession(DayOfWeek.THURSDAY, capacity)),
                        MONDAY,
                        12),
                Policy.standard(),
                arrivals,
                coming,
                EVERYBODY_COMES);
    }

    @Test
    void theSameSeedGivesTheSameForecast() {
        assertThat(Forecast.of(busy(240), 100, 5).lines())
                .isEqualTo(Forecast.of(busy(240), 100, 5).lines())
                .isNotEqualTo(Forecast.of(busy(240), 100, 6).lines());
    }

    @Test
    void thereIsALineForEachTierAndWeekMostUrgentFirst() {
        var lines = Forecast.of(busy(240), 10, 5).lines();
        assertThat(lines).hasSize(36);
        assertThat(lines.stream().map(Forecast.Line::tier).distinct())
                .containsExactly(Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_6_WEEKS);
        assertThat(lines.stream().map(Forecast.Line::week).limit(12))
                .containsExactly(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12);
        assertThat(lines).allSatisfy(line -> {
            assertThat(line.waiting().expected())
                    .isBetween(line.waiting().low() - 5, line.waiting().high() + 5);
            line.breach().ifPresent(breach -> assertThat(breach.value()).isBetween(0.0, 1.0));
        });
    }

    /** Cases that take equally long fill any session as well as any other, so more room leaves nobody waiting longer in any run. */
    @Test
    void oneMoreSessionMakesNobodyWaitLonger() {
        var today = Forecast.of(busy(180), 300, 5);
        var more = today.withOneMoreSession(new WeeklySession(DayOfWeek.FRIDAY, 180));
        var fewer = 0;
        for (var tier = 0; tier < 3; tier++) {
            for (var week = 0; week < 12; week++) {
                for (var run = 0; run < 300; run++) {
                    var gain = today.tally().waiting(tier, week)[run]
                            - more.tally().waiting(tier, week)[run];
                    assertThat(gain).isNotNegative();
                    fewer += gain > 0 ? 1 : 0;
                }
            }
        }
        assertThat(fewer).isGreaterThan(1_000);
        assertThat(today.gainOf(more)).allSatisfy(gain -> {
            assertThat(gain.breaches().low()).isNotNegative();
            assertThat(gain.waiting().low()).isNotNegative();
        });
    }

    /** The gain found by runs of the same people is found more exactly than that of two forecasts that have nothing in common. */
    @Test
    void aChangeIsTriedOnTheSamePeople() {
        var today = Forecast.of(busy(180), 300, 5);
        var more = today.withOneMoreSession(new WeeklySession(DayOfWeek.FRIDAY, 60));
        var gain = today.gainOf(more).getFirst().meanBreaches();
        var before = Estimate.mean(today.tally().breached(0));
        var after = Estimate.mean(more.tally().breached(0));
        assertThat(gain.value()).isEqualTo(before.value() - after.value(), within(1e-9));
        assertThat(gain.error()).isLessThan(0.8 * Math.hypot(before.error(), after.error()));
        assertThat(today.gainOf(today)).allSatisfy(nothing -> {
            assertThat(nothing.breaches()).isEqualTo(sure(0));
            assertThat(nothing.waiting()).isEqualTo(sure(0));
        });
    }

    @Test
    void whatCannotBeIsRefused() {
        var situation = busy(100);
        assertThatThrownBy(() -> Forecast.of(situation, 1, 0)).isInstanceOf(IllegalArgumentException.class);
        var forecast = Forecast.of(situation, 2, 0);
        assertThatThrownBy(() -> forecast.gainOf(Forecast.of(situation, 2, 1)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() ->
                        queueAlone(List.of(waits(Tier.WITHIN_18_WEEKS, 0, 0, 100, 60)), List.of(), EVERYBODY_COMES))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("Within 18 weeks");
        assertThatThrownBy(() -> new Situation(
                        MONDAY,
                        12,
                        List.of(),
                        List.of(),
                        Policy.standard(),
                        known(Map.of()),
                        Map.of(Tier.ADVICE_ONLY, new Coming(exactly(60), 0)),
                        EVERYBODY_COMES))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Situation(
                        MONDAY,
                        0,
                        List.of(),
                        List.of(),
                        Policy.standard(),
                        known(Map.of()),
                        Map.of(Tier.WITHIN_5_DAYS, new Coming(exactly(60), 0)),
                        EVERYBODY_COMES))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Coming(exactly(60), -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Attendance(2, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new RoomSession(MONDAY, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> waits(Tier.WITHIN_5_DAYS, 0, 0, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aBandLeavesOutATenthOnEitherSide() {
        var figures = new double[100];
        Arrays.setAll(figures, at -> (at * 37) % 100 + 1);
        assertThat(Band.of(figures)).isEqualTo(new Band(10, 50.5, 90));
        assertThat(Band.of(new double[] {4})).isEqualTo(sure(4));
    }
}
