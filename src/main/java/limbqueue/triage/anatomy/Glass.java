package limbqueue.triage.anatomy;

import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * Grades of the Global Limb Anatomic Staging System of one side: between groin and knee, and along the target path below
 * it. The worst single finding decides a grade, and severe calcification raises it by one.
 *
 * <p>Source: gvg-2019, seen in secondary copies that agree. Common practice, since the print leaves it open: lengths of
 * several lesions of one artery add up; a third of an artery below the knee is taken as 100 mm; a popliteal lesion runs
 * into the trifurcation where a lesion of the tibioperoneal trunk, or of the anterior tibial artery at its origin, is
 * reported; a tibial lesion at the origin and any narrowing of the tibioperoneal trunk is at least grade 3. The target
 * path is the least diseased of the arteries of which a lesion is reported; the tibioperoneal trunk bears on the
 * posterior tibial and peroneal arteries, and is the path itself where no lesion of the three arteries is reported.
 */
final class Glass implements Combination.Rule<Glass.Seen, Glass.Whole> {

    private static final int HIGHEST = 4;

    /**
     * @param length nanometres; 0 where it does not matter
     * @param here on this side; lesions of the other say nothing
     */
    record Seen(Segment segment, boolean here, Narrowing narrowing, long length, boolean origin, boolean calcified) {}

    /**
     * Disease of one artery.
     *
     * @param reported whether a lesion of it is reported, counted or not
     * @param diseased length of all lesions
     * @param closed length of all occlusions
     * @param occlusions their number, two standing for any more
     * @param origin a lesion at its origin: of the superficial femoral artery an occlusion
     * @param atLeast the grade that is settled
     */
    private record Artery(
            boolean reported,
            boolean counted,
            long diseased,
            long closed,
            int occlusions,
            boolean origin,
            boolean calcified,
            int atLeast) {

        private static final Artery SOUND = new Artery(false, false, 0, 0, 0, false, false, 0);

        Artery with(Seen seen, long limit) {
            var counts = seen.narrowing().counts();
            var occluded = seen.narrowing() == Narrowing.OCCLUSION;
            return new Artery(
                    true,
                    counted || counts,
                    counts ? Lengths.sum(diseased, seen.length(), limit) : diseased,
                    occluded ? Lengths.sum(closed, seen.length(), limit) : closed,
                    occluded ? Math.min(occlusions + 1, 2) : occlusions,
                    origin || seen.origin(),
                    calcified || seen.calcified(),
                    atLeast);
        }

        Artery reduced(int grade) {
            return grade == HIGHEST && (diseased > 0 || calcified)
                    ? new Artery(reported, counted, 0, 0, 1, origin, false, HIGHEST)
                    : this;
        }

        /** @param keepOrigin whether another artery asks about the origin of this one */
        Artery settled(int grade, boolean keepOrigin) {
            return new Artery(reported, counted, 0, 0, 0, keepOrigin && origin, calcified, grade);
        }
    }

    record Whole(Artery femoral, Artery popliteal, Artery trunk, Artery anterior, Artery posterior, Artery peroneal) {

        /** What {@code change} makes of each artery. */
        Whole each(BiFunction<Segment, Artery, Artery> change) {
            return new Whole(
                    change.apply(Segment.SUPERFICIAL_FEMORAL, femoral),
                    change.apply(Segment.POPLITEAL, popliteal),
                    change.apply(Segment.TIBIOPERONEAL_TRUNK, trunk),
                    change.apply(Segment.ANTERIOR_TIBIAL, anterior),
                    change.apply(Segment.POSTERIOR_TIBIAL, posterior),
                    change.apply(Segment.PERONEAL, peroneal));
        }
    }

    private static final Whole NOTHING =
            new Whole(Artery.SOUND, Artery.SOUND, Artery.SOUND, Artery.SOUND, Artery.SOUND, Artery.SOUND);

