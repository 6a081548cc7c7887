package limbqueue.letter;

import java.time.LocalDateTime;
import limbqueue.booking.StepKind;
import limbqueue.letter.jdbc.LetterStore.StandingVisit;

/**
 * A date that a patient has, as a letter tells of it.
 *
 * @param starts on the clock of the practice
 * @param place the room
 */
record Visit(StepKind step, LocalDateTime starts, String place) {

    /** Nobody keeps an appointment at 08:27: patients come at the full five minutes before (common practice, no source). */
    private static final int MINUTES = 5;

    /** @param expected when the patient is expected, if all before take as long as expected */
    static Visit expected(StepKind step, LocalDateTime expected, String place) {
        return new Visit(step, expected.minusMinutes(expected.getMinute() % MINUTES), place);
    }

    static Visit of(limbqueue.timetable.Visit kept) {
        return expected(
                kept.placed().step(), kept.at(), kept.session().session().place());
    }

    boolean isToldBy(StandingVisit letter) {
        return letter.at().equals(starts) && letter.text().contains(Typed.line(place));
    }
}
