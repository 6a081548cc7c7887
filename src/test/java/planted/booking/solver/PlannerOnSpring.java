package planted.booking.solver;

import org.springframework.core.env.Environment;

/** Breaks: the planner knows its model and the solver. */
public final class PlannerOnSpring {

    private final Environment environment;

    public PlannerOnSpring(Environment environment) {
        this.environment = environment;
    }

    public String seed() {
        return environment.getProperty("seed", "1");
    }
}