    /**
     * @param femoropopliteal grade 0 to 4; empty where no lesion of the superficial femoral or popliteal artery is
     *     reported
     * @param infrapopliteal grade 0 to 4; empty where no lesion below the knee is reported
     */
    record Grades(Optional<Integer> femoropopliteal, Optional<Integer> infrapopliteal) {

        int actOnFemoropopliteal() {
            return femoropopliteal.orElse(0);
        }

        int actOnInfrapopliteal() {
            return infrapopliteal.orElse(0);
        }

        int stage() {
            return GlassTable.stage(actOnFemoropopliteal(), actOnInfrapopliteal());
        }

        /** The stages that the grades allow, where nothing is reported all of them. */
        TreeSet<Integer> stages() {
            var stages = new TreeSet<Integer>();
            all(femoropopliteal)
                    .forEach(above -> all(infrapopliteal).forEach(below -> stages.add(GlassTable.stage(above, below))));
            return stages;
        }

        /** All that an answer can change in what is shown. */
        List<Object> shown() {
            return List.of(actOnFemoropopliteal(), actOnInfrapopliteal(), stages());
        }

        private static Stream<Integer> all(Optional<Integer> grade) {
            return grade.map(Stream::of)
                    .orElseGet(() -> IntStream.rangeClosed(0, HIGHEST).boxed());
        }
    }

    private final Side side;
    private final Lengths femoralLengths;
    private final Lengths poplitealLengths;
    private final Lengths tibialLengths;
    private final long femoralThird;
    private final long femoralTwoThirds;
    private final long femoralFocalOcclusion;
    private final long femoralShortOcclusion;
    private final long femoralLongOcclusion;
    private final long poplitealFocal;
    private final long poplitealLong;
    private final long tibialFocal;
    private final long tibialFocalOcclusion;
    private final long tibialThird;
    private final long tibialTwoThirds;
    private final long tibialLongOcclusion;

    Glass(Side side, Limits limits) {
        this.side = side;
        this.femoralLengths = Lengths.atMost(
                        limits, Limit.GLASS_FEMORAL_TWO_THIRDS_AT_MOST, Limit.GLASS_FEMORAL_OCCLUSION_AT_MOST)
                .lessThan(
                        limits,
                        Limit.GLASS_FEMORAL_THIRD_LESS_THAN,
                        Limit.GLASS_FEMORAL_FOCAL_OCCLUSION_LESS_THAN,
                        Limit.GLASS_FEMORAL_OCCLUSION_LESS_THAN);
        this.poplitealLengths = Lengths.atMost(limits, Limit.GLASS_POPLITEAL_AT_MOST)
                .lessThan(limits, Limit.GLASS_POPLITEAL_FOCAL_LESS_THAN);
        this.tibialLengths = Lengths.atMost(
                        limits,
                        Limit.GLASS_TIBIAL_THIRD_AT_MOST,
                        Limit.GLASS_TIBIAL_TWO_THIRDS_AT_MOST,
                        Limit.GLASS_TIBIAL_OCCLUSION_AT_MOST)
                .lessThan(limits, Limit.GLASS_TIBIAL_FOCAL_LESS_THAN, Limit.GLASS_TIBIAL_FOCAL_OCCLUSION_LESS_THAN);
        this.femoralThird = Lengths.of(limits, Limit.GLASS_FEMORAL_THIRD_LESS_THAN);
        this.femoralTwoThirds = Lengths.of(limits, Limit.GLASS_FEMORAL_TWO_THIRDS_AT_MOST);
        this.femoralFocalOcclusion = Lengths.of(limits, Limit.GLASS_FEMORAL_FOCAL_OCCLUSION_LESS_THAN);
        this.femoralShortOcclusion = Lengths.of(limits, Limit.GLASS_FEMORAL_OCCLUSION_LESS_THAN);
        this.femoralLongOcclusion = Lengths.of(limits, Limit.GLASS_FEMORAL_OCCLUSION_AT_MOST);
        this.poplitealFocal = Lengths.of(limits, Limit.GLASS_POPLITEAL_FOCAL_LESS_THAN);
        this.poplitealLong = Lengths.of(limits, Limit.GLASS_POPLITEAL_AT_MOST);
        this.tibialFocal = Lengths.of(limits, Limit.GLASS_TIBIAL_FOCAL_LESS_THAN);
        this.tibialFocalOcclusion = Lengths.of(limits, Limit.GLASS_TIBIAL_FOCAL_OCCLUSION_LESS_THAN);
        this.tibialThird = Lengths.of(limits, Limit.GLASS_TIBIAL_THIRD_AT_MOST);
        this.tibialTwoThirds = Lengths.of(limits, Limit.GLASS_TIBIAL_TWO_THIRDS_AT_MOST);
        this.tibialLongOcclusion = Lengths.of(limits, Limit.GLASS_TIBIAL_OCCLUSION_AT_MOST);
    }

