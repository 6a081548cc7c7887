package limbqueue.triage.anatomy;

import java.util.EnumSet;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * TASC II type of femoro-popliteal disease of one side: the most serious printed row that its lesions meet.
 *
 * <p>Source: tasc-2007, table of femoro-popliteal lesions. Where no printed row fits, the next more serious type stands
 * in and the text says so: a single lesion of 150 to 200 mm, several lesions of which one is longer than 50 mm though all
 * together are not longer than 150 mm, a closed popliteal artery that reaches below the knee. Common practice, since the
 * print leaves it open: a superficial femoral occlusion over 200 mm, and any occlusion of the common femoral artery, is D
 * whether or not the popliteal artery is reported as involved; a narrowed common or deep femoral artery alone is of no
 * type; the trifurcation is closed where the tibioperoneal trunk, or a tibial artery from its origin, is.
 */
final class FemoropoplitealTasc implements Combination.Rule<FemoropoplitealTasc.Seen, FemoropoplitealTasc.Whole> {

    /**
     * @param length nanometres; 0 where it does not matter
     * @param calcified an occlusion that is heavily calcified
     * @param atOrigin a closed artery below the knee from its origin
     * @param belowKnee a popliteal occlusion that reaches below the knee
     */
    record Seen(
            Segment segment,
            Narrowing narrowing,
            long length,
            boolean calcified,
            boolean recurrent,
            boolean atOrigin,
            boolean belowKnee) {

        private static final Seen NOTHING =
                new Seen(Segment.SUPERFICIAL_FEMORAL, Narrowing.NONE, 0, false, false, false, false);
    }

    /**
     * @param count lesions of the superficial femoral and popliteal arteries, two standing for any more
     * @param total their length together
     * @param oneLong whether one of several is too long for the row of several short ones
     * @param femoralClosed length of the longest superficial femoral occlusion
     * @param poplitealClosed length of the longest popliteal occlusion
     * @param closedBelow the arteries below the knee that are closed
     */
    record Whole(
            int count,
            long total,
            boolean oneLong,
            Narrowing worst,
            boolean calcified,
            boolean recurrent,
            long femoralClosed,
            Narrowing popliteal,
            long poplitealClosed,
            boolean belowKnee,
            Narrowing commonFemoral,
            boolean trifurcation,
            Set<Segment> closedBelow) {}

    private static final Whole NOTHING = beside(Narrowing.NONE, false, Set.of());

    /** One for all wholes that are of type D: no further lesion changes that. */
    private static final Whole WORST = beside(Narrowing.OCCLUSION, false, Set.of());

    private final Side side;
    private final boolean treatedTwice;
    private final Lengths lengths;
    private final long stenosisOfA;
    private final long occlusionOfA;
    private final long each;
    private final long single;
    private final long together;
    private final long occlusionOfD;

    /** @param treatedTwice whether this side's arteries between groin and knee were twice treated from within */
    FemoropoplitealTasc(Side side, boolean treatedTwice, Limits limits) {
        this.side = side;
        this.treatedTwice = treatedTwice;
        this.lengths = Lengths.atMost(
                limits,
                Limit.TASC_FEMORAL_STENOSIS_A_AT_MOST,
                Limit.TASC_FEMORAL_OCCLUSION_A_AT_MOST,
                Limit.TASC_FEMORAL_EACH_OF_SEVERAL_AT_MOST,
                Limit.TASC_FEMORAL_SINGLE_B_AT_MOST,
                Limit.TASC_FEMORAL_SEVERAL_C_MORE_THAN,
                Limit.TASC_FEMORAL_OCCLUSION_D_MORE_THAN);
        this.stenosisOfA = Lengths.of(limits, Limit.TASC_FEMORAL_STENOSIS_A_AT_MOST);
        this.occlusionOfA = Lengths.of(limits, Limit.TASC_FEMORAL_OCCLUSION_A_AT_MOST);
        this.each = Lengths.of(limits, Limit.TASC_FEMORAL_EACH_OF_SEVERAL_AT_MOST);
        this.single = Lengths.of(limits, Limit.TASC_FEMORAL_SINGLE_B_AT_MOST);
        this.together = Lengths.of(limits, Limit.TASC_FEMORAL_SEVERAL_C_MORE_THAN);
        this.occlusionOfD = Lengths.of(limits, Limit.TASC_FEMORAL_OCCLUSION_D_MORE_THAN);
    }

    static boolean concerns(Segment segment) {
        return switch (segment) {
            case COMMON_FEMORAL,
                    SUPERFICIAL_FEMORAL,
                    POPLITEAL,
                    TIBIOPERONEAL_TRUNK,
                    ANTERIOR_TIBIAL,
                    POSTERIOR_TIBIAL,
                    PERONEAL -> true;
            default -> false;
        };
    }

