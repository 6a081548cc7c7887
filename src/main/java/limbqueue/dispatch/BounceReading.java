package limbqueue.dispatch;

import java.util.Optional;

/** What a message that came back says. */
sealed interface BounceReading {

    /**
     * A message was not delivered.
     *
     * @param message which one, if it was one of ours
     * @param recipient as the report names it; empty if it does not
     * @param status of RFC 3463, as {@code 5.1.1}; empty if the report has none
     * @param said what the other mail server said of it; empty if nothing
     */
    record Undelivered(Optional<MessageId> message, String recipient, String status, String said)
            implements BounceReading {}

    /** @param why it is no report of a message that was not delivered, in words for the office */
    record NoBounce(String why) implements BounceReading {}
}
