package limbqueue.timetable;

import java.time.LocalDateTime;

/**
 * An appointment as the patient keeps it.
 *
 * @param at when the patient is expected, on the clock of the practice, if all before take as long as expected
 */
public record Visit(Placed placed, KeptSession session, LocalDateTime at) {}
