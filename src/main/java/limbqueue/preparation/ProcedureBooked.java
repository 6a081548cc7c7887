package limbqueue.preparation;

import java.time.LocalDateTime;

/**
 * A procedure was given a date outside of the sessions, which the patient is told with that. Published within the transaction
 * that booked it.
 *
 * @param starts on the clock of the practice
 */
public record ProcedureBooked(long referralId, LocalDateTime starts, String room) {}
