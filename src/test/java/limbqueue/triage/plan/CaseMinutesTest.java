package limbqueue.triage.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import limbqueue.triage.plan.CaseFeatures.CaseClass;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;

/**
 * Expected values are worked by hand from the amounts in the file of thresholds (common practice) and the update of the
 * normal model with unknown mean and variance: with prior sizes both k, prior mean 0 and variance v, and n cases of
 * mean m, the mean is n m / (k + n), the variance (k v + sum of squares + k n / (k + n) m^2) / (k + n). Gelman et
 * al., Bayesian Data Analysis, section 3.3, value from memory.
 */
class CaseMinutesTest {

    private static final CaseMinutes PRIOR =
            CaseMinutes.prior(RuleBook.shipped().on(LocalDate.of(2026, 3, 2)));

    /** Quantile of 90 % of the standard normal distribution, of any table: 1.2816. */
    private static final double NINETY = 1.2816;

    /** 45 for the room, 20 for the lesion, 3 for its 30 mm. */
    private static final CaseFeatures NARROWED = new CaseFeatures(1, 0, false, 30, 0, false, false);

    /** 45 for the room, 45 for the lesion, 6 for its 60 mm. */
    private static final CaseFeatures CLOSED = new CaseFeatures(0, 1, true, 60, 0, false, false);

    private static List<RecordedCase> cases(CaseFeatures features, double... minutes) {
        return java.util.Arrays.stream(minutes)
                .mapToObj(each -> new RecordedCase(features, each))
                .toList();
    }

    @Test
    void thePriorAddsUpWhatACaseHas() {
        assertThat(PRIOR.of(NARROWED).median()).isCloseTo(68, within(1e-9));
        assertThat(PRIOR.of(NARROWED).ninety()).isCloseTo(102, within(1e-9));
        assertThat(PRIOR.of(CLOSED).median()).isCloseTo(96, within(1e-9));
        assertThat(PRIOR.of(CLOSED).ninety()).isCloseTo(172.8, within(1e-9));
        // 45 + 2 * 20 + 45 + 250 / 100 * 10 + 2 * 15 + 30 + 15
        assertThat(PRIOR.of(new CaseFeatures(2, 1, false, 250, 2, true, true)).median())
                .isCloseTo(230, within(1e-9));
        assertThat(PRIOR.beforeImaging()).isEqualTo(new CaseMinutes.Minutes(90, 225));
    }

    @Test
    void aCaseBelongsToTheClassOfItsOcclusions() {
        assertThat(NARROWED.caseClass()).isEqualTo(CaseClass.NARROWED);
        assertThat(CLOSED.caseClass()).isEqualTo(CaseClass.CLOSED_ABOVE_GROIN);
        assertThat(new CaseFeatures(1, 1, false, 0, 0, false, false).caseClass())
                .isEqualTo(CaseClass.CLOSED_BELOW_GROIN);
    }

    @Test
    void withoutCasesThePriorStands() {
        assertThat(PRIOR.learned(List.of()).of(NARROWED)).isEqualTo(PRIOR.of(NARROWED));
        assertThat(PRIOR.learned(cases(CLOSED, 200)).of(NARROWED)).isEqualTo(PRIOR.of(NARROWED));
        assertThat(PRIOR.learned(cases(CLOSED, 200)).beforeImaging()).isEqualTo(PRIOR.beforeImaging());
    }

    /**
     * Ten cases that all took e^0.2 of the median: mean 10 * 0.2 / 20 = 0.1. Prior variance (ln 1.5 / 1.2816)^2 =
     * 0.100093; variance (10 * 0.100093 + 0 + 5 * 0.04) / 20 = 0.060047, its root 0.245045.
     */
    @Test
    void asManyCasesAsThePriorHasMoveHalfTheWay() {
        var minutes = 68 * Math.exp(0.2);
        var learned = PRIOR.learned(Collections.nCopies(10, new RecordedCase(NARROWED, minutes)))
                .of(NARROWED);
        assertThat(learned.median()).isCloseTo(75.1516, within(0.001));
        assertThat(learned.ninety()).isCloseTo(75.1516 * Math.exp(NINETY * 0.245045), within(0.01));
    }

