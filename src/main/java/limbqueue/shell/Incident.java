package limbqueue.shell;

import java.security.SecureRandom;
import java.util.Locale;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Something that went wrong unforeseen: the screen shows its number, the log under the same number what it was. */
record Incident(String number) {

    private static final Logger LOG = LoggerFactory.getLogger(Incident.class);
    private static final SecureRandom RANDOM = new SecureRandom();

    static Incident log(Throwable cause) {
        var incident = new Incident(String.format(Locale.ROOT, "%08d", RANDOM.nextInt(100_000_000)));
        LOG.atError().addKeyValue("incident", incident.number()).setCause(cause).log("Incident {}", incident.number());
        return incident;
    }

    String sentence() {
        return "Something went wrong on our side. What was saved before is safe. Try once more; if it happens again, give"
                + " the incident number " + number
                + " to whoever looks after LimbQueue: the log names the cause under it.";
    }
}
