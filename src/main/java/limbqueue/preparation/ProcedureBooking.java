package limbqueue.preparation;

import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Optional;

/**
 * When and where a procedure is.
 *
 * @param version for optimistic locking, from 1
 * @param starts on the clock of the practice
 * @param readyAt when the case went to the room; empty before that
 * @param readyBy display name of who sent it there
 */
public record ProcedureBooking(
        long referralId,
        int version,
        LocalDateTime starts,
        String room,
        Optional<Instant> readyAt,
        Optional<String> readyBy,
        String author,
        Instant at) {}
