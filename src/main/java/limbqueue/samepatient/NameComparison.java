package limbqueue.samepatient;

/** How far two written names are apart. Case and accents are the caller's to take away first. */
final class NameComparison {

    /** As Winkler weighs a common beginning: a tenth for each letter, four at most. */
    private static final double PREFIX_WEIGHT = 0.1;

    private static final int LONGEST_PREFIX = 4;

    private NameComparison() {}

    /**
     * The fewest single errors of typing that make one of the other: a letter too many, too few, another, or two neighbours
     * swapped; no letter is touched twice (Damerau 1964).
     *
     * @return 0 for equal words, at most the length of the longer
     */
    static int errors(String one, String other) {
        var before = new int[other.length() + 1];
        var last = new int[other.length() + 1];
        var row = new int[other.length() + 1];
        for (var j = 0; j <= other.length(); j++) {
            last[j] = j;
        }
        for (var i = 1; i <= one.length(); i++) {
            row[0] = i;
            for (var j = 1; j <= other.length(); j++) {
                var changed = last[j - 1] + (one.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1);
                row[j] = Math.min(changed, Math.min(last[j], row[j - 1]) + 1);
                if (i > 1
                        && j > 1
                        && one.charAt(i - 1) == other.charAt(j - 2)
                        && one.charAt(i - 2) == other.charAt(j - 1)) {
                    row[j] = Math.min(row[j], before[j - 2] + 1);
                }
            }
            var free = before;
            before = last;
            last = row;
            row = free;
        }
        return last[other.length()];
    }

    /** The similarity of Jaro: 0 for nothing in common, 1 for equal words. */
    static double jaro(String one, String other) {
        if (one.isEmpty() || other.isEmpty()) {
            return one.equals(other) ? 1 : 0;
        }
        var window = Math.max(0, Math.max(one.length(), other.length()) / 2 - 1);
        var taken = new boolean[other.length()];
        var common = new StringBuilder();
        for (var i = 0; i < one.length(); i++) {
            for (var j = Math.max(0, i - window); j <= Math.min(other.length() - 1, i + window); j++) {
                if (!taken[j] && one.charAt(i) == other.charAt(j)) {
                    taken[j] = true;
                    common.append(one.charAt(i));
                    break;
                }
            }
        }
        if (common.isEmpty()) {
            return 0;
        }
        var outOfPlace = 0;
        var at = 0;
        for (var j = 0; j < other.length(); j++) {
            if (taken[j] && common.charAt(at++) != other.charAt(j)) {
                outOfPlace++;
            }
        }
        double matches = common.length();
        return (matches / one.length() + matches / other.length() + (matches - outOfPlace / 2.0) / matches) / 3;
    }

    /** The same, with more weight on a common beginning, where people err least (Winkler 1990). */
    static double jaroWinkler(String one, String other) {
        var jaro = jaro(one, other);
        var prefix = 0;
        while (prefix < Math.min(LONGEST_PREFIX, Math.min(one.length(), other.length()))
                && one.charAt(prefix) == other.charAt(prefix)) {
            prefix++;
        }
        return jaro + prefix * PREFIX_WEIGHT * (1 - jaro);
    }
}
