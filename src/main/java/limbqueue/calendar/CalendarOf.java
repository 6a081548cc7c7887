package limbqueue.calendar;

/**
 * Whose sessions a calendar has.
 *
 * @param name of the room or the operator, as sessions have it
 */
public record CalendarOf(Kind kind, String name) {

    public enum Kind {
        PLACE("room"),
        OPERATOR("operator");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** What it is called within a sentence. */
        public String word() {
            return word;
        }
    }

    /** As it is called within a sentence: {@code room Consulting room 1}. */
    public String words() {
        return kind.word() + " " + name;
    }
}
