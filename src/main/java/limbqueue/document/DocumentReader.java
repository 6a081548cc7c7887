package limbqueue.document;

import java.io.InputStream;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;

/**
 * Reads the referrals of a file one by one, so that a large file is never held as a whole. The file holds one referral
 * or a list of them; in a list, the paths of problems begin with the place in the list, as {@code [3].legs.left.abi}.
 * Not safe for use by several threads at once.
 */
public final class DocumentReader implements AutoCloseable {

    private enum Place {
        BEFORE,
        IN_LIST,
        AFTER
    }

    private final JsonParser parser;
    private final LocalDate today;
    private Place place = Place.BEFORE;
    private int entry;

    /**
     * @param json the text of the file, in UTF-8; closed with this reader
     * @param today dates of things past must not lie after this day
     */
    public DocumentReader(InputStream json, LocalDate today) {
        this.parser = JsonText.parser(json);
        this.today = today;
    }

    /**
     * The next referral, or empty after the last. Where the text breaks off being JSON, one last reading tells line and
     * column.
     *
     * @throws tools.jackson.core.exc.JacksonIOException if the file cannot be read
     */
    public Optional<Reading> next() {
        return take().map(Supplier::get);
    }

    /**
     * The next referral, or empty after the last, taken from the file but not yet read: that is done when it is asked for,
     * by whatever thread.
     *
     * @throws tools.jackson.core.exc.JacksonIOException if the file cannot be read
     */
    public Optional<Supplier<Reading>> take() {
        try {
            return switch (place) {
                case BEFORE -> first();
                case IN_LIST -> entry();
                case AFTER -> Optional.empty();
            };
        } catch (JacksonException broken) {
            place = Place.AFTER;
            return unreadable(JsonText.whatIsBroken(broken));
        }
    }

    private static Optional<Supplier<Reading>> unreadable(String text) {
        var reading = DocumentFormat.unreadable(text);
        return Optional.of(() -> reading);
    }

    private Optional<Supplier<Reading>> first() {
        var token = parser.nextToken();
        if (token == null) {
            place = Place.AFTER;
            return unreadable("The file is empty.");
        }
        if (token == JsonToken.START_ARRAY) {
            place = Place.IN_LIST;
            return entry();
        }
        var value = JsonText.value(parser);
        place = Place.AFTER;
        return more().or(() -> Optional.of(() -> DocumentFormat.read(value, today)));
    }

    private Optional<Supplier<Reading>> entry() {
        if (parser.nextToken() == JsonToken.END_ARRAY) {
            place = Place.AFTER;
            return more();
        }
        var value = JsonText.value(parser);
        var outer = FieldPath.entry("", entry++);
        return Optional.of(() -> within(outer, DocumentFormat.read(value, today)));
    }

    private static Reading within(String outer, Reading reading) {
        List<Problem> problems = reading.problems().stream()
                .map(problem -> new Problem(FieldPath.within(outer, problem.path()), problem.text()))
                .toList();
        return new Reading(reading.document(), problems);
    }

    /** The complaint about text after the end, if there is any. */
    private Optional<Supplier<Reading>> more() {
        if (parser.nextToken() == null) {
            return Optional.empty();
        }
        return unreadable(JsonText.place(parser.currentTokenLocation()) + DocumentFormat.MORE_AFTER_THE_END);
    }

    @Override
    public void close() {
        parser.close();
    }
}
