package limbqueue.timetable;

import limbqueue.booking.StepKind;

/** A step has another date, which nobody has been told. Published within the transaction that moved it. */
public record AppointmentMoved(long referralId, StepKind step) {}
