package limbqueue.forecast;

import java.util.Arrays;
import java.util.stream.IntStream;

/** What the runs of a forecast came to, by tier, week and run. */
final class Tally {

    private static final int WEEK = 7;

    private final int weeks;
    private final double[][][] treated;
    private final double[][][] daysWaited;
    private final double[][][] due;
    private final double[][][] breached;
    private final double[][][] waiting;

    Tally(int tiers, int weeks, int runs) {
        this.weeks = weeks;
        this.treated = new double[tiers][weeks][runs];
        this.daysWaited = new double[tiers][weeks][runs];
        this.due = new double[tiers][weeks][runs];
        this.breached = new double[tiers][weeks][runs];
        this.waiting = new double[tiers][weeks][runs];
    }

    /** @param days on which each case is treated */
    void add(int run, DrawnCases cases, int[] days) {
        for (var at = 0; at < days.length; at++) {
            var tier = cases.tier(at);
            var target = cases.target(at);
            var endsIn = weeks;
            if (days[at] != Rounds.NEVER) {
                endsIn = days[at] / WEEK;
                treated[tier][endsIn][run]++;
                daysWaited[tier][endsIn][run] += days[at] - cases.received(at);
            }
            if (target >= 0 && target < weeks * WEEK) {
                due[tier][target / WEEK][run]++;
                breached[tier][target / WEEK][run] += days[at] > target ? 1 : 0;
            }
            for (var week = Math.max(0, cases.received(at)) / WEEK; week < endsIn; week++) {
                waiting[tier][week][run]++;
            }
        }
    }

    /** Days that those waited on average who were treated in the week, for each run in which somebody was. */
    double[] meanWaits(int tier, int week) {
        return IntStream.range(0, treated[tier][week].length)
                .filter(run -> treated[tier][week][run] > 0)
                .mapToDouble(run -> daysWaited[tier][week][run] / treated[tier][week][run])
                .toArray();
    }

    /** How many were treated in the week. */
    double[] treated(int tier, int week) {
        return treated[tier][week];
    }

    /** Days that those waited together who were treated in the week. */
    double[] daysWaited(int tier, int week) {
        return daysWaited[tier][week];
    }

    /** How many target dates lie in the week. */
    double[] due(int tier, int week) {
        return due[tier][week];
    }

    /** How many of these had passed before the case was treated. */
    double[] breached(int tier, int week) {
        return breached[tier][week];
    }

    /** How many had been received and not treated at the end of the week. */
    double[] waiting(int tier, int week) {
        return waiting[tier][week];
    }

    /** Breaches of all weeks together. */
    double[] breached(int tier) {
        var sums = new double[breached[tier][0].length];
        for (var week : breached[tier]) {
            Arrays.setAll(sums, run -> sums[run] + week[run]);
        }
        return sums;
    }
}
