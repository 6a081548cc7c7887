package limbqueue.triage.perfusion;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import limbqueue.triage.Quantity.MmHg;
import limbqueue.triage.Quantity.Ratio;
import limbqueue.triage.ReferralDocument.ArmPressures;
import limbqueue.triage.ReferralDocument.Leg;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.TriageResult.IndexOrigin;
import limbqueue.triage.TriageResult.TbiBand;
import limbqueue.triage.TriageResult.ToeBrachialIndex;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * Ankle-brachial and toe-brachial index.
 *
 * <p>Source: aha-abi-2012 for the computation (the higher ankle pressure over the higher arm pressure), acc-aha-2024 for
 * the bands.
 */
public final class Indices {

    private Indices() {}

    /** The higher of the arm pressures known. */
    public static Optional<MmHg> arm(ArmPressures arms) {
        return higher(arms.left(), arms.right());
    }

    /** The higher of the two resting ankle pressures known. */
    public static Optional<MmHg> ankle(Leg leg) {
        return higher(leg.pressures().dorsalisPedis(), leg.pressures().posteriorTibial());
    }

    /** The index from pressures where they are given, else as reported. */
    public static Optional<AnkleBrachialIndex> abi(Leg leg, ArmPressures arms, Limits limits) {
        return measuredAbi(leg, arms)
                .map(value -> new AnkleBrachialIndex(value, abiBand(value, limits), IndexOrigin.PRESSURES))
                .or(() -> leg.abi()
                        .map(Ratio::value)
                        .map(Indices::twoDecimals)
                        .map(value -> new AnkleBrachialIndex(value, abiBand(value, limits), IndexOrigin.REPORTED)));
    }

    /** The ankle-brachial index from pressures, two decimals, whatever was reported. */
    public static Optional<Double> measuredAbi(Leg leg, ArmPressures arms) {
        return ratio(ankle(leg), arm(arms));
    }

    public static Optional<ToeBrachialIndex> tbi(Leg leg, ArmPressures arms, Limits limits) {
        return ratio(leg.pressures().toe(), arm(arms))
                .map(value -> new ToeBrachialIndex(value, tbiBand(value, limits), IndexOrigin.PRESSURES))
                .or(() -> leg.tbi()
                        .map(Ratio::value)
                        .map(Indices::twoDecimals)
                        .map(value -> new ToeBrachialIndex(value, tbiBand(value, limits), IndexOrigin.REPORTED)));
    }

    /** Whether the index, or the ankle pressure, falls by more after exercise than it does in a healthy leg. */
    public static boolean fallsWithExercise(Leg leg, ArmPressures arms, Limits limits) {
        var indexFalls = leg.abiAfterExercise()
                .flatMap(after -> abi(leg, arms, limits)
                        .map(resting -> BigDecimal.valueOf(resting.value())
                                        .subtract(BigDecimal.valueOf(after.value()))
                                        .multiply(BigDecimal.valueOf(100))
                                        .compareTo(BigDecimal.valueOf(resting.value())
                                                .multiply(BigDecimal.valueOf(
                                                        limits.of(Limit.EXERCISE_ABI_FALL_MORE_THAN))))
                                > 0))
                .orElse(false);
        var pressureFalls = leg.pressures()
                .ankleAfterExercise()
                .flatMap(after -> ankle(leg)
                        .map(resting ->
                                resting.value() - after.value() > limits.of(Limit.EXERCISE_ANKLE_FALL_MORE_THAN)))
                .orElse(false);
        return indexFalls || pressureFalls;
    }

    /** The band of an index of two decimals. */
    public static AbiBand abiBand(double abi, Limits limits) {
        if (abi <= limits.of(Limit.ABI_ABNORMAL_AT_MOST)) {
            return AbiBand.ABNORMAL;
        }
        if (abi <= limits.of(Limit.ABI_BORDERLINE_AT_MOST)) {
            return AbiBand.BORDERLINE;
        }
        return abi <= limits.of(Limit.ABI_NORMAL_AT_MOST) ? AbiBand.NORMAL : AbiBand.NONCOMPRESSIBLE;
    }

    public static TbiBand tbiBand(double tbi, Limits limits) {
        return tbi <= limits.of(Limit.TBI_ABNORMAL_AT_MOST) ? TbiBand.ABNORMAL : TbiBand.NORMAL;
    }

    private static Optional<MmHg> higher(Optional<MmHg> one, Optional<MmHg> other) {
        if (one.isEmpty() || other.isEmpty()) {
            return one.or(() -> other);
        }
        return one.get().value() >= other.get().value() ? one : other;
    }

    private static Optional<Double> ratio(Optional<MmHg> pressure, Optional<MmHg> arm) {
        return arm.filter(value -> value.value() > 0)
                .flatMap(below -> pressure.map(above -> BigDecimal.valueOf(above.value())
                        .divide(BigDecimal.valueOf(below.value()), 2, RoundingMode.HALF_UP)
                        .doubleValue()));
    }

    /** Half up, as the published bands exist at two decimals. */
    static double twoDecimals(double value) {
        return BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP).doubleValue();
    }
}
