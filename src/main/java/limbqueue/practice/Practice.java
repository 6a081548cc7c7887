package limbqueue.practice;

import java.util.List;

/**
 * The practice as its letters name it.
 *
 * @param urgentPhone the number that referring doctors call about a patient who is getting worse
 * @param version for optimistic locking
 */
public record Practice(
        String name,
        List<String> addressLines,
        String phone,
        String fax,
        String email,
        String urgentPhone,
        String signatory,
        int version) {}
