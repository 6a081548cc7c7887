package limbqueue.preparation;

import java.time.LocalDate;

/**
 * A procedure is over, and how it ended is recorded. Published within the transaction that recorded it.
 *
 * @param on the day on which the case went to the room
 */
public record CaseRecorded(long referralId, LocalDate on, CaseOutcome outcome) {}
