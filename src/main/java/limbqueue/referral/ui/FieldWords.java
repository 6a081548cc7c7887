package limbqueue.referral.ui;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Day;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Given;
import limbqueue.referral.ui.FieldKind.Text;
import limbqueue.referral.ui.FieldKind.YesNo;
import tools.jackson.databind.JsonNode;

/** The fields of a referral and their values, in the words that the form uses. */
final class FieldWords {

    /** By path, the side written as {@code {side}} and the number of an entry left out. */
    private static final Map<String, Named> NAMED = named();

    private static final Pattern SIDE = Pattern.compile("^(legs|armPressures)\\.(left|right)\\b");
    private static final Pattern ENTRY = Pattern.compile("\\[(\\d+)]");

    /** @param entry what an entry is called, for the field of an entry; else empty */
    private record Named(FormField field, String entry) {}

    private FieldWords() {}

    /**
     * The field at {@code path} in words, as {@code left leg, toe pressure} or {@code procedure 1, report held}. A path
     * that the form does not know is given back as it is.
     */
    static String of(String path) {
        var named = find(path);
        if (named.isEmpty()) {
            return path;
        }
        var field = named.get().field();
        var side = SIDE.matcher(path);
        if (side.find()) {
            return side.group(1).equals("legs")
                    ? side.group(2) + " leg, " + field.words()
                    : side.group(2) + " " + field.words();
        }
        var entry = ENTRY.matcher(path);
        if (entry.find()) {
            return named.get().entry() + " " + (Integer.parseInt(entry.group(1)) + 1) + ", " + field.words();
        }
        return field.words();
    }

    /**
     * The value at {@code path} in words, as {@code yes}, {@code 30 mmHg} or {@code shallow}; what is odd as it stands.
     */
    static String value(String path, JsonNode value) {
        if (value.isNull()) {
            return "not known";
        }
        var plain = value.isString() ? value.stringValue() : value.toString();
        return definition(path)
                .map(field -> switch (field.kind()) {
                    case YesNo _ -> value.isBoolean() ? (value.booleanValue() ? "yes" : "no") : plain;
                    case Choice choice -> choice.labelOf(plain).orElse(plain);
                    case Amount amount -> amount.unit().isEmpty() ? plain : plain + " " + amount.unit();
                    case Day _ -> TierWords.date(plain);
                    case Text _, Given _ -> plain;
                    case Entries entries ->
                        value.isArray() && value.isEmpty() ? entries.none().toLowerCase(Locale.ROOT) : plain;
                })
                .orElse(plain);
    }

    /** The field of the form at {@code path}. */
    static Optional<FormField> definition(String path) {
        return find(path).map(Named::field);
    }

    private static Optional<Named> find(String path) {
        var pattern = SIDE.matcher(path).replaceFirst("$1.{side}");
        return Optional.ofNullable(NAMED.get(ENTRY.matcher(pattern).replaceAll("[]")));
    }

    private static Map<String, Named> named() {
        var byPath = new HashMap<String, Named>();
        for (var field : ReferralFields.all()) {
            byPath.put(field.path(), new Named(field, ""));
            if (field.kind() instanceof Entries entries) {
                for (var inner : entries.fields()) {
                    byPath.put(field.path() + "[]." + inner.path(), new Named(inner, entries.entry()));
                }
            }
        }
        return Map.copyOf(byPath);
    }
}