    static boolean concerns(Segment segment) {
        return above(segment) || below(segment);
    }

    static boolean above(Segment segment) {
        return segment == Segment.SUPERFICIAL_FEMORAL || segment == Segment.POPLITEAL;
    }

    static boolean below(Segment segment) {
        return switch (segment) {
            case TIBIOPERONEAL_TRUNK, ANTERIOR_TIBIAL, POSTERIOR_TIBIAL, PERONEAL -> true;
            default -> false;
        };
    }

    @Override
    public Whole nothing() {
        return NOTHING;
    }

    @Override
    public Seen look(LesionFacts lesion, LesionAnswers answers) {
        var segment = lesion.segment();
        if (answers.of(lesion.side(side)) != side) {
            return new Seen(segment, false, Narrowing.NONE, 0, false, false);
        }
        var narrowing = answers.of(lesion.narrowing());
        if (!narrowing.counts()) {
            return new Seen(segment, true, narrowing, 0, false, false);
        }
        var closed = narrowing == Narrowing.OCCLUSION;
        return switch (segment) {
            case SUPERFICIAL_FEMORAL -> {
                var length = answers.of(lesion.length(femoralLengths));
                var origin = closed && answers.of(lesion.atOrigin());
                yield new Seen(segment, true, narrowing, length, origin, answers.of(lesion.heavilyCalcified()));
            }
            case POPLITEAL ->
                closed
                        ? new Seen(segment, true, narrowing, 0, false, false)
                        : new Seen(
                                segment,
                                true,
                                narrowing,
                                answers.of(lesion.length(poplitealLengths)),
                                false,
                                answers.of(lesion.heavilyCalcified()));
            case TIBIOPERONEAL_TRUNK ->
                new Seen(segment, true, narrowing, 0, true, !closed && answers.of(lesion.heavilyCalcified()));
            default ->
                new Seen(
                        segment,
                        true,
                        narrowing,
                        answers.of(lesion.length(tibialLengths)),
                        answers.of(lesion.atOrigin()),
                        answers.of(lesion.heavilyCalcified()));
        };
    }

    @Override
    public Whole with(Whole whole, Seen seen) {
        return seen.here()
                ? whole.each((segment, artery) ->
                        segment == seen.segment() ? artery.with(seen, longestThatMatters(segment)) : artery)
                : whole;
    }

    private long longestThatMatters(Segment segment) {
        return switch (segment) {
            case SUPERFICIAL_FEMORAL -> Math.max(femoralTwoThirds, femoralLongOcclusion);
            case POPLITEAL -> poplitealLong;
            case TIBIOPERONEAL_TRUNK -> 0;
            default -> tibialTwoThirds;
        };
    }

    private int grade(Segment segment, Artery artery) {
        return switch (segment) {
            case SUPERFICIAL_FEMORAL -> femoral(artery);
            case POPLITEAL -> popliteal(artery);
            case TIBIOPERONEAL_TRUNK -> trunk(artery);
            default -> tibial(artery);
        };
    }

    /** An artery of the highest grade cannot become worse. */
    @Override
    public Whole reduced(Whole whole) {
        return whole.each((segment, artery) -> artery.reduced(grade(segment, artery)));
    }

    @Override
    public int group(Segment segment) {
        return segment.ordinal();
    }

