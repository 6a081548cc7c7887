package limbqueue.dispatch;

import java.util.Optional;
import limbqueue.directory.ReachedBy;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/** The mail address of a gateway that faxes what it gets, as {@code {number}@fax.example}. */
@Component
class FaxGateway {

    private static final String NUMBER = "{number}";

    private final String pattern;

    /** @throws IllegalArgumentException if a pattern is set that makes no e-mail address */
    FaxGateway(@Value("${limbqueue.dispatch.fax-gateway}") String pattern) {
        this.pattern = pattern.strip();
        if (!this.pattern.isEmpty()
                && (!this.pattern.contains(NUMBER)
                        || ReachedBy.wrongWithEmail(address("0555012201")).isPresent())) {
            throw new IllegalArgumentException(
                    "limbqueue.dispatch.fax-gateway is “" + pattern + "”; write it as {number}@fax.example");
        }
    }

    /** What is to be done while there is none. */
    Optional<String> missing() {
        return pattern.isEmpty()
                ? Optional.of(
                        "No fax gateway is set up here. Fax it by hand and mark it as sent, or send it another way.")
                : Optional.empty();
    }

    /** The mail address that has this number dialled. */
    String address(String number) {
        return pattern.replace(NUMBER, ReachedBy.dialled(number));
    }
}
