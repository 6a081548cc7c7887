package limbqueue.letter;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.print.EnvelopeWindow;
import limbqueue.print.Typeface;

/** Whether the post can carry a letter to what is printed on it, and the window of the envelope shows all of it. */
public final class PostalAddress {

    /** A name, and a line that says where; a postal address has no fewer (common practice, no source). */
    private static final int FEWEST_LINES = 3;

    private PostalAddress() {}

    /**
     * What is wrong with the address; nothing if the letter can be posted.
     *
     * @param addressee the lines of the letter: name, organisation, street, town
     */
    public static Optional<String> wrongWith(List<String> addressee, EnvelopeWindow window) {
        if (addressee.size() < FEWEST_LINES) {
            return Optional.of(
                    "The letter names no street or town: it is addressed to “" + String.join(", ", addressee) + "”.");
        }
        return tooLong(addressee, window);
    }

    /** What does not fit into the window of the envelope; nothing if all does. */
    public static Optional<String> tooLong(List<String> addressee, EnvelopeWindow window) {
        if (addressee.size() > window.lines().most()) {
            return Optional.of("The address has " + addressee.size() + " lines, and the window of the envelope shows "
                    + window.lines().most() + ".");
        }
        return addressee.stream()
                .filter(line -> width(line, window) > window.address().width())
                .findFirst()
                .map(line -> String.format(
                        Locale.ROOT,
                        "A line of the address is %.0f mm wide, and the window of the envelope shows %.0f mm: “%s”.",
                        Math.ceil(width(line, window)),
                        Math.floor(window.address().width()),
                        line));
    }

    private static double width(String line, EnvelopeWindow window) {
        return Typeface.width(line, window.lines().points());
    }
}
