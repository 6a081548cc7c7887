package limbqueue.triage.grade;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.Optional;
import limbqueue.triage.Quantity.PerMicrolitre;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.question.Entries;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/** A white cell count among the laboratory values, recent enough to speak of an infection that is there now. */
final class WhiteCells {

    private WhiteCells() {}

    /** The latest of the last days; of several of one day the highest. An undated count speaks of no infection. */
    static Optional<PerMicrolitre> recent(ReferralDocument document, LocalDate asOf, Limits limits) {
        if (document.labs().isEmpty()) {
            return Optional.empty();
        }
        var counts = Entries.those(
                document.labs().get(),
                lab -> lab.test().filter(LabTest.WHITE_CELLS::equals).isPresent());
        if (counts.isEmpty()) {
            return Optional.empty();
        }
        return counts.stream()
                .filter(lab -> lab.taken()
                        .map(taken -> ChronoUnit.DAYS.between(taken, asOf)
                                <= limits.whole(Limit.SYSTEMIC_WHITE_CELLS_AGE_AT_MOST))
                        .orElse(false))
                .filter(lab -> perMicrolitre(lab).isPresent())
                .max(Comparator.comparing((Lab lab) -> lab.taken().orElse(LocalDate.MIN))
                        .thenComparing(lab -> perMicrolitre(lab).orElse(0.0)))
                .flatMap(WhiteCells::perMicrolitre)
                .map(PerMicrolitre::new);
    }

    private static Optional<Double> perMicrolitre(Lab lab) {
        return lab.value().flatMap(value -> switch (lab.unit().orElse("")) {
            case "10*9/L", "10*3/uL" -> Optional.of(value * 1000);
            case "/uL" -> Optional.of(value);
            default -> Optional.<Double>empty();
        });
    }
}
