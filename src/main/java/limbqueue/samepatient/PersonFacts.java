package limbqueue.samepatient;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.document.Draft;
import tools.jackson.databind.JsonNode;

/**
 * What a referral says of who the patient is, as it was typed.
 *
 * @param phone as typed; empty if not known
 */
public record PersonFacts(
        String given, String family, Optional<LocalDate> born, String phone, List<Identifier> identifiers) {

    /** @param system who gave the number out; empty if not known */
    public record Identifier(String system, String value) {}

    /** Digits at the end of a telephone number that are the same with and without the code of the country. */
    static final int PHONE_END = 9;

    private static final int SHORTEST_PHONE = 7;

    public PersonFacts {
        identifiers = List.copyOf(identifiers);
    }

    static PersonFacts of(Draft document) {
        var identifiers = new ArrayList<Identifier>();
        for (var i = 0; i < document.sizeOf("patient.identifiers").orElse(0); i++) {
            var value = text(document, "patient.identifiers[" + i + "].value");
            if (!value.isEmpty()) {
                identifiers.add(new Identifier(text(document, "patient.identifiers[" + i + "].system"), value));
            }
        }
        return new PersonFacts(
                text(document, "patient.given"),
                text(document, "patient.family"),
                date(text(document, "patient.born")),
                text(document, "patient.phone"),
                identifiers);
    }

    private static String text(Draft document, String path) {
        return document.get(path)
                .filter(JsonNode::isValueNode)
                .map(JsonNode::asString)
                .map(String::strip)
                .orElse("");
    }

    private static Optional<LocalDate> date(String typed) {
        try {
            return Optional.of(LocalDate.parse(typed));
        } catch (DateTimeParseException notADate) {
            return Optional.empty();
        }
    }

    /** The last digits of the telephone number; empty if it has too few to tell anybody by. */
    String phoneEnd() {
        var digits = phone.replaceAll("[^0-9]", "");
        return digits.length() < SHORTEST_PHONE ? "" : digits.substring(Math.max(0, digits.length() - PHONE_END));
    }

    /** Whether this is enough to look for the same person: a name with a birth date, a telephone number, or an identifier. */
    boolean enoughToCompare() {
        return !(given + family).isEmpty() && born.isPresent() || !phoneEnd().isEmpty() || !identifiers.isEmpty();
    }
}
