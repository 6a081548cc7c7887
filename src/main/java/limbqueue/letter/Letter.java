package limbqueue.letter;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A letter as it was written; only its dispatch changes afterwards.
 *
 * @param recipient the referring doctor, as addressed
 * @param channel how the referring doctor prefers to be told: post, fax or email, with the number or address, as far as
 *     known
 * @param text the letter's words, as plain text
 */
public record Letter(
        long id,
        long referralId,
        String reference,
        String patient,
        LetterKind kind,
        String recipient,
        String channel,
        LocalDate dated,
        String text,
        Optional<Instant> sentAt,
        Optional<String> sentBy) {}
