package limbqueue.forecast;

import java.time.DayOfWeek;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import limbqueue.triage.Tier;

/** One choice of what to hold and when to give it away, and what became of it in each life. */
final class Holding {

    private static final int WEEK = 7;

    private final HeldBack question;
    private final Map<DayOfWeek, Integer> held;
    private final int releaseDays;
    private final int weeks;
    private final double[][] came;
    private final double[][] found;
    private final double[] wasted;

    Holding(HeldBack question, Map<DayOfWeek, Integer> held, int releaseDays, HeldBack.Lives lives) {
        if (releaseDays < 0) {
            throw new IllegalArgumentException("given away %s days before a session".formatted(releaseDays));
        }
        this.question = question;
        this.held = held;
        this.releaseDays = releaseDays;
        this.weeks = lives.weeks();
        this.came = new double[question.tiers().size()][lives.runs()];
        this.found = new double[question.tiers().size()][lives.runs()];
        this.wasted = new double[lives.runs()];
    }

    void live(int run, UrgentCases cases) {
        var left = new double[cases.days()];
        for (var day = 0; day < left.length; day++) {
            left[day] = held.getOrDefault(DayOfWeek.of(day % WEEK + 1), 0);
        }
        for (var at = 0; at < cases.size(); at++) {
            var tier = cases.tier(at);
            var finds = takes(cases.received(at), question.tiers().get(tier), cases.minutes(at), left);
            if (cases.received(at) >= cases.first() && cases.received(at) < cases.end()) {
                came[tier][run]++;
                found[tier][run] += finds ? 1 : 0;
            }
        }
        var notFilled = 1 - HeldFor.filled(question.filledADay(), releaseDays);
        for (var day = cases.first(); day < cases.end(); day++) {
            wasted[run] += left[day] * notFilled / weeks;
        }
    }

    /** Whether the case finds room; if so, it is taken of {@code left}. */
    private boolean takes(int received, UrgentTier tier, double minutes, double[] left) {
        var last = Math.min(received + tier.days(), left.length - 1);
        for (var day = received + Math.max(tier.lead(), releaseDays); day <= last; day++) {
            if (left[day] >= minutes) {
                left[day] -= minutes;
                return true;
            }
        }
        return false;
    }

    HeldBack.Point point() {
        var ofTier = new EnumMap<Tier, Estimate>(Tier.class);
        for (var at = 0; at < came.length; at++) {
            var tier = question.tiers().get(at).tier();
            Estimate.ratio(found[at], came[at]).ifPresent(share -> ofTier.put(tier, share));
        }
        return new HeldBack.Point(
                held.values().stream().mapToInt(minutes -> minutes).sum(),
                held,
                releaseDays,
                Estimate.ratio(sum(found), sum(came)),
                Collections.unmodifiableMap(ofTier),
                Estimate.mean(wasted));
    }

    private static double[] sum(double[][] byTier) {
        var sums = new double[byTier[0].length];
        for (var ofTier : byTier) {
            for (var run = 0; run < sums.length; run++) {
                sums[run] += ofTier[run];
            }
        }
        return sums;
    }
}
