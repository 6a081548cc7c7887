package limbqueue.triage.finding;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.question.Entries;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * A creatinine of which the unit is known.
 *
 * @param mgPerDl in mg/dL, whatever unit it was reported in
 */
public record Creatinine(double mgPerDl, Optional<LocalDate> taken) {

    private static final Comparator<Creatinine> EARLIER = Comparator.comparing(
                    (Creatinine one) -> one.taken().orElse(LocalDate.MIN))
            .thenComparing(Creatinine::mgPerDl);

    /** The latest; of several of one day the highest. */
    public static Optional<Creatinine> latest(ReferralDocument document) {
        var all = all(document);
        return all.isEmpty() ? Optional.empty() : Optional.of(Collections.max(all, EARLIER));
    }

    private static List<Creatinine> all(ReferralDocument document) {
        var all = new ArrayList<Creatinine>();
        for (var lab : document.labs().orElse(List.of())) {
            if (lab.test().isPresent() && lab.test().get() == LabTest.CREATININE) {
                KidneyFunction.creatinine(lab).ifPresent(amount -> all.add(new Creatinine(amount, lab.taken())));
            }
        }
        return all;
    }

    /**
     * Whether the latest creatinine rose from an earlier one as in acute kidney injury (kdigo-aki-2012): by an amount
     * within two days, or by a factor within a week.
     */
    public static boolean roseAcutely(ReferralDocument document, Limits limits) {
        var latest = latest(document).filter(last -> last.taken().isPresent());
        return latest.isPresent() && Entries.any(all(document), earlier -> acute(earlier, latest.get(), limits));
    }

    private static boolean acute(Creatinine earlier, Creatinine later, Limits limits) {
        if (earlier.taken().isEmpty() || later.taken().isEmpty()) {
            return false;
        }
        var days = ChronoUnit.DAYS.between(earlier.taken().get(), later.taken().get());
        return (days <= limits.whole(Limit.KIDNEY_INJURY_RISE_WITHIN)
                        && thousandths(later.mgPerDl() - earlier.mgPerDl())
                                >= thousandths(limits.of(Limit.KIDNEY_INJURY_RISE_AT_LEAST)))
                || (days <= limits.whole(Limit.KIDNEY_INJURY_FACTOR_WITHIN)
                        && thousandths(later.mgPerDl() / earlier.mgPerDl())
                                >= thousandths(limits.of(Limit.KIDNEY_INJURY_FACTOR_AT_LEAST)));
    }

    /** A rise of 0.3 must not fail for the last binary digit of a difference. */
    private static long thousandths(double number) {
        return Math.round(number * 1000);
    }
}
