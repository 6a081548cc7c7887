package limbqueue.timetable;

import java.time.LocalDateTime;
import limbqueue.booking.StepKind;

/**
 * A patient was told of a date. Published within the transaction that noted it.
 *
 * @param starts when the patient is expected, on the clock of the practice
 * @param place the room
 */
public record AppointmentTold(long referralId, StepKind step, LocalDateTime starts, String place) {}
