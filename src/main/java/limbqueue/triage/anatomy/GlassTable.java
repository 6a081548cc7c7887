package limbqueue.triage.anatomy;

/**
 * The stage of the Global Limb Anatomic Staging System by femoro-popliteal (rows) and infra-popliteal grade (columns),
 * each 0 to 4.
 *
 * <p>Source: gvg-2019, seen in secondary copies that agree; the printed table not seen. Where nothing is narrowed there
 * is no stage.
 */
public final class GlassTable {

    /** What stands in for a stage where there is none. */
    public static final int NO_STAGE = 0;

    private static final int[][] STAGE = {
        {NO_STAGE, 1, 1, 2, 3},
        {1, 1, 2, 2, 3},
        {1, 2, 2, 2, 3},
        {2, 2, 2, 3, 3},
        {3, 3, 3, 3, 3},
    };

    private GlassTable() {}

    /** Stage 1 to 3, or {@link #NO_STAGE}. */
    public static int stage(int femoropopliteal, int infrapopliteal) {
        return STAGE[femoropopliteal][infrapopliteal];
    }
}
