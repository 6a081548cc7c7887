package limbqueue.prospect;

import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;
import java.util.function.Consumer;
import limbqueue.forecast.WeeklySession;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Component;

/**
 * Works out simulations beside everything else, one after the other, so that no page waits for them and not all processors are
 * theirs.
 */
@Component
public class Simulations {

    private static final Logger LOG = LoggerFactory.getLogger(Simulations.class);

    private final Executor oneByOne = Executors.newSingleThreadExecutor(
            Thread.ofPlatform().name("simulation").daemon().factory());

    /**
     * Comes back at once.
     *
     * @param more tried in addition, in every week
     * @param then is given the simulation in another thread; nothing where it could not be worked out, which the log says
     */
    public void begin(Basis.Given basis, WeeklySession more, Consumer<Optional<Simulation>> then) {
        oneByOne.execute(() -> then.accept(worked(basis, more)));
    }

    private static Optional<Simulation> worked(Basis.Given basis, WeeklySession more) {
        try {
            return Optional.of(Simulation.of(basis, more));
        } catch (RuntimeException failed) {
            LOG.atWarn().setCause(failed).log("no simulation could be worked out");
            return Optional.empty();
        }
    }
}
