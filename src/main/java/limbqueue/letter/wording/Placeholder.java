package limbqueue.letter.wording;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What stands in a letter for what differs from letter to letter. */
public enum Placeholder {
    PATIENT(Shape.TEXT, "the patient's name"),
    RECEIVED(Shape.TEXT, "the day on which the referral arrived"),
    PHYSICIAN(Shape.TEXT, "who decided"),
    WORDS(Shape.LIST, "what the physician wrote for this letter, line by line"),
    QUESTIONS(Shape.LIST, "what is still to be known"),
    ANSWER_BY(Shape.PERHAPS, "the day by which an answer helps most"),
    HOW_SOON(Shape.TEXT, "how soon, as “within 14 days”"),
    DUE(Shape.PERHAPS, "the day by which it is planned, while that day has not passed"),
    OVERDUE(Shape.PERHAPS, "the day by which it should have been, once that day has passed"),
    LEGS(Shape.PERHAPS, "the leg or legs concerned"),
    GRADES(Shape.LIST, "how each leg is graded"),
    WANTED(Shape.LIST, "what the referring doctor can send"),
    MEASURES(Shape.LIST, "treatment to consider meanwhile"),
    APPOINTMENT(Shape.TEXT, "what the date is for"),
    DAY(Shape.TEXT, "the day of what the letter tells"),
    TIME(Shape.TEXT, "the time of the date"),
    PLACE(Shape.TEXT, "where it is"),
    PREPARE(Shape.LIST, "how the patient prepares for it"),
    OUTCOME(Shape.TEXT, "how the procedure ended"),
    PHONE(Shape.PERHAPS, "the practice's telephone number");

    /** How a placeholder is used. */
    public enum Shape {
        /** There is always one. */
        TEXT,
        /** It may not be known, so what needs it stands in a block. */
        PERHAPS,
        /** Several entries, or none: a block that has a line for each. */
        LIST
    }

    private final Shape shape;
    private final String meaning;

    Placeholder(Shape shape, String meaning) {
        this.shape = shape;
        this.meaning = meaning;
    }

    public Shape shape() {
        return shape;
    }

    public String meaning() {
        return meaning;
    }

    /** As it is written between braces: {@code how-soon}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static Optional<Placeholder> labelled(String label) {
        return Arrays.stream(values()).filter(one -> one.label().equals(label)).findFirst();
    }
}
