package limbqueue.triage.grade;

import limbqueue.triage.TriageResult.Benefit;

/**
 * The two WIfI tables, row for row as printed: rows by wound 0 to 3, blocks by ischaemia 0 to 3, columns by foot
 * infection 0 to 3.
 *
 * <p>Source: wifi-2014. Amputation risk: identical in three independent public encodings, the printed page not seen.
 * Benefit: value from memory; it is shown and never drives urgency.
 */
public final class WifiTable {

    private static final int[][][] STAGE = {
        {{1, 1, 2, 3}, {1, 2, 3, 4}, {2, 2, 3, 4}, {2, 3, 3, 4}},
        {{1, 1, 2, 3}, {1, 2, 3, 4}, {2, 3, 4, 4}, {3, 3, 4, 4}},
        {{2, 2, 3, 4}, {3, 3, 4, 4}, {3, 4, 4, 4}, {4, 4, 4, 4}},
        {{3, 3, 4, 4}, {4, 4, 4, 4}, {4, 4, 4, 4}, {4, 4, 4, 4}},
    };

    private static final int[][][] BENEFIT = {
        {{1, 1, 1, 1}, {1, 2, 2, 3}, {2, 2, 3, 3}, {3, 4, 4, 4}},
        {{1, 1, 1, 1}, {2, 3, 3, 3}, {3, 4, 4, 4}, {4, 4, 4, 4}},
        {{1, 1, 1, 1}, {3, 3, 4, 4}, {4, 4, 4, 4}, {4, 4, 4, 4}},
        {{1, 1, 1, 1}, {3, 3, 3, 4}, {4, 4, 4, 4}, {4, 4, 4, 4}},
    };

    private WifiTable() {}

    /** Stage 1 to 4: the risk of amputation within a year. */
    public static int stage(int wound, int ischaemia, int infection) {
        return STAGE[wound][ischaemia][infection];
    }

    /** The likelihood that revascularisation is needed or helps. */
    public static Benefit benefit(int wound, int ischaemia, int infection) {
        return switch (BENEFIT[wound][ischaemia][infection]) {
            case 1 -> Benefit.VERY_LOW;
            case 2 -> Benefit.LOW;
            case 3 -> Benefit.MODERATE;
            default -> Benefit.HIGH;
        };
    }
}
