package limbqueue.dispatch;

import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;

/**
 * The Message-ID of a letter: of one letter, channel and round it is always the same, so that a second attempt can be known as
 * one by whoever gets it (RFC 5322, section 3.6.4). It says nothing of the letter.
 *
 * @param round counts the times that a person has had the letter sent
 */
record MessageId(UUID token, int round) {

    private static final Pattern WRITTEN =
            Pattern.compile("<?([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})\\.([0-9]{1,6})@[^\\s>]+>?");

    /** With its angle brackets. */
    String at(String domain) {
        return "<" + token + "." + round + "@" + domain + ">";
    }

    /** The identifier in {@code text}, if it is one of ours. */
    static Optional<MessageId> read(String text) {
        var found = WRITTEN.matcher(text.strip());
        return found.matches()
                ? Optional.of(new MessageId(UUID.fromString(found.group(1)), Integer.parseInt(found.group(2))))
                : Optional.empty();
    }
}
