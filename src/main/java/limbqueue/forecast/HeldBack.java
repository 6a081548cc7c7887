package limbqueue.forecast;

import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * How much of a week's time to hold for urgent cases that have not come yet, and when to give away what is still held. Found
 * by living through many weeks for each choice: cases come as {@link Arrivals} expects them, each takes the first session
 * within its days of which enough is still held, and what is held of a session is given to others at the end of the day that
 * lies so many days before it.
 *
 * <p>A case is not parted among sessions, and nothing but held time counts as room: what ordinary patients leave free is not
 * known here.
 *
 * @param tiers for which time is held, each once, at least one
 * @param sessions of each week, at least one
 * @param filledADay the share of free time that finds an ordinary patient with each day of notice, 0 to 1; with n days' notice
 *     {@code 1 - (1 - filledADay)^n} of it is filled
 */
public record HeldBack(Arrivals arrivals, List<UrgentTier> tiers, List<WeeklySession> sessions, double filledADay) {

    /**
     * How long to live through it.
     *
     * @param runs lives that know nothing of each other, each with rates drawn anew; at least 2
     * @param weeks of each life that count, at least 1
     */
    public record Lives(int runs, int weeks, long seed) {

        /** @throws IllegalArgumentException if there are too few */
        public Lives {
            if (runs < 2 || weeks < 1) {
                throw new IllegalArgumentException("%s runs of %s weeks".formatted(runs, weeks));
            }
        }
    }

    /**
     * What comes of one choice.
     *
     * @param minutes held in a week
     * @param held the same, by the days of the week
     * @param releaseDays days before a session at the end of which what is still held of it is given to others; 0 holds it to
     *     the last
     * @param found share of urgent cases that find room within their days; empty if none came
     * @param foundOf the same by tier; a tier of which none came is not in it
     * @param wasted minutes of a week that were held and found nobody
     */
    public record Point(
            int minutes,
            Map<DayOfWeek, Integer> held,
            int releaseDays,
            Optional<Estimate> found,
            Map<Tier, Estimate> foundOf,
            Estimate wasted) {}

    /** @throws IllegalArgumentException if there is no tier, no session, a tier twice, or a share out of range */
    public HeldBack {
        if (tiers.isEmpty() || sessions.isEmpty()) {
            throw new IllegalArgumentException("time is held of a session, and for a tier");
        }
        if (tiers.stream().map(UrgentTier::tier).distinct().count() < tiers.size()) {
            throw new IllegalArgumentException("a tier is there twice");
        }
        if (!(filledADay >= 0 && filledADay <= 1)) {
            throw new IllegalArgumentException("a share is 0 to 1, not " + filledADay);
        }
        tiers = List.copyOf(tiers);
        sessions = List.copyOf(sessions);
    }

    /**
     * What comes of holding each of {@code minutes}, given away after each of {@code releaseDays}. All choices live through the
     * same weeks, so that the difference between two of them is theirs and not that of chance.
     *
     * @param minutes to hold in a week, 0 or more; more than a session has is not held of it
     * @param releaseDays 0 or more
     */
    public List<Point> curve(List<Integer> minutes, List<Integer> releaseDays, Lives lives) {
        var choices = new ArrayList<Holding>();
        for (var held : minutes) {
            for (var days : releaseDays) {
                choices.add(new Holding(this, allotted(held), days, lives));
            }
        }
        var sources = Randomness.forRuns(lives.runs(), lives.seed());
        for (var run = 0; run < lives.runs(); run++) {
            var cases = UrgentCases.drawn(this, lives.weeks(), sources[run]);
            for (var choice : choices) {
                choice.live(run, cases);
            }
        }
        return choices.stream().map(Holding::point).toList();
    }

    /**
     * The points between which there is something to weigh: those that no other one outdoes, by finding room for at least as
     * many and wasting no more, one of the two being better. In the order given.
     */
    public static List<Point> worthwhile(List<Point> points) {
        return points.stream()
                .filter(point -> points.stream().noneMatch(other -> outdoes(other, point)))
                .toList();
    }

    private static boolean outdoes(Point other, Point point) {
        var found = Double.compare(share(other), share(point));
        var wasted = Double.compare(point.wasted().value(), other.wasted().value());
        return found >= 0 && wasted >= 0 && found + wasted > 0;
    }

    private static double share(Point point) {
        return point.found().map(Estimate::value).orElse(0.0);
    }

    /**
     * By days of the week: as many sessions as can each hold what nine of ten urgent cases take, but at least one, spread over
     * the week, and the minutes in equal parts among them.
     *
     * @throws IllegalArgumentException if {@code minutes} is negative
     */
    Map<DayOfWeek, Integer> allotted(int minutes) {
        if (minutes < 0) {
            throw new IllegalArgumentException(minutes + " minutes cannot be held");
        }
        var longest = tiers.stream()
                .mapToDouble(tier -> tier.minutes().ninety())
                .max()
                .orElseThrow();
        var parts = Math.clamp((int) (minutes / longest), 1, sessions.size());
        var inOrder = sessions.stream()
                .sorted(Comparator.comparing(WeeklySession::day))
                .toList();
        var held = new EnumMap<DayOfWeek, Integer>(DayOfWeek.class);
        for (var part = 0; part < parts; part++) {
            var session = inOrder.get(part * inOrder.size() / parts);
            var share = minutes / parts + (part < minutes % parts ? 1 : 0);
            held.merge(session.day(), Math.min(share, session.minutes()), Integer::sum);
        }
        return Collections.unmodifiableMap(held);
    }
}
