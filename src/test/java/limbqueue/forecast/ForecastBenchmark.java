package limbqueue.forecast;

import java.lang.management.ManagementFactory;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import org.junit.jupiter.api.Test;

/**
 * How long a forecast takes of a practice in which many wait, and a curve of held minutes. The name keeps it out of the ordinary
 * run; see the commands in the contributors' guide.
 */
class ForecastBenchmark {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);
    private static final int WAITING = 300;
    private static final int RUNS = 2_000;
    private static final int ROUNDS = 5;

    @Test
    void aForecastAndACurve() {
        var minutes = new CaseMinutes.Minutes(70, 120);
        var counts = new EnumMap<Tier, Map<DayOfWeek, Integer>>(Tier.class);
        var coming = new EnumMap<Tier, Situation.Coming>(Tier.class);
        for (var tier : List.of(Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_6_WEEKS, Tier.WITHIN_18_WEEKS)) {
            var days = new EnumMap<DayOfWeek, Integer>(DayOfWeek.class);
            for (var day : DayOfWeek.values()) {
                days.put(day, day.compareTo(DayOfWeek.SATURDAY) < 0 ? 26 : 1);
            }
            counts.put(tier, days);
            coming.put(tier, new Situation.Coming(minutes, 3));
        }
        var queue = new ArrayList<QueuedCase>();
        for (var one = 0; one < WAITING; one++) {
            queue.add(new QueuedCase(
                    one % 2 == 0 ? Tier.WITHIN_6_WEEKS : Tier.WITHIN_18_WEEKS,
                    MONDAY.minusDays(one % 60),
                    MONDAY,
                    MONDAY.plusDays(42 - one % 60),
                    minutes));
        }
        var weekly = List.of(
                new WeeklySession(DayOfWeek.MONDAY, 420),
                new WeeklySession(DayOfWeek.TUESDAY, 420),
                new WeeklySession(DayOfWeek.WEDNESDAY, 420),
                new WeeklySession(DayOfWeek.THURSDAY, 420),
                new WeeklySession(DayOfWeek.FRIDAY, 420));
        var arrivals = Arrivals.counted(counts, 26);
        var situation = new Situation(
                MONDAY,
                12,
                queue,
                RoomSession.of(weekly, MONDAY, 12),
                Policy.standard(),
                arrivals,
                coming,
                new Attendance(40, 800));
        var heldBack = new HeldBack(
                arrivals,
                List.of(
                        new UrgentTier(Tier.WITHIN_5_DAYS, minutes, 1, 5),
                        new UrgentTier(Tier.WITHIN_14_DAYS, minutes, 3, 14)),
                weekly,
                0.3);
        for (var round = 0; round < ROUNDS; round++) {
            var forecast = taken(() -> Forecast.of(situation, RUNS, 1).lines());
            var curve = taken(() -> heldBack.curve(
                    List.of(0, 120, 240, 360, 480, 600, 720, 840),
                    List.of(0, 1, 2, 3),
                    new HeldBack.Lives(400, 26, 1)));
            System.out.printf(
                    "%d runs of 12 weeks with %d waiting: %.2f s; a curve of 32 points, each 400 lives of 26 weeks: %.2f s%n",
                    RUNS, WAITING, forecast / 1e9, curve / 1e9);
        }
    }

    /** Processor time of this thread in nanoseconds. */
    private static long taken(Runnable work) {
        var clock = ManagementFactory.getThreadMXBean();
        var before = clock.getCurrentThreadCpuTime();
        work.run();
        return clock.getCurrentThreadCpuTime() - before;
    }
}
