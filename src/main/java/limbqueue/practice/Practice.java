package limbqueue.practice;

import java.util.List;
import limbqueue.print.EnvelopeWindow;

/**
 * The practice as its letters name it.
 *
 * @param urgentPhone the number that referring doctors call about a patient who is getting worse
 * @param window of the envelopes that letters are posted in
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
        EnvelopeWindow window,
        int version) {}
