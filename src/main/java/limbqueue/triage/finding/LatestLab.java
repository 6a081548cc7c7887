package limbqueue.triage.finding;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;

/**
 * The latest value held of a test: one with a day before one without, and of one day the highest number.
 *
 * @param index place in the list of laboratory values
 */
public record LatestLab(int index, double value, Optional<String> unit, Optional<LocalDate> taken) {

    private static final Comparator<LatestLab> LATER = Comparator.comparing(
                    (LatestLab lab) -> lab.taken().orElse(LocalDate.MIN))
            .thenComparing(LatestLab::value)
            .thenComparing(lab -> lab.unit().orElse(""));

    public static Optional<LatestLab> of(ReferralDocument document, LabTest test) {
        return of(document, test, _ -> true);
    }

    /** The latest of those of which {@code condition} holds. */
    public static Optional<LatestLab> of(ReferralDocument document, LabTest test, Predicate<Lab> condition) {
        var labs = document.labs().orElse(List.of());
        var latest = Optional.<LatestLab>empty();
        for (var i = 0; i < labs.size(); i++) {
            var lab = labs.get(i);
            if (lab.value().isPresent() && lab.test().filter(test::equals).isPresent() && condition.test(lab)) {
                var one = of(i, lab, lab.value().get());
                if (latest.isEmpty() || LATER.compare(one, latest.get()) > 0) {
                    latest = Optional.of(one);
                }
            }
        }
        return latest;
    }

    private static LatestLab of(int index, Lab lab, double value) {
        return new LatestLab(index, value, lab.unit(), lab.taken());
    }

    /** Path of {@code field} of this value, as {@code labs[1].taken}. */
    public String path(String field) {
        return "labs[" + index + "]." + field;
    }
}
