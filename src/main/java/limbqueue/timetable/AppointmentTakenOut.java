package limbqueue.timetable;

import limbqueue.booking.StepKind;

/**
 * A step lost its place, and has no other. Published within the transaction that took it out.
 *
 * @param place the room it was in
 */
public record AppointmentTakenOut(long referralId, StepKind step, String place) {}
