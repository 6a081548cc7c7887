package limbqueue.triage.anatomy;

import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * TASC II type of aorto-iliac disease, as it is to be given for one side: the most serious printed row that the lesions
 * of this side, those of both sides together, or those of the aorta meet.
 *
 * <p>Source: tasc-2007, table of aorto-iliac lesions. Where no printed row fits, the next more serious type stands in and
 * the text says so. Common practice, since the format cannot say it: disease is diffuse where a lesion of the aorta is
 * longer than a short one and iliac arteries of both sides are diseased, or where all three arteries of one side are; an
 * external iliac lesion runs into the common femoral artery where a lesion of that artery is reported; an occlusion is at
 * least what a stenosis of its length would be.
 */
final class AortoIliacTasc implements Combination.Rule<AortoIliacTasc.Seen, AortoIliacTasc.Whole> {

    /** @param length nanometres; 0 where it does not matter */
    record Seen(Segment segment, boolean here, Narrowing narrowing, long length, boolean complex, boolean wide) {}

    private enum Aorta {
        SOUND,
        SHORT,
        LONG,
        CLOSED
    }

    /**
     * @param count external iliac lesions, two standing for any more
     * @param total their length together
     * @param complex whether one is an occlusion at the origin or heavily calcified
     */
    private record External(int count, long total, boolean closed, boolean complex) {
        private static final External SOUND = new External(0, 0, false, false);
    }

    /**
     * @param wideAneurysm of the aorta
     * @param femoralHere whether the common femoral artery of this side is diseased
     */
    record Whole(
            Aorta aorta,
            boolean wideAneurysm,
            Narrowing commonHere,
            Narrowing commonThere,
            External externalHere,
            External externalThere,
            boolean femoralHere) {}

    private static final Whole NOTHING =
            new Whole(Aorta.SOUND, false, Narrowing.NONE, Narrowing.NONE, External.SOUND, External.SOUND, false);

    /** One for all wholes that are of type D: no further lesion changes that. */
    private static final Whole WORST =
            new Whole(Aorta.CLOSED, false, Narrowing.NONE, Narrowing.NONE, External.SOUND, External.SOUND, false);

    private final Side side;
    private final Lengths aortic;
    private final Lengths iliac;
    private final long shortAorta;
    private final long shortExternal;
    private final long longestExternal;

    AortoIliacTasc(Side side, Limits limits) {
        this.side = side;
        this.aortic = Lengths.atMost(limits, Limit.TASC_AORTA_SHORT_AT_MOST);
        this.iliac = Lengths.atMost(
                limits, Limit.TASC_EXTERNAL_ILIAC_SHORT_AT_MOST, Limit.TASC_EXTERNAL_ILIAC_TOTAL_AT_MOST);
        this.shortAorta = Lengths.of(limits, Limit.TASC_AORTA_SHORT_AT_MOST);
        this.shortExternal = Lengths.of(limits, Limit.TASC_EXTERNAL_ILIAC_SHORT_AT_MOST);
        this.longestExternal = Lengths.of(limits, Limit.TASC_EXTERNAL_ILIAC_TOTAL_AT_MOST);
    }

