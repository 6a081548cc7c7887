package limbqueue.letter.wording;

import static limbqueue.letter.wording.Placeholder.ANSWER_BY;
import static limbqueue.letter.wording.Placeholder.APPOINTMENT;
import static limbqueue.letter.wording.Placeholder.DAY;
import static limbqueue.letter.wording.Placeholder.DUE;
import static limbqueue.letter.wording.Placeholder.GRADES;
import static limbqueue.letter.wording.Placeholder.HOW_SOON;
import static limbqueue.letter.wording.Placeholder.LEGS;
import static limbqueue.letter.wording.Placeholder.MEASURES;
import static limbqueue.letter.wording.Placeholder.OUTCOME;
import static limbqueue.letter.wording.Placeholder.OVERDUE;
import static limbqueue.letter.wording.Placeholder.PATIENT;
import static limbqueue.letter.wording.Placeholder.PHONE;
import static limbqueue.letter.wording.Placeholder.PHYSICIAN;
import static limbqueue.letter.wording.Placeholder.PLACE;
import static limbqueue.letter.wording.Placeholder.PREPARE;
import static limbqueue.letter.wording.Placeholder.QUESTIONS;
import static limbqueue.letter.wording.Placeholder.RECEIVED;
import static limbqueue.letter.wording.Placeholder.TIME;
import static limbqueue.letter.wording.Placeholder.WANTED;
import static limbqueue.letter.wording.Placeholder.WORDS;

import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.LetterKind;

/**
 * The placeholders of a kind of letter.
 *
 * @param needed without which the letter would not say what it is for
 * @param besides that it may have
 */
public record Slots(Set<Placeholder> needed, Set<Placeholder> besides) {

    public static Slots of(LetterKind kind) {
        return switch (kind) {
            case RECEIVED -> slots(EnumSet.of(PATIENT, RECEIVED), EnumSet.of(PHONE));
            case INFORMATION_NEEDED ->
                slots(EnumSet.of(PATIENT, WORDS, QUESTIONS), EnumSet.of(PHYSICIAN, ANSWER_BY, RECEIVED, PHONE));
            case TRIAGED ->
                slots(
                        EnumSet.of(PATIENT, HOW_SOON, DUE, OVERDUE, GRADES, MEASURES),
                        EnumSet.of(PHYSICIAN, LEGS, WANTED, RECEIVED, PHONE));
            case ADVICE -> slots(EnumSet.of(PATIENT, MEASURES), EnumSet.of(PHYSICIAN, GRADES, RECEIVED, PHONE));
            case SENT_TO_HOSPITAL ->
                slots(EnumSet.of(PATIENT, DAY, WORDS), EnumSet.of(PHYSICIAN, LEGS, GRADES, RECEIVED, PHONE));
            case RETURNED -> slots(EnumSet.of(PATIENT, WORDS), EnumSet.of(PHYSICIAN, RECEIVED, PHONE));
            case BOOKED, CHANGED -> slots(EnumSet.of(PATIENT, APPOINTMENT, DAY, TIME, PLACE), EnumSet.of(PHONE));
            case CANCELLED -> slots(EnumSet.of(PATIENT, APPOINTMENT, DAY), EnumSet.of(TIME, PLACE, PHONE));
            case DONE -> slots(EnumSet.of(PATIENT, DAY, OUTCOME), EnumSet.of(MEASURES, PHONE));
            case PATIENT_APPOINTMENT, PATIENT_CHANGED ->
                slots(EnumSet.of(APPOINTMENT, DAY, TIME, PLACE, PREPARE), EnumSet.of(PHONE));
            case PATIENT_CANCELLED -> slots(EnumSet.of(APPOINTMENT, DAY), EnumSet.of(TIME, PLACE, PHONE));
        };
    }

    /** Whether the letter may have it. */
    public boolean allow(Placeholder placeholder) {
        return needed.contains(placeholder) || besides.contains(placeholder);
    }

    /** All that the letter may have, as they are written. */
    String labels() {
        return Stream.of(needed, besides)
                .flatMap(Set::stream)
                .sorted()
                .map(one -> "{{" + one.label() + "}}")
                .collect(Collectors.joining(", "));
    }

    private static Slots slots(Set<Placeholder> needed, Set<Placeholder> besides) {
        return new Slots(needed, besides);
    }
}
