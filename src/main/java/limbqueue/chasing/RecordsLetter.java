package limbqueue.chasing;

import java.time.LocalDate;

/**
 * A letter of a records request as it was written.
 *
 * @param number 1 for the request, 2 and 3 for the reminders
 * @param text its words, as plain text
 */
public record RecordsLetter(long id, long requestId, int number, LocalDate dated, String text) {}