    @Override
    public Whole nothing() {
        return NOTHING;
    }

    @Override
    public Seen look(LesionFacts lesion, LesionAnswers answers) {
        if (answers.of(lesion.side(side)) != side) {
            return Seen.NOTHING;
        }
        var narrowing = answers.of(lesion.narrowing());
        if (!narrowing.counts()) {
            return Seen.NOTHING;
        }
        var closed = narrowing == Narrowing.OCCLUSION;
        return switch (lesion.segment()) {
            case SUPERFICIAL_FEMORAL, POPLITEAL -> {
                var length = answers.of(lesion.length(lengths));
                yield new Seen(
                        lesion.segment(),
                        narrowing,
                        length,
                        closed && length <= occlusionOfA && answers.of(lesion.heavilyCalcified()),
                        treatedTwice && answers.of(lesion.inStent()),
                        false,
                        closed && lesion.segment() == Segment.POPLITEAL && answers.of(lesion.belowKnee()));
            }
            case COMMON_FEMORAL, TIBIOPERONEAL_TRUNK ->
                new Seen(lesion.segment(), narrowing, 0, false, false, closed, false);
            case ANTERIOR_TIBIAL, POSTERIOR_TIBIAL, PERONEAL ->
                closed
                        ? new Seen(lesion.segment(), narrowing, 0, false, false, answers.of(lesion.atOrigin()), false)
                        : Seen.NOTHING;
            default -> Seen.NOTHING;
        };
    }

    @Override
    public Whole with(Whole whole, Seen seen) {
        var more = alone(seen);
        var closedBelow = EnumSet.noneOf(Segment.class);
        closedBelow.addAll(whole.closedBelow());
        closedBelow.addAll(more.closedBelow());
        return new Whole(
                Math.min(whole.count() + more.count(), 2),
                Lengths.sum(whole.total(), more.total(), together),
                whole.oneLong() || more.oneLong(),
                whole.worst().orWorse(more.worst()),
                whole.calcified() || more.calcified(),
                whole.recurrent() || more.recurrent(),
                longer(whole.femoralClosed(), more.femoralClosed()),
                whole.popliteal().orWorse(more.popliteal()),
                longer(whole.poplitealClosed(), more.poplitealClosed()),
                whole.belowKnee() || more.belowKnee(),
                whole.commonFemoral().orWorse(more.commonFemoral()),
                whole.trifurcation() || more.trifurcation(),
                closedBelow);
    }

    /** A lesion as if it were the only one. */
    private Whole alone(Seen seen) {
        var narrowing = seen.narrowing();
        if (!narrowing.counts()) {
            return NOTHING;
        }
        var closed = narrowing == Narrowing.OCCLUSION;
        var popliteal = seen.segment() == Segment.POPLITEAL;
        return switch (seen.segment()) {
            case SUPERFICIAL_FEMORAL, POPLITEAL ->
                new Whole(
                        1,
                        seen.length(),
                        seen.length() > each,
                        narrowing,
                        seen.calcified(),
                        seen.recurrent(),
                        closed && !popliteal ? seen.length() : 0,
                        popliteal ? narrowing : Narrowing.NONE,
                        closed && popliteal ? seen.length() : 0,
                        seen.belowKnee(),
                        Narrowing.NONE,
                        false,
                        Set.of());
            case COMMON_FEMORAL -> beside(narrowing, false, Set.of());
            default -> closed ? beside(Narrowing.NONE, seen.atOrigin(), Set.of(seen.segment())) : NOTHING;
        };
    }

    /** No lesion of the superficial femoral and popliteal arteries, only what stands beside them. */
    private static Whole beside(Narrowing commonFemoral, boolean trifurcation, Set<Segment> closedBelow) {
        return new Whole(
                0,
                0,
                false,
                Narrowing.NONE,
                false,
                false,
                0,
                Narrowing.NONE,
                0,
                false,
                commonFemoral,
                trifurcation,
                closedBelow);
    }

    private long longer(long one, long other) {
        return Math.min(Math.max(one, other), occlusionOfD + 1);
    }

    /** Of what is D, nothing matters any more; of what is C, only what could still make it D; of B, not what makes it B. */
    @Override
    public Whole reduced(Whole whole) {
        return switch (type(whole)) {
            case D -> WORST;
            case C ->
                new Whole(
                        1,
                        0,
                        false,
                        Narrowing.NONE,
                        false,
                        true,
                        whole.femoralClosed(),
                        whole.popliteal() == Narrowing.OCCLUSION ? Narrowing.OCCLUSION : Narrowing.NONE,
                        whole.poplitealClosed(),
                        false,
                        Narrowing.NONE,
                        whole.trifurcation(),
                        EnumSet.noneOf(Segment.class));
            case B ->
                new Whole(
                        whole.count(),
                        whole.total(),
                        whole.oneLong(),
                        whole.worst(),
                        true,
                        false,
                        whole.femoralClosed(),
                        whole.popliteal(),
                        whole.poplitealClosed(),
                        false,
                        Narrowing.NONE,
                        whole.trifurcation(),
                        EnumSet.noneOf(Segment.class));
            default -> whole;
        };
    }

