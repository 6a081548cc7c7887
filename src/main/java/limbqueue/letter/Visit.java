package limbqueue.letter;

import java.time.LocalDateTime;
import limbqueue.booking.StepKind;

/**
 * A date that a patient has, as a letter tells of it.
 *
 * @param starts on the clock of the practice
 * @param place the room
 */
record Visit(StepKind step, LocalDateTime starts, String place) {}
