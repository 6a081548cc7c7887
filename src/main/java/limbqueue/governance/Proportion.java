package limbqueue.governance;

import java.util.OptionalDouble;

/**
 * So many of so many, with the 95 % confidence interval by the score method of Wilson without correction for continuity
 * (Wilson EB. J Am Stat Assoc 1927;22:209-212; method 3 of Newcombe RG. Stat Med 1998;17:857-872). It stays between 0 and 1
 * and holds for few cases too.
 *
 * @param of 0 to {@code all}
 */
public record Proportion(int of, int all) {

    /** The point of the normal distribution with 2.5 % beyond it. */
    private static final double Z = 1.959963984540054;

    /** @param low 0 to 1 */
    public record Interval(double low, double high) {}

    public Proportion {
        if (of < 0 || of > all) {
            throw new IllegalArgumentException(of + " of " + all);
        }
    }

    /** 0 to 1; empty for none of none. */
    public OptionalDouble share() {
        return all == 0 ? OptionalDouble.empty() : OptionalDouble.of((double) of / all);
    }

    /** Where the share may truly lie; everywhere, for none of none. */
    public Interval interval() {
        if (all == 0) {
            return new Interval(0, 1);
        }
        var share = (double) of / all;
        var middle = share + Z * Z / (2 * all);
        var reach = Z * Math.sqrt(share * (1 - share) / all + Z * Z / (4.0 * all * all));
        var scale = 1 + Z * Z / all;
        return new Interval(
                of == 0 ? 0 : Math.max(0, (middle - reach) / scale),
                of == all ? 1 : Math.min(1, (middle + reach) / scale));
    }
}
