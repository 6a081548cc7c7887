package limbqueue.dispatch;

import java.util.List;
import java.util.Optional;

/** Whether the post can carry a letter to what is printed on it. */
final class PostalAddress {

    /** A name, and a line that says where; a postal address has no fewer (common practice, no source). */
    private static final int FEWEST_LINES = 3;

    /** The address zone of DIN 5008 has six lines (din-5008-richtlinien.de, Anschriftenfeld). */
    static final int MOST_LINES = 6;

    private PostalAddress() {}

    /** @param addressee the lines of the letter: name, organisation, street, town */
    static Optional<String> wrongWith(List<String> addressee) {
        if (addressee.size() < FEWEST_LINES) {
            return Optional.of(
                    "The letter names no street or town: it is addressed to “" + String.join(", ", addressee) + "”.");
        }
        if (addressee.size() > MOST_LINES) {
            return Optional.of("The address has " + addressee.size() + " lines, and the window of the envelope shows "
                    + MOST_LINES + ".");
        }
        return Optional.empty();
    }
}
