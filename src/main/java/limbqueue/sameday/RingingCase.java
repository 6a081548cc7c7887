package limbqueue.sameday;

import java.util.Optional;

/**
 * A same-day case that nobody has taken.
 *
 * @param patient empty for somebody who sees no patients
 * @param numbers whom to telephone in any such case
 */
public record RingingCase(SameDayCase sameDay, String reference, Optional<Patient> patient, Numbers numbers) {

    /**
     * Of whom it is, and who sent them; numbers as they were typed.
     *
     * @param name family and given name
     * @param referrerName empty where it is not known
     */
    public record Patient(String name, Optional<String> phone, String referrerName, Optional<String> referrerPhone) {}

    /**
     * The same for every case.
     *
     * @param hospital where such patients go; empty where nobody has said
     * @param lead who leads the physicians; empty where nobody is named
     */
    public record Numbers(String hospital, Optional<String> hospitalPhone, String lead, Optional<String> leadPhone) {}
}
