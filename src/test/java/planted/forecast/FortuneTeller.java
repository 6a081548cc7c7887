package planted.forecast;

import java.util.concurrent.ThreadLocalRandom;
import org.springframework.core.env.Environment;

/** Breaks: the forecast knows no configuration, and draws from its seed alone. */
public final class FortuneTeller {

    private final Environment environment;

    public FortuneTeller(Environment environment) {
        this.environment = environment;
    }

    public int waiting() {
        return ThreadLocalRandom.current().nextInt(environment.getProperty("most", Integer.class, 7));
    }
}
