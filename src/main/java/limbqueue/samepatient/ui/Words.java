package limbqueue.samepatient.ui;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import limbqueue.document.FormatField;
import limbqueue.referral.ReferralState;
import limbqueue.samepatient.Likeness;
import limbqueue.samepatient.PersonFacts;
import tools.jackson.databind.JsonNode;

/** People, fields and their values in words. */
final class Words {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final int LONGEST = 240;

    private Words() {}

    static String date(LocalDate date) {
        return DATE.format(date);
    }

    static String name(PersonFacts person) {
        var name = (person.given() + " " + person.family()).strip();
        return name.isEmpty() ? "No name yet" : name;
    }

    static String person(PersonFacts person) {
        return name(person) + person.born().map(born -> ", born " + date(born)).orElse("");
    }

    /** How likely, as a sentence begins. */
    static String likely(Likeness likeness) {
        var words = likeness.worthALook() ? likeness.words() : "hardly";
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    static String of(ReferralState state) {
        return switch (state) {
            case DRAFT -> "to complete";
            case QUEUED -> "with the physician";
            case INFORMATION_NEEDED -> "information needed";
            case APPROVED -> "approved";
            case RETURNED -> "returned";
            case SENT_TO_HOSPITAL -> "sent to hospital";
        };
    }

    static String field(String place) {
        return FormatField.at(place)
                .map(FormatField::title)
                .or(() -> FormatField.titleOf(place))
                .orElse(place);
    }

    /** A value as it was typed; a long one is cut, a list is its entries. */
    static String value(String place, Optional<JsonNode> value) {
        if (value.isEmpty()) {
            return "not known";
        }
        var unit = FormatField.at(place)
                .flatMap(FormatField::unit)
                .map(known -> " " + known)
                .orElse("");
        var words = value.get().isArray() && value.get().isEmpty() ? "none" : plain(value.get()) + unit;
        return words.length() <= LONGEST
                ? words
                : words.codePoints()
                                .limit(LONGEST)
                                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                        + " …";
    }

    private static String plain(JsonNode value) {
        if (value.isBoolean()) {
            return value.booleanValue() ? "yes" : "no";
        }
        if (value.isArray()) {
            return StreamSupport.stream(value.spliterator(), false)
                    .map(Words::plain)
                    .collect(Collectors.joining("; "));
        }
        if (value.isObject()) {
            return value.properties().stream()
                    .map(java.util.Map.Entry::getValue)
                    .map(Words::plain)
                    .collect(Collectors.joining(", "));
        }
        return value.asString();
    }
}