    /**
     * Two cases, one e^0.3 and one e^-0.1 of the median: mean 0.1, squares 2 * 0.04 = 0.08; posterior mean 2 * 0.1 /
     * 12 = 0.0166667. Prior variance (ln 1.8 / 1.2816)^2 = 0.210346; variance (2.10346 + 0.08 + 20 / 12 * 0.01) / 12
     * = 0.183344, its root 0.428187.
     */
    @Test
    void twoCasesMoveALittle() {
        var learned = PRIOR.learned(cases(CLOSED, 96 * Math.exp(0.3), 96 * Math.exp(-0.1)))
                .of(CLOSED);
        assertThat(learned.median()).isCloseTo(96 * 1.016806, within(0.001));
        assertThat(learned.ninety()).isCloseTo(96 * 1.016806 * Math.exp(NINETY * 0.428187), within(0.01));
    }

    /** What is learned is a factor, so it holds for every case of the class. */
    @Test
    void theFactorHoldsForTheWholeClass() {
        var longer = new CaseFeatures(0, 2, true, 200, 1, false, true);
        var learned = PRIOR.learned(cases(CLOSED, 120, 130, 110));
        assertThat(learned.of(longer).median() / PRIOR.of(longer).median())
                .isCloseTo(learned.of(CLOSED).median() / PRIOR.of(CLOSED).median(), within(1e-12));
    }

    @Test
    void manyCasesLeaveThePriorBehind() {
        var random = new Random(7);
        var many = Stream.generate(() -> new RecordedCase(CLOSED, 140 * Math.exp(0.2 * random.nextGaussian())))
                .limit(20_000)
                .toList();
        var learned = PRIOR.learned(many).of(CLOSED);
        assertThat(learned.median()).isCloseTo(140, within(1.0));
        assertThat(learned.ninety()).isCloseTo(140 * Math.exp(0.2 * NINETY), within(2.0));
    }

    /**
     * A clock left running overnight counts as three standard deviations: 3 * ln 1.5 / 1.2816 = 0.949122, over 11
     * cases.
     */
    @Test
    void oneOutlierMovesLittle() {
        assertThat(PRIOR.learned(cases(NARROWED, 900)).of(NARROWED).median())
                .isCloseTo(68 * Math.exp(0.949122 / 11), within(0.01));
        assertThat(PRIOR.learned(cases(NARROWED, 1)).of(NARROWED).median())
                .isCloseTo(68 * Math.exp(-0.949122 / 11), within(0.01));
    }

    @Test
    void theOrderOfCasesDoesNotMatter() {
        var random = new Random(11);
        var cases = new ArrayList<RecordedCase>();
        for (var i = 0; i < 200; i++) {
            cases.add(new RecordedCase(i % 2 == 0 ? NARROWED : CLOSED, 30 + 200 * random.nextDouble()));
        }
        var once = PRIOR.learned(cases);
        Collections.shuffle(cases, random);
        var again = PRIOR.learned(cases);
        assertThat(again.of(NARROWED)).isEqualTo(once.of(NARROWED));
        assertThat(again.of(CLOSED)).isEqualTo(once.of(CLOSED));
    }

    @Test
    void whatIsNoCaseIsRefused() {
        for (var minutes : List.of(0.0, -5.0, Double.NaN, Double.POSITIVE_INFINITY)) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new RecordedCase(NARROWED, minutes))
                    .withMessageContaining("more than 0 minutes");
        }
        assertThat(new RecordedCase(NARROWED, 0.5).minutes()).isEqualTo(0.5);
        for (var length : List.of(-1.0, Double.NaN, Double.POSITIVE_INFINITY)) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new CaseFeatures(1, 0, false, length, 0, false, false));
        }
        assertThatIllegalArgumentException().isThrownBy(() -> new CaseFeatures(-1, 0, false, 1, 0, false, false));
        assertThatIllegalArgumentException().isThrownBy(() -> new CaseFeatures(0, -1, false, 1, 0, false, false));
        assertThatIllegalArgumentException().isThrownBy(() -> new CaseFeatures(0, 0, false, 1, -1, false, false));
    }
}
