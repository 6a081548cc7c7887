package limbqueue.sameday;

import java.util.Optional;

/**
 * A same-day case that nobody has taken.
 *
 * @param patient family and given name; empty for somebody who sees no patients
 * @param calls whom to telephone
 */
public record RingingCase(SameDayCase sameDay, String reference, Optional<String> patient, Calls calls) {

    /** Telephone numbers, each as it was typed; empty where none is known. */
    public record Calls(
            Optional<String> patient,
            Optional<String> referrer,
            String referrerName,
            Optional<String> hospital,
            String hospitalName,
            Optional<String> lead,
            String leadName) {}
}