    static boolean concerns(Segment segment) {
        return switch (segment) {
            case INFRARENAL_AORTA, COMMON_ILIAC, EXTERNAL_ILIAC, COMMON_FEMORAL -> true;
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
        var here = segment == Segment.INFRARENAL_AORTA || answers.of(lesion.side(side)) == side;
        var wide = segment == Segment.INFRARENAL_AORTA && lesion.aneurysm() && answers.of(lesion.aneurysmWide());
        var narrowing = answers.of(lesion.narrowing());
        if (!narrowing.counts()) {
            return new Seen(segment, here, narrowing, 0, false, wide);
        }
        return switch (segment) {
            case INFRARENAL_AORTA ->
                new Seen(
                        segment,
                        here,
                        narrowing,
                        narrowing == Narrowing.STENOSIS ? answers.of(lesion.length(aortic)) : 0,
                        false,
                        wide);
            case EXTERNAL_ILIAC ->
                new Seen(
                        segment,
                        here,
                        narrowing,
                        answers.of(lesion.length(iliac)),
                        here
                                && narrowing == Narrowing.OCCLUSION
                                && (answers.of(lesion.atOrigin()) || answers.of(lesion.heavilyCalcified())),
                        false);
            default -> new Seen(segment, here, narrowing, 0, false, false);
        };
    }

    @Override
    public Whole with(Whole whole, Seen seen) {
        var more = alone(seen);
        return new Whole(
                worse(whole.aorta(), more.aorta()),
                whole.wideAneurysm() || more.wideAneurysm(),
                whole.commonHere().orWorse(more.commonHere()),
                whole.commonThere().orWorse(more.commonThere()),
                together(whole.externalHere(), more.externalHere()),
                together(whole.externalThere(), more.externalThere()),
                whole.femoralHere() || more.femoralHere());
    }

    /** A lesion as if it were the only one. */
    private Whole alone(Seen seen) {
        var counts = seen.narrowing().counts();
        var common = counts && seen.segment() == Segment.COMMON_ILIAC ? seen.narrowing() : Narrowing.NONE;
        var external = counts && seen.segment() == Segment.EXTERNAL_ILIAC
                ? new External(1, seen.length(), seen.narrowing() == Narrowing.OCCLUSION, seen.complex())
                : External.SOUND;
        return new Whole(
                counts && seen.segment() == Segment.INFRARENAL_AORTA ? aorta(seen) : Aorta.SOUND,
                seen.wide(),
                seen.here() ? common : Narrowing.NONE,
                seen.here() ? Narrowing.NONE : common,
                seen.here() ? external : External.SOUND,
                seen.here() ? External.SOUND : external,
                counts && seen.here() && seen.segment() == Segment.COMMON_FEMORAL);
    }

    private Aorta aorta(Seen seen) {
        if (seen.narrowing() == Narrowing.OCCLUSION) {
            return Aorta.CLOSED;
        }
        return seen.length() > shortAorta ? Aorta.LONG : Aorta.SHORT;
    }

    private static Aorta worse(Aorta one, Aorta other) {
        return one.compareTo(other) >= 0 ? one : other;
    }

    private External together(External one, External other) {
        return new External(
                Math.min(one.count() + other.count(), 2),
                Lengths.sum(one.total(), other.total(), longestExternal),
                one.closed() || other.closed(),
                one.complex() || other.complex());
    }

    @Override
    public Whole reduced(Whole whole) {
        return row(whole).type() == Tasc.D ? WORST : whole;
    }

    /** Lesions of each artery are remembered apart. */
    @Override
    public int group(Segment segment) {
        return segment.ordinal();
    }

    @Override
    public Whole settled(Whole whole, int group) {
        return group == Segment.EXTERNAL_ILIAC.ordinal()
                ? new Whole(
                        whole.aorta(),
                        whole.wideAneurysm(),
                        whole.commonHere(),
                        whole.commonThere(),
                        settledHere(whole.externalHere()),
                        settledThere(whole.externalThere()),
                        whole.femoralHere())
                : whole;
    }

    /** Of the length only the band between the limits matters. */
    private External settledHere(External external) {
        var total = external.total() > longestExternal
                ? longestExternal + 1
                : external.total() > shortExternal ? shortExternal + 1 : 0;
        return new External(
                total > 0 ? 1 : external.count(), total, external.closed(), external.closed() && external.complex());
    }

    private External settledThere(External external) {
        var total = external.total() > shortExternal ? shortExternal + 1 : 0;
        return new External(Math.min(external.count(), 1), total, external.closed(), false);
    }

    Tasc type(Whole whole) {
        return row(whole).type();
    }

    /** The most serious row that is met. */
    PrintedRow row(Whole whole) {
        var here = whole.externalHere();
        var there = whole.externalThere();
        var iliacHere = whole.commonHere().counts() || here.count() > 0;
        var iliacThere = whole.commonThere().counts() || there.count() > 0;
        if (whole.aorta() == Aorta.CLOSED) {
            return d("the aorta below the kidneys is closed");
        }
        if (whole.aorta() == Aorta.LONG && iliacHere && iliacThere) {
            return d("long disease of the aorta with disease of the iliac arteries of both sides");
        }
        if (whole.wideAneurysm() && (iliacHere || iliacThere)) {
            return d("iliac disease beside an aneurysm of the aorta of a size that is treated; whether a stent graft is"
                    + " possible is for the clinician");
        }
        if (whole.commonHere().counts() && here.count() > 0 && whole.femoralHere()) {
            return d("disease of the common iliac, the external iliac and the common femoral artery of one side");
        }
        if (whole.commonHere() == Narrowing.OCCLUSION && here.closed()) {
            return d("common and external iliac artery of one side are closed");
        }
        if (here.closed() && there.closed()) {
            return d("the external iliac arteries of both sides are closed");
        }
        return c(whole);
    }

    private PrintedRow c(Whole whole) {
        var here = whole.externalHere();
        if (whole.commonHere() == Narrowing.OCCLUSION && whole.commonThere() == Narrowing.OCCLUSION) {
            return new PrintedRow(Tasc.C, "the common iliac arteries of both sides are closed");
        }
        if (here.closed() && whole.femoralHere()) {
            return new PrintedRow(Tasc.C, "closed external iliac artery, the common femoral artery involved");
        }
        if (here.complex()) {
            return new PrintedRow(
                    Tasc.C, "closed external iliac artery, from the origin of the internal iliac or heavily calcified");
        }
        if (here.count() > 0 && whole.femoralHere()) {
            return new PrintedRow(Tasc.C, "narrowed external iliac artery, running into the common femoral artery");
        }
        if (here.total() > shortExternal && whole.externalThere().total() > shortExternal) {
            return new PrintedRow(
                    Tasc.C, "narrowed external iliac arteries of both sides, more than a short piece each");
        }
        if (here.total() > longestExternal) {
            return new PrintedRow(
                    Tasc.C,
                    "external iliac disease longer than any printed row has; no printed row fits, the next more serious"
                            + " type stands in");
        }
        if (whole.aorta() == Aorta.LONG) {
            return new PrintedRow(
                    Tasc.C,
                    "narrowing of the aorta longer than the printed row has; no printed row fits, the next more serious"
                            + " type stands in");
        }
        return b(whole);
    }

    private PrintedRow b(Whole whole) {
        var here = whole.externalHere();
        if (whole.commonHere() == Narrowing.OCCLUSION) {
            return new PrintedRow(Tasc.B, "the common iliac artery of one side is closed");
        }
        if (here.closed()) {
            return new PrintedRow(
                    Tasc.B,
                    "the external iliac artery of one side is closed, origin of the internal iliac and common femoral"
                            + " artery free");
        }
        if (here.total() > shortExternal) {
            return new PrintedRow(
                    Tasc.B, "narrowed external iliac artery of middle length, the common femoral artery free");
        }
        if (here.count() > 1) {
            return new PrintedRow(
                    Tasc.B,
                    "several short narrowings of the external iliac artery; no printed row fits, the next more serious"
                            + " type stands in");
        }
        if (whole.aorta() == Aorta.SHORT) {
            return new PrintedRow(Tasc.B, "short narrowing of the aorta below the kidneys");
        }
        return a(whole);
    }

    private static PrintedRow a(Whole whole) {
        if (whole.commonHere() == Narrowing.STENOSIS) {
            return new PrintedRow(Tasc.A, "narrowed common iliac artery");
        }
        if (whole.externalHere().count() > 0) {
            return new PrintedRow(Tasc.A, "a single short narrowing of the external iliac artery");
        }
        return new PrintedRow(Tasc.NONE, "no printed row fits: nothing that the table classifies is narrowed");
    }

    private static PrintedRow d(String text) {
        return new PrintedRow(Tasc.D, text);
    }
}
