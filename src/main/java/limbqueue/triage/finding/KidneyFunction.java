package limbqueue.triage.finding;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Sex;

/**
 * Kidney function from the latest creatinine or eGFR held.
 *
 * @param egfr in mL/min per 1.73 m2; the lower end where the sex is not known
 * @param most the upper end, in the same unit
 * @param taken the day of the blood sample, where known
 * @param evidence path of the value it rests on
 */
public record KidneyFunction(double egfr, double most, Optional<LocalDate> taken, String evidence) {

    private static final Comparator<KidneyFunction> LATER = Comparator.comparing(
                    (KidneyFunction kidney) -> kidney.taken().orElse(LocalDate.MIN))
            .thenComparing(KidneyFunction::egfr, Comparator.reverseOrder());

    private static final double MICROMOL_PER_L_IN_ONE_MG_PER_DL = 88.4;

    /**
     * The latest that can be worked out; of several of one day the lowest; a sex not known is taken as the one with the
     * lower result.
     */
    public static Optional<KidneyFunction> latest(ReferralDocument document, LocalDate asOf) {
        var labs = document.labs().orElse(List.of());
        var latest = Optional.<KidneyFunction>empty();
        for (var i = 0; i < labs.size(); i++) {
            var egfr = of(labs.get(i), document, asOf);
            if (egfr.isPresent()) {
                var one = new KidneyFunction(
                        egfr.get().least(), egfr.get().most(), labs.get(i).taken(), "labs[" + i + "].value");
                if (latest.isEmpty() || LATER.compare(one, latest.get()) > 0) {
                    latest = Optional.of(one);
                }
            }
        }
        return latest;
    }

    /** The eGFR, a range where the sex is not known. */
    public Span span() {
        return new Span(egfr, most);
    }

    private static Optional<Span> of(Lab lab, ReferralDocument document, LocalDate asOf) {
        var test = lab.test();
        if (test.isPresent() && test.get() == LabTest.EGFR) {
            return lab.value().map(value -> new Span(value, value));
        }
        if (test.isEmpty() || test.get() != LabTest.CREATININE) {
            return Optional.empty();
        }
        return creatinine(lab)
                .flatMap(mgPerDl -> document.patient().born().map(born -> {
                    var age = Math.toIntExact(
                            ChronoUnit.YEARS.between(born, lab.taken().orElse(asOf)));
                    var ofWomen = ckdEpi2021(mgPerDl, age, true);
                    var ofMen = ckdEpi2021(mgPerDl, age, false);
                    return switch (document.patient().sex().orElse(Sex.UNKNOWN)) {
                        case FEMALE -> new Span(ofWomen, ofWomen);
                        case MALE -> new Span(ofMen, ofMen);
                        case OTHER, UNKNOWN -> Span.of(ofWomen, ofMen);
                    };
                }));
    }

    /** A creatinine in mg/dL, from either of its units; empty when the unit is not known. */
    public static Optional<Double> creatinine(Lab lab) {
        var unit = lab.unit().orElse("");
        return lab.value().flatMap(value -> switch (unit) {
            case "mg/dL" -> Optional.of(value);
            // To the millionth, so that a limit means the same in either unit.
            case "umol/L" -> Optional.of(Math.round(value / MICROMOL_PER_L_IN_ONE_MG_PER_DL * 1e6) / 1e6);
            default -> Optional.<Double>empty();
        });
    }

    /**
     * Estimated glomerular filtration rate by the CKD-EPI creatinine equation of 2021 (ckd-epi-2021), for adults.
     *
     * @param creatinine serum creatinine in mg/dL, above 0
     * @param age in whole years
     * @return mL/min per 1.73 m2
     */
    public static double ckdEpi2021(double creatinine, int age, boolean female) {
        var kappa = female ? 0.7 : 0.9;
        var alpha = female ? -0.241 : -0.302;
        return 142
                * Math.pow(Math.min(creatinine / kappa, 1), alpha)
                * Math.pow(Math.max(creatinine / kappa, 1), -1.200)
                * Math.pow(0.9938, age)
                * (female ? 1.012 : 1);
    }
}
