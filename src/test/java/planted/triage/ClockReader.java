package planted.triage;

import org.springframework.core.env.Environment;

/** Breaks: the core knows the JDK alone. */
public final class ClockReader {

    private final Environment environment;

    public ClockReader(Environment environment) {
        this.environment = environment;
    }

    public java.time.LocalDate today() {
        return java.time.LocalDate.now(java.time.ZoneId.of("UTC"));
    }

    public String zone() {
        return environment.getProperty("zone", "");
    }
}