    @Override
    public Whole settled(Whole whole, int group) {
        return whole.each((segment, artery) -> segment.ordinal() == group
                ? artery.settled(grade(segment, artery), segment == Segment.ANTERIOR_TIBIAL)
                : artery);
    }

    Grades grades(Whole whole) {
        return new Grades(
                whole.femoral().reported() || whole.popliteal().reported()
                        ? Optional.of(femoropopliteal(whole))
                        : Optional.empty(),
                infrapopliteal(whole));
    }

    private int femoropopliteal(Whole whole) {
        var intoTrifurcation = whole.popliteal().counted()
                && (whole.trunk().counted() || whole.anterior().origin());
        var grade = Math.max(
                intoTrifurcation ? HIGHEST : 0, Math.max(femoral(whole.femoral()), popliteal(whole.popliteal())));
        return raised(grade, whole.femoral().calcified() || whole.popliteal().calcified());
    }

    private static int raised(int grade, boolean calcified) {
        return calcified && grade > 0 ? Math.min(grade + 1, HIGHEST) : grade;
    }

    private int femoral(Artery artery) {
        var byLength = 0;
        if (artery.diseased() > femoralTwoThirds) {
            byLength = 3;
        } else if (artery.diseased() >= femoralThird) {
            byLength = 2;
        } else if (artery.counted()) {
            byLength = 1;
        }
        return Math.max(artery.atLeast(), Math.max(byLength, femoralOcclusion(artery)));
    }

    private int femoralOcclusion(Artery artery) {
        if (artery.occlusions() == 0) {
            return 0;
        }
        if (artery.closed() > femoralLongOcclusion) {
            return HIGHEST;
        }
        if (artery.origin() || artery.closed() >= femoralShortOcclusion) {
            return 3;
        }
        return artery.occlusions() > 1 || artery.closed() >= femoralFocalOcclusion ? 2 : 1;
    }

    private int popliteal(Artery artery) {
        if (!artery.counted()) {
            return 0;
        }
        var grade = artery.diseased() >= poplitealFocal ? 3 : 2;
        return artery.occlusions() > 0 || artery.diseased() > poplitealLong
                ? HIGHEST
                : Math.max(artery.atLeast(), grade);
    }

    private static int trunk(Artery artery) {
        if (!artery.counted()) {
            return 0;
        }
        return artery.occlusions() > 0 ? HIGHEST : Math.max(artery.atLeast(), 3);
    }

    private int tibial(Artery artery) {
        if (!artery.counted()) {
            return 0;
        }
        var byLength = 1;
        if (artery.diseased() > tibialTwoThirds) {
            byLength = HIGHEST;
        } else if (artery.diseased() > tibialThird || artery.origin()) {
            byLength = 3;
        } else if (artery.diseased() >= tibialFocal) {
            byLength = 2;
        }
        return Math.max(artery.atLeast(), Math.max(byLength, tibialOcclusion(artery)));
    }

    private int tibialOcclusion(Artery artery) {
        if (artery.occlusions() == 0) {
            return 0;
        }
        if (artery.closed() > tibialLongOcclusion) {
            return HIGHEST;
        }
        return artery.origin() || artery.closed() >= tibialFocalOcclusion ? 3 : 2;
    }

    /** The grade of the least diseased artery of which a lesion is reported. */
    private Optional<Integer> infrapopliteal(Whole whole) {
        var trunk = whole.trunk();
        var paths = Stream.of(
                        path(whole.anterior(), Artery.SOUND),
                        path(whole.posterior(), trunk),
                        path(whole.peroneal(), trunk))
                .flatMap(Optional::stream)
                .min(Integer::compare);
        return paths.or(
                () -> trunk.reported() ? Optional.of(raised(trunk(trunk), trunk.calcified())) : Optional.empty());
    }

    private Optional<Integer> path(Artery artery, Artery trunk) {
        return artery.reported()
                ? Optional.of(raised(Math.max(tibial(artery), trunk(trunk)), artery.calcified() || trunk.calcified()))
                : Optional.empty();
    }
}
