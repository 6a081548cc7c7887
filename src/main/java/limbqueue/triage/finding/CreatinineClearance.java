package limbqueue.triage.finding;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Sex;

/** Creatinine clearance by the equation of Cockcroft and Gault (cockcroft-1976), by which drugs are held. */
public final class CreatinineClearance {

    private static final double FEMALE = 0.85;

    private CreatinineClearance() {}

    /**
     * The clearance in mL/min, a range where the sex is not known. Empty while age, weight or creatinine is not known, and
     * on dialysis, where the equation says nothing.
     */
    public static Optional<Span> of(ReferralDocument document, LocalDate asOf) {
        var creatinine = Creatinine.latest(document);
        var born = document.patient().born();
        var weight = document.weightKg();
        if (creatinine.isEmpty()
                || born.isEmpty()
                || weight.isEmpty()
                || document.history().dialysis().orElse(false)) {
            return Optional.empty();
        }
        var age = Math.toIntExact(
                ChronoUnit.YEARS.between(born.get(), creatinine.get().taken().orElse(asOf)));
        var ofMen = cockcroftGault(age, weight.get(), creatinine.get().mgPerDl(), false);
        var ofWomen = cockcroftGault(age, weight.get(), creatinine.get().mgPerDl(), true);
        return Optional.of(
                switch (document.patient().sex().orElse(Sex.UNKNOWN)) {
                    case FEMALE -> new Span(ofWomen, ofWomen);
                    case MALE -> new Span(ofMen, ofMen);
                    case OTHER, UNKNOWN -> Span.of(ofWomen, ofMen);
                });
    }

    /** What is missing for the figure, in words. */
    public static List<String> missing(ReferralDocument document) {
        var missing = new ArrayList<String>();
        if (document.weightKg().isEmpty()) {
            missing.add("the weight");
        }
        if (document.patient().born().isEmpty()) {
            missing.add("the date of birth");
        }
        if (Creatinine.latest(document).isEmpty()) {
            missing.add("a creatinine");
        }
        return missing;
    }

    /**
     * The equation (cockcroft-1976).
     *
     * @param age in whole years, under 140
     * @param weightKg weight in kg, above 0
     * @param creatinine serum creatinine in mg/dL, above 0
     * @return mL/min
     */
    public static double cockcroftGault(int age, double weightKg, double creatinine, boolean female) {
        return (140 - age) * weightKg / (72 * creatinine) * (female ? FEMALE : 1);
    }
}
