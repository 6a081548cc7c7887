package limbqueue.referral.ui;

import java.util.List;
import java.util.Optional;

/** What a field of the form holds, and so how it is asked. Every kind may be left unknown. */
sealed interface FieldKind {

    /** A clinical question with the answers yes and no. */
    record YesNo() implements FieldKind {}

    /** One of a few answers. */
    record Choice(List<Option> options) implements FieldKind {

        /**
         * @param code the value in the document
         * @param label the words on the screen
         */
        record Option(String code, String label) {}

        public Choice {
            options = List.copyOf(options);
        }

        Optional<String> labelOf(String code) {
            return options.stream()
                    .filter(option -> option.code().equals(code))
                    .map(Option::label)
                    .findFirst();
        }
    }

    /**
     * A number.
     *
     * @param unit as it stands behind the field; empty for a number without unit
     */
    record Amount(String unit) implements FieldKind {}

    /**
     * A calendar day.
     *
     * @param time whether a time of day may follow it
     */
    record Day(boolean time) implements FieldKind {}

    /**
     * Free text.
     *
     * @param lines how many lines the field shows; 1 for a single line
     */
    record Text(int lines) implements FieldKind {}

    /** Text that the practice gives out itself: shown, and not to be typed. */
    record Given() implements FieldKind {}

    /**
     * A list, which may also be answered with "none".
     *
     * @param entry what one entry is called
     * @param none the answer that there are none
     * @param fields the fields of one entry, their paths relative to the entry
     */
    record Entries(String entry, String none, List<FormField> fields) implements FieldKind {

        public Entries {
            fields = List.copyOf(fields);
        }
    }
}
