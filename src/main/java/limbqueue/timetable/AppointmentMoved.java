package limbqueue.timetable;

import limbqueue.booking.StepKind;

/**
 * The date that a patient has been told of holds no more, and the new one has not been told. Published within the transaction
 * that moved it.
 */
public record AppointmentMoved(long referralId, StepKind step) {}