    /** Superficial femoral and popliteal lesions are counted together; each other artery is remembered by itself. */
    @Override
    public int group(Segment segment) {
        return segment == Segment.SUPERFICIAL_FEMORAL ? Segment.POPLITEAL.ordinal() : segment.ordinal();
    }

    @Override
    public Whole settled(Whole whole, int group) {
        return whole;
    }

    Tasc type(Whole whole) {
        return row(whole).type();
    }

    /** The most serious row that is met. */
    PrintedRow row(Whole whole) {
        if (whole.commonFemoral() == Narrowing.OCCLUSION) {
            return new PrintedRow(
                    Tasc.D,
                    "the common femoral artery is closed; the printed row also wants the occlusion long and into the"
                            + " popliteal artery, of which a closed common femoral artery is not kept waiting");
        }
        if (whole.popliteal() == Narrowing.OCCLUSION && whole.trifurcation()) {
            return new PrintedRow(Tasc.D, "the popliteal artery and the beginning of the arteries below it are closed");
        }
        if (whole.femoralClosed() > 0 && whole.femoralClosed() + whole.poplitealClosed() > occlusionOfD) {
            return new PrintedRow(
                    Tasc.D,
                    whole.popliteal().counts()
                            ? "long occlusion of the superficial femoral artery with the popliteal artery involved"
                            : "long occlusion of the superficial femoral artery; the printed row also wants the"
                                    + " popliteal artery involved, of which nothing is reported");
        }
        return whole.count() == 0 ? notClassified(whole) : c(whole);
    }

    private static PrintedRow notClassified(Whole whole) {
        return new PrintedRow(
                Tasc.NONE,
                whole.commonFemoral().counts()
                        ? "no printed row fits a narrowed common femoral artery alone; that is mostly an operation"
                        : "no printed row fits: nothing that the table classifies is narrowed");
    }

    private PrintedRow c(Whole whole) {
        if (whole.recurrent()) {
            return new PrintedRow(Tasc.C, "narrowed again in a stent after two treatments from within the artery");
        }
        if (whole.count() > 1 && whole.total() > together) {
            return new PrintedRow(Tasc.C, "several lesions, long together");
        }
        if (whole.count() > 1 && whole.oneLong()) {
            return new PrintedRow(
                    Tasc.C,
                    "several lesions, not all of them short, though not long together; no printed row fits, the next"
                            + " more serious type stands in");
        }
        if (whole.total() > single) {
            return new PrintedRow(
                    Tasc.C,
                    "a single lesion longer than that of type B and not as type D has it; no printed row fits, the next"
                            + " more serious type stands in");
        }
        if (whole.belowKnee()) {
            return new PrintedRow(
                    Tasc.C,
                    "closed popliteal artery; where it reaches below the knee no printed row fits, and the format"
                            + " cannot say whether it does");
        }
        return b(whole);
    }

    private PrintedRow b(Whole whole) {
        if (whole.count() > 1) {
            return new PrintedRow(Tasc.B, "several lesions, each of them short");
        }
        if (whole.total() > (whole.worst() == Narrowing.OCCLUSION ? occlusionOfA : stenosisOfA)) {
            return new PrintedRow(
                    Tasc.B,
                    whole.worst() == Narrowing.OCCLUSION
                            ? "a single occlusion of middle length"
                            : "a single narrowing of middle length");
        }
        if (whole.calcified()) {
            return new PrintedRow(Tasc.B, "a short occlusion, heavily calcified");
        }
        if (whole.popliteal() == Narrowing.STENOSIS) {
            return new PrintedRow(Tasc.B, "a single narrowing of the popliteal artery");
        }
        if (whole.popliteal() == Narrowing.OCCLUSION) {
            return new PrintedRow(Tasc.B, "a single occlusion of the popliteal artery, not below the knee");
        }
        if (noRunOff(whole.closedBelow())) {
            return new PrintedRow(Tasc.B, "no artery below the knee is open to the foot");
        }
        return new PrintedRow(
                Tasc.A, whole.worst() == Narrowing.OCCLUSION ? "a single short occlusion" : "a single short narrowing");
    }

    /** The anterior tibial artery is closed, and so is the way to the other two. */
    private static boolean noRunOff(Set<Segment> closed) {
        return closed.contains(Segment.ANTERIOR_TIBIAL)
                && (closed.contains(Segment.TIBIOPERONEAL_TRUNK)
                        || closed.contains(Segment.POSTERIOR_TIBIAL) && closed.contains(Segment.PERONEAL));
    }
}
