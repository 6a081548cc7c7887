package limbqueue.document;

import com.networknt.schema.Error;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/** The words for what is wrong, made of the titles, units and hints that stand in the schema. */
final class ProblemWords {

    private static final String CHECK = " Check it, or leave it out if it is not known.";
    private static final MathContext THREE_DIGITS = new MathContext(3, RoundingMode.HALF_UP);
    private static final Pattern NUMBER = Pattern.compile("\\s*-?\\d{1,12}(?:[.,]\\d{1,6})?\\s*");

    private ProblemWords() {}

    /** @param part the part of the schema to which the broken keyword belongs */
    static String of(Error error, JsonNode part) {
        var value = error.getInstanceNode();
        return switch (error.getKeyword()) {
            case "type" -> wrongType(part, value);
            case "enum", "const" -> notAnAnswer(part, value);
            case "format", "pattern" ->
                isDate(part)
                        ? notADate(part, value)
                        : part.has("x-form") ? notOfTheForm(part, value) : notAName(part, value);
            case "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum" -> outOfRange(part, value);
            case "maxLength" ->
                "%s has %d characters, and at most %d are kept. Shorten it."
                        .formatted(
                                title(part),
                                value.asString().length(),
                                part.get("maxLength").intValue());
            case "maxItems" ->
                "%s: %d entries, and at most %d are kept. Remove some."
                        .formatted(
                                title(part), value.size(), part.get("maxItems").intValue());
            case "additionalProperties" -> unknownField(part, error.getProperty());
            case "required" -> "The field %s is missing. Add it.".formatted(JsonText.quoted(error.getProperty()));
            default -> title(part) + " " + JsonText.shown(value) + " is not possible here." + CHECK;
        };
    }

    static String title(JsonNode part) {
        var title = part.get("title");
        return title == null ? "This value" : title.stringValue();
    }

    private static String wrongType(JsonNode part, JsonNode value) {
        if (isDate(part)) {
            return notADate(part, value);
        }
        var wanted = switch (types(part).getFirst()) {
            case "number" -> "a number" + range(part);
            case "integer" -> "a whole number" + range(part);
            case "boolean" -> "true or false";
            case "array" -> "a list in square brackets";
            case "object" -> "a group of fields in curly brackets";
            default -> "text";
        };
        var words = "%s must be %s, not %s.".formatted(title(part), wanted, JsonText.shown(value));
        if (value.isString()
                && wanted.contains("number")
                && NUMBER.matcher(value.stringValue()).matches()) {
            return words + " Write it without quotes: "
                    + value.stringValue().strip().replace(',', '.') + ".";
        }
        return words + (wanted.equals("true or false") ? " Leave it out if it is not known." : "");
    }

    private static List<String> types(JsonNode part) {
        var type = part.get("type");
        if (type.isString()) {
            return List.of(type.stringValue());
        }
        return type.values().stream()
                .map(JsonNode::stringValue)
                .filter(name -> !name.equals("null"))
                .toList();
    }

    private static String notAnAnswer(JsonNode part, JsonNode value) {
        var answers = new ArrayList<String>();
        for (var answer : part.get("enum").values()) {
            if (!answer.isNull()) {
                answers.add(answer.stringValue());
            }
        }
        var words = "%s must be %s, not %s.".formatted(title(part), either(answers), JsonText.shown(value));
        return words
                + (value.isString() ? meant(value.stringValue(), answers) : Optional.<String>empty())
                        .map(" Did you mean %s?"::formatted)
                        .orElse("");
    }

    private static String either(List<String> answers) {
        return answers.size() < 2
                ? String.join("", answers)
                : String.join(", ", answers.subList(0, answers.size() - 1)) + " or " + answers.getLast();
    }

    private static boolean isDate(JsonNode part) {
        return part.has("x-latestDaysFromToday");
    }

    static String notADate(JsonNode part, JsonNode value) {
        return "%s %s is not a date of the calendar. Write it as year-month-day, such as 2026-03-02."
                .formatted(title(part), JsonText.shown(value));
    }

    private static String notOfTheForm(JsonNode part, JsonNode value) {
        return "%s %s is not possible. %s"
                .formatted(
                        title(part), JsonText.shown(value), part.get("x-form").stringValue());
    }

    private static String notAName(JsonNode part, JsonNode value) {
        return "%s %s is not possible: use letters, digits, points and hyphens, and at most 60 of them."
                .formatted(title(part), JsonText.shown(value));
    }

