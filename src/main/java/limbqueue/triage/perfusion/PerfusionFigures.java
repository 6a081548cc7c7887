package limbqueue.triage.perfusion;

import java.math.BigDecimal;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoublePredicate;
import limbqueue.triage.Quantity;
import limbqueue.triage.Quantity.MmHg;
import limbqueue.triage.ReferralDocument.ArmPressures;
import limbqueue.triage.ReferralDocument.Leg;
import limbqueue.triage.ReferralDocument.Waveform;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * What the figures of one leg say of its supply, and what they leave open.
 *
 * <p>Toe pressure or transcutaneous oxygen decide over the ankle figures; ankle figures say nothing when the arteries
 * cannot be compressed. Where several figures of one kind are known the more serious counts. Source: wifi-2014 (the
 * precedence of the toe pressure is a value from memory).
 */
public final class PerfusionFigures {

    private final Limits limits;
    private final Optional<AnkleBrachialIndex> abi;
    private final boolean noncompressible;
    private final Optional<MmHg> ankle;
    private final Optional<MmHg> toe;
    private final Optional<MmHg> tcpo2;
    private final boolean flat;

    public PerfusionFigures(Leg leg, ArmPressures arms, Limits limits) {
        this.limits = limits;
        this.abi = Indices.abi(leg, arms, limits);
        this.noncompressible =
                abi.map(index -> index.band() == AbiBand.NONCOMPRESSIBLE).orElse(false);
        this.ankle = Indices.ankle(leg);
        this.toe = leg.pressures().toe().or(() -> toeFromIndex(leg, arms));
        this.tcpo2 = leg.pressures().tcpo2();
        this.flat = leg.pressures().waveform().map(Waveform.FLAT::equals).orElse(false);
    }

    /** A toe pressure follows from a reported toe-brachial index once an arm pressure is known. */
    private static Optional<MmHg> toeFromIndex(Leg leg, ArmPressures arms) {
        return leg.tbi()
                .flatMap(tbi -> Indices.arm(arms)
                        .map(arm -> new MmHg(BigDecimal.valueOf(tbi.value())
                                .multiply(BigDecimal.valueOf(arm.value()))
                                .doubleValue())));
    }

    public Optional<AnkleBrachialIndex> abi() {
        return abi;
    }

    /** Toe pressure or transcutaneous oxygen is known. */
    public boolean distalKnown() {
        return toe.isPresent() || tcpo2.isPresent();
    }

    /** An ankle figure that can be trusted is known. */
    public boolean ankleKnown() {
        return !noncompressible && (abi.isPresent() || ankle.isPresent());
    }

    /** Nothing more can make the ankle figures low: an ankle pressure without an arm pressure gives no index yet. */
    private boolean ankleSettled() {
        return ankleKnown() && (abi.isPresent() || lowByAnkle());
    }

    /** Some figure says how the leg is supplied. */
    public boolean known() {
        return distalKnown() || ankleKnown() || flat;
    }

    public boolean noncompressible() {
        return noncompressible;
    }

    /** WIfI ischaemia grade as far as the known figures decide it. */
    public OptionalInt ischaemia() {
        if (distalKnown()) {
            return OptionalInt.of(Math.max(grade(toe, this::toeGrade), grade(tcpo2, this::toeGrade)));
        }
        if (flat) {
            return OptionalInt.of(3);
        }
        return ankleKnown() ? OptionalInt.of(ankleGrade()) : OptionalInt.empty();
    }

    /**
     * The supply of the leg: known once a distal and an ankle figure are, open otherwise. While it is open,
     * the known figures are acted on; where there are none, the most serious supply is. Arteries that cannot be
     * compressed leave the ankle to the distal figure, which stands in the same row of the table.
     */
    public Supply supply(String legPath, String legWords) {
        var poor = poorByKnownFigures();
        if (distalKnown() && (ankleSettled() || noncompressible)) {
            var low = ankleKnown() ? lowByAnkle() : grade() == 3;
            var known = new Perfusion(grade(), poor, low, true);
            var path = legPath + ".pressures.toe";
            return new Supply(path, Optional.of(known), known, List.of(known), ask(path), legWords);
        }
        var actOn = known()
                ? new Perfusion(grade(), poor, ankleKnown() ? lowByAnkle() : grade() == 3, distalKnown())
                : new Perfusion(3, true, true, false);
        var path = distalKnown()
                ? ankleKnown() ? armOf(legPath) : legPath + ".pressures.dorsalisPedis"
                : known() || noncompressible ? legPath + ".pressures.toe" : legPath + ".abi";
        return new Supply(path, Optional.empty(), actOn, choices(poor), ask(path), legWords);
    }

