package limbqueue.prospect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import limbqueue.triage.plan.CaseMinutes.Minutes;
import org.apache.commons.statistics.distribution.LogNormalDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

class PooledMinutesTest {

    @Test
    void casesThatAreAlikeAreAsEachOfThem() {
        var one = new Minutes(70, 120);
        var pooled = PooledMinutes.of(List.of(one, one, one));
        assertThat(pooled.median()).isCloseTo(70, within(1e-9));
        assertThat(pooled.ninety()).isCloseTo(120, within(1e-9));
    }

    /** Against logarithms drawn by a general library, of a case that is drawn first. */
    @Test
    void casesThatDifferHaveMeanAndSpreadOfAMixtureThatIsDrawn() {
        var cases = List.of(new Minutes(40, 60), new Minutes(60, 110), new Minutes(90, 130), new Minutes(150, 150.5));
        var z = NormalDistribution.of(0, 1).inverseCumulativeProbability(0.9);
        var random = new Random(7);
        var samples = cases.stream()
                .map(one -> LogNormalDistribution.of(
                        Math.log(one.median()), Math.max(1e-9, Math.log(one.ninety() / one.median()) / z)))
                .toList();
        var draws = 400_000;
        var sum = 0.0;
        var squares = 0.0;
        for (var draw = 0; draw < draws; draw++) {
            var of = samples.get(random.nextInt(samples.size()));
            var logarithm = Math.log(of.inverseCumulativeProbability(1 - random.nextDouble()));
            sum += logarithm;
            squares += logarithm * logarithm;
        }
        var mean = sum / draws;
        var spread = Math.sqrt(squares / draws - mean * mean);

        var pooled = PooledMinutes.of(cases);
        assertThat(Math.log(pooled.median())).isCloseTo(mean, within(0.005));
        assertThat(Math.log(pooled.ninety() / pooled.median()) / z).isCloseTo(spread, within(0.005));
    }

    @Test
    void theOrderOfTheCasesDoesNotMatter() {
        var cases = new ArrayList<Minutes>();
        for (var one = 1; one < 40; one++) {
            cases.add(new Minutes(30 + one * 1.7, 60 + one * 2.9));
        }
        var pooled = PooledMinutes.of(cases);
        Collections.shuffle(cases, new Random(3));
        assertThat(PooledMinutes.of(cases)).isEqualTo(pooled);
    }
}
