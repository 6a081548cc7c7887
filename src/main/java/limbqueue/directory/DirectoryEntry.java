package limbqueue.directory;

import java.time.LocalDate;

/**
 * A referring doctor, or a hospital. Text that is not known is empty.
 *
 * @param version counts the corrections
 * @param name at most 200 characters, not blank
 * @param organisation where a referring doctor works; empty for a hospital
 * @param prefers how letters are wanted: {@code post}, {@code fax} or {@code email}; empty for a hospital
 * @param language tag of the language in which letters are wanted; empty where nobody has said so, and for a hospital
 * @param lastEntered the day on which it was last named in a referral
 */
public record DirectoryEntry(
        long id,
        int version,
        DirectoryKind kind,
        String name,
        String organisation,
        String address,
        String phone,
        String fax,
        String email,
        String prefers,
        String language,
        LocalDate lastEntered) {}