    private static String armOf(String legPath) {
        return legPath.replace("legs.", "armPressures.");
    }

    /** The figures of ankle and of forefoot that are still open, each combined with each. */
    private List<Perfusion> choices(boolean poor) {
        var choices = new LinkedHashSet<Perfusion>();
        for (int grade : distalKnown() ? List.of(grade()) : List.of(0, 1, 2, 3)) {
            for (boolean low : lowWith(grade)) {
                // An ankle figure low enough for claudication to be dealt with soon is low enough for rest pain too.
                choices.add(new Perfusion(grade, poor || low || (!distalKnown() && grade == 3), low, true));
            }
        }
        if (!distalKnown() && !noncompressible && !flat && !(ankleKnown() && ankleGrade() > 0)) {
            choices.add(new Perfusion(0, poor, false, false));
        }
        return List.copyOf(choices);
    }

    private List<Boolean> lowWith(int grade) {
        if (ankleSettled()) {
            return List.of(lowByAnkle());
        }
        return noncompressible ? List.of(grade == 3) : List.of(false, true);
    }

    /** The question for the field at {@code path}, with {@code %s} for the leg. */
    private static String ask(String path) {
        if (path.endsWith(".toe")) {
            return "What is the toe pressure of the %s? If it was never measured, where can it be?";
        }
        if (path.endsWith(".abi")) {
            return "What is the ankle-brachial index, or the ankle, toe and arm pressures, of the %s? If it was never measured, where can it be?";
        }
        return path.endsWith(".dorsalisPedis")
                ? "What is the ankle pressure of the %s? If it was never measured, where can it be?"
                : "What is the blood pressure in the arm, which the ankle pressure of the %s is compared with? If it was never measured, where can it be?";
    }

    private int grade() {
        return ischaemia().orElse(3);
    }

    private boolean poorByKnownFigures() {
        return below(toe, Limit.REST_PAIN_TOE_LESS_THAN)
                || below(tcpo2, Limit.REST_PAIN_TCPO2_LESS_THAN)
                || flat
                || (!noncompressible
                        && (below(ankle, Limit.REST_PAIN_ANKLE_LESS_THAN)
                                || abi.map(index -> index.value() < limits.of(Limit.REST_PAIN_ABI_LESS_THAN))
                                        .orElse(false)));
    }

    private boolean lowByAnkle() {
        return !noncompressible
                && (below(ankle, Limit.CLAUDICATION_SOON_ANKLE_LESS_THAN)
                        || abi.map(index -> index.value() < limits.of(Limit.CLAUDICATION_SOON_ABI_LESS_THAN))
                                .orElse(false));
    }

    private boolean below(Optional<MmHg> pressure, Limit limit) {
        return pressure.map(value -> value.value() < limits.of(limit)).orElse(false);
    }

    private int ankleGrade() {
        var byAbi = abi.map(index -> abiGrade(index.value())).orElse(0);
        return Math.max(byAbi, grade(ankle, this::anklePressureGrade));
    }

    private int abiGrade(double abi) {
        return firstHolding(
                abi,
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_0_ABI_AT_LEAST),
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_1_ABI_AT_LEAST),
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_2_ABI_AT_LEAST));
    }

    private int anklePressureGrade(double mmHg) {
        return firstHolding(
                mmHg,
                value -> value > limits.of(Limit.WIFI_ISCHAEMIA_0_ANKLE_MORE_THAN),
                value -> value > limits.of(Limit.WIFI_ISCHAEMIA_1_ANKLE_MORE_THAN),
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_2_ANKLE_AT_LEAST));
    }

    private int toeGrade(double mmHg) {
        return firstHolding(
                mmHg,
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_0_TOE_AT_LEAST),
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_1_TOE_AT_LEAST),
                value -> value >= limits.of(Limit.WIFI_ISCHAEMIA_2_TOE_AT_LEAST));
    }

    private static int grade(Optional<MmHg> pressure, java.util.function.DoubleToIntFunction table) {
        return pressure.map(Quantity::value).map(table::applyAsInt).orElse(0);
    }

    private static int firstHolding(double value, DoublePredicate... rows) {
        for (var grade = 0; grade < rows.length; grade++) {
            if (rows[grade].test(value)) {
                return grade;
            }
        }
        return rows.length;
    }
}
