package limbqueue.forecast;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.DiscreteSampler;
import org.apache.commons.rng.sampling.distribution.PoissonSampler;
import org.apache.commons.rng.simple.RandomSource;

/** Random numbers that are the same whenever the seed is. */
final class Randomness {

    /** Below this mean nobody comes in any number of weeks that is of interest. */
    private static final double NOBODY = 1e-12;

    private Randomness() {}

    /** A source for each of so many runs, none of which knows anything of the others. */
    static UniformRandomProvider[] forRuns(int runs, long seed) {
        var seeds = RandomSource.SPLIT_MIX_64.create(seed);
        var sources = new UniformRandomProvider[runs];
        for (var run = 0; run < runs; run++) {
            sources[run] = RandomSource.XO_SHI_RO_256_PP.create(seeds.nextLong());
        }
        return sources;
    }

    /** Numbers with a Poisson distribution of this mean, 0 or more. */
    static DiscreteSampler poisson(UniformRandomProvider random, double mean) {
        return mean < NOBODY ? () -> 0 : PoissonSampler.of(random, mean);
    }
}
