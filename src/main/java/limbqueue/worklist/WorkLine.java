package limbqueue.worklist;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * One referral in one list.
 *
 * @param patient family and given name, as far as known
 * @param tier the one decided, else the one proposed
 * @param targetDate of that tier
 */
public record WorkLine(
        long id,
        String reference,
        String patient,
        Optional<LocalDate> born,
        Tier tier,
        Optional<LocalDate> targetDate,
        WorkStep step) {

    /** What is due first, then the most urgent, then what has its target date first. */
    static final Comparator<WorkLine> DUE_FIRST = Comparator.comparing(
                    (WorkLine line) -> line.step().due().orElse(LocalDate.MAX))
            .thenComparing(WorkLine::tier)
            .thenComparing(line -> line.targetDate().orElse(LocalDate.MAX))
            .thenComparing(WorkLine::id);
}