    private static String outOfRange(JsonNode part, JsonNode value) {
        var words = "%s %s%s is not possible: it lies%s."
                .formatted(title(part), JsonText.shown(value), unit(part), range(part));
        var number = value.decimalValue();
        var factors = part.get("x-likelyFactors");
        if (factors != null) {
            for (var factor : factors.values()) {
                // Only a number of ordinary size can be a slip of the point; the others could not even be printed.
                if (number.precision() < 20 && Math.abs(number.scale()) < 20) {
                    var likely = number.multiply(factor.decimalValue());
                    if (inRange(part, likely) && likely.signum() > 0) {
                        return words + " Was " + likely.stripTrailingZeros().toPlainString() + " meant?";
                    }
                }
            }
        }
        var likely = likelyUnit(part, number);
        if (likely.isPresent()) {
            return words + " " + likely.get();
        }
        var hint = part.get(number.compareTo(part.get("maximum").decimalValue()) > 0 ? "x-hintAbove" : "x-hintBelow");
        if (hint != null) {
            return words + " " + hint.stringValue();
        }
        return words + (mayBeLeftOut(part) ? CHECK : " Change it.");
    }

    /** Another unit of the same test in which the number is ordinary, with what it would be in the unit given. */
    private static Optional<String> likelyUnit(JsonNode part, BigDecimal number) {
        if (!part.has("x-likelyUnits")) {
            return Optional.empty();
        }
        for (var other : part.get("x-likelyUnits").values()) {
            if (inRange(other, number)) {
                var meant = JsonText.write(JsonNodeFactory.instance.numberNode(number)) + " "
                        + other.get("unit").stringValue();
                return Optional.of(
                        other.has("times")
                                ? "%s is likely, which is %s %s: check value and unit."
                                        .formatted(
                                                meant,
                                                number.multiply(other.get("times")
                                                                .decimalValue())
                                                        .round(THREE_DIGITS)
                                                        .toPlainString(),
                                                part.get("x-unit").stringValue())
                                : meant + " is likely: check value and unit.");
            }
        }
        return Optional.empty();
    }

    private static boolean mayBeLeftOut(JsonNode part) {
        return !part.has("type") || part.get("type").isArray();
    }

    private static boolean inRange(JsonNode part, BigDecimal number) {
        return number.compareTo(part.get("minimum").decimalValue()) >= 0
                && number.compareTo(part.get("maximum").decimalValue()) <= 0;
    }

    private static String range(JsonNode part) {
        if (part.has("minimum") && part.get("minimum").equals(part.get("maximum"))) {
            return " only at " + JsonText.write(part.get("minimum")) + unit(part);
        }
        return part.has("minimum") && part.has("maximum")
                ? " between " + JsonText.write(part.get("minimum")) + " and " + JsonText.write(part.get("maximum"))
                        + unit(part)
                : "";
    }

    private static String unit(JsonNode part) {
        var unit = part.get("x-unit");
        if (unit == null) {
            return "";
        }
        return (unit.stringValue().equals("%") ? "" : " ") + unit.stringValue();
    }

    private static String unknownField(JsonNode part, String name) {
        var fields = new ArrayList<String>(part.get("properties").propertyNames());
        var words = "There is no field %s in %s.".formatted(JsonText.quoted(name), JsonText.quoted(title(part)));
        return words
                + meant(name, fields)
                        .map(" Did you mean %s?"::formatted)
                        .orElseGet(() -> " Its fields are " + String.join(", ", fields) + ".");
    }

    /** The one of {@code words} that was probably meant by {@code typed}. */
    static Optional<String> meant(String typed, List<String> words) {
        if (typed.length() > 60) {
            return Optional.empty();
        }
        var closest = Optional.<String>empty();
        var least = Math.max(1, typed.length() / 3) + 1;
        for (var word : words) {
            var distance = distance(bare(typed), bare(word));
            if (distance < least) {
                least = distance;
                closest = Optional.of(word);
            }
        }
        return closest;
    }

    private static String bare(String word) {
        return word.toLowerCase(Locale.ROOT).replaceAll("[\\s_-]", "");
    }

    /** How many letters must be added, left out or replaced to make {@code b} of {@code a}. */
    private static int distance(String a, String b) {
        var row = new int[b.length() + 1];
        for (var j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (var i = 1; i <= a.length(); i++) {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.length(); j++) {
                var above = row[j];
                row[j] = Math.min(
                        Math.min(above, row[j - 1]) + 1, diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1));
                diagonal = above;
            }
        }
        return row[b.length()];
    }
}
