package limbqueue.triage.finding;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Sex;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * The score of Mehran and others for the kidneys after contrast (mehran-2004), as far as it is known before a procedure.
 * What is not known gives a range. It was derived for coronary intervention.
 *
 * <p>Three of its factors belong to the procedure and are not in it: {@link #HYPOTENSION}, {@link #BALLOON_PUMP} and
 * contrast, one point for each {@link #MILLILITRES_A_POINT}. Two are known less exactly than the score asks:
 *
 * <ul>
 *   <li>its heart failure is of NYHA class III or IV, or with pulmonary oedema; a referral tells heart failure alone, so
 *       its points may or may not count;
 *   <li>its anaemia is a haematocrit; haemoglobin stands in, at the limits that the World Health Organization gives for
 *       anaemia (who-anaemia-2011).
 * </ul>
 *
 * <p>Its eGFR was computed otherwise than {@link KidneyFunction} does.
 *
 * @param least points, 0 to {@code most}, with every unknown at its best
 * @param most points with every unknown at its worst
 */
public record MehranScore(int least, int most) {

    /** Points for systolic pressure under 80 mmHg that needs support for an hour or more about the procedure. */
    public static final int HYPOTENSION = 5;

    /** Points for an intra-aortic balloon pump. */
    public static final int BALLOON_PUMP = 5;

    /** Contrast in mL that adds a point. */
    public static final int MILLILITRES_A_POINT = 100;

    private static final int HEART_FAILURE = 5;
    private static final int AGE = 4;
    private static final int ANAEMIA = 3;
    private static final int DIABETES = 3;
    private static final int CREATININE = 4;
    private static final int EGFR_REDUCED = 2;
    private static final int EGFR_LOW = 4;
    private static final int EGFR_VERY_LOW = 6;

    /** The groups of risk as printed, mildest first. */
    public enum Risk {
        LOW(7.5, 0.04),
        MODERATE(14.0, 0.12),
        HIGH(26.1, 1.09),
        VERY_HIGH(57.3, 12.6);

        private final double nephropathy;
        private final double dialysis;

        Risk(double nephropathy, double dialysis) {
            this.nephropathy = nephropathy;
            this.dialysis = dialysis;
        }

        /** Share of patients whose creatinine rose, in percent. */
        public double nephropathy() {
            return nephropathy;
        }

        /** Share of patients who came to dialysis, in percent. */
        public double dialysis() {
            return dialysis;
        }

        /** The group of {@code points}, 0 or more. */
        public static Risk of(int points, Limits limits) {
            if (points <= limits.whole(Limit.MEHRAN_LOW_AT_MOST)) {
                return LOW;
            }
            if (points <= limits.whole(Limit.MEHRAN_MODERATE_AT_MOST)) {
                return MODERATE;
            }
            return points <= limits.whole(Limit.MEHRAN_HIGH_AT_MOST) ? HIGH : VERY_HIGH;
        }
    }

    /** The points of one factor. */
    private record Points(int least, int most) {

        static Points known(boolean present, int points) {
            return present ? new Points(points, points) : new Points(0, 0);
        }

        static Points unknown(int points) {
            return new Points(0, points);
        }

        static Points of(Optional<Boolean> present, int points) {
            return present.map(known -> known(known, points)).orElseGet(() -> unknown(points));
        }
    }

    /** The score on {@code asOf}; empty on dialysis, where there is no kidney function left to predict. */
    public static Optional<MehranScore> of(ReferralDocument document, LocalDate asOf, Limits limits) {
        var history = document.history();
        if (history.dialysis().orElse(false)) {
            return Optional.empty();
        }
        var heart = history.heartFailure().orElse(true) ? Points.unknown(HEART_FAILURE) : new Points(0, 0);
        var age = document.patient()
                .born()
                .map(born -> ChronoUnit.YEARS.between(born, asOf) > limits.whole(Limit.MEHRAN_AGE_MORE_THAN));
        var least = 0;
        var most = 0;
        for (var points : new Points[] {
            heart,
            Points.of(age, AGE),
            Points.of(anaemia(document, limits), ANAEMIA),
            Points.of(history.diabetes(), DIABETES),
            kidney(document, asOf, limits)
        }) {
            least += points.least();
            most += points.most();
        }
        return Optional.of(new MehranScore(least, most));
    }

    /** Points and risks in words, with where the score comes from and what is not in it. */
    public String sentence(Limits limits) {
        var mild = Risk.of(least, limits);
        var grave = Risk.of(most, limits);
        return Sentence.of(
                "Mehran score before contrast: %s points, which went with nephropathy in %s %% and dialysis in %s %% of"
                        + " the coronary interventions that it was derived from. Each %d mL of contrast adds 1;"
                        + " hypotension would add %d, a balloon pump %d. Anaemia is judged by haemoglobin, and heart"
                        + " failure counts only in NYHA class III or IV or with pulmonary oedema.",
                range(Integer.toString(least), Integer.toString(most)),
                range(Double.toString(mild.nephropathy()), Double.toString(grave.nephropathy())),
                range(Double.toString(mild.dialysis()), Double.toString(grave.dialysis())),
                MILLILITRES_A_POINT,
                HYPOTENSION,
                BALLOON_PUMP);
    }

    private static String range(String from, String to) {
        return from.equals(to) ? from : from + " to " + to;
    }

    /** By eGFR where it can be worked out, else by the latest creatinine. */
    private static Points kidney(ReferralDocument document, LocalDate asOf, Limits limits) {
        var egfr = KidneyFunction.latest(document, asOf).map(KidneyFunction::egfr);
        if (egfr.isPresent()) {
            var points = egfrPoints(egfr.get(), limits);
            return new Points(points, points);
        }
        var creatinine = latest(document, LabTest.CREATININE, KidneyFunction::creatinine, Comparator.naturalOrder());
        return creatinine.isPresent()
                ? Points.known(creatinine.getAsDouble() > limits.of(Limit.MEHRAN_CREATININE_MORE_THAN), CREATININE)
                : Points.unknown(EGFR_VERY_LOW);
    }

    private static int egfrPoints(double egfr, Limits limits) {
        if (egfr < limits.of(Limit.MEHRAN_EGFR_VERY_LOW_LESS_THAN)) {
            return EGFR_VERY_LOW;
        }
        if (egfr < limits.of(Limit.MEHRAN_EGFR_LOW_LESS_THAN)) {
            return EGFR_LOW;
        }
        return egfr < limits.of(Limit.MEHRAN_EGFR_REDUCED_LESS_THAN) ? EGFR_REDUCED : 0;
    }

    /** Empty where no haemoglobin is held, or where it is anaemia in one sex only and the sex is not known. */
    private static Optional<Boolean> anaemia(ReferralDocument document, Limits limits) {
        var haemoglobin = latest(document, LabTest.HAEMOGLOBIN, MehranScore::gramsPerLitre, Comparator.reverseOrder());
        if (haemoglobin.isEmpty()) {
            return Optional.empty();
        }
        var ofMen = haemoglobin.getAsDouble() < limits.of(Limit.MEHRAN_HAEMOGLOBIN_MALE_LESS_THAN);
        var ofWomen = haemoglobin.getAsDouble() < limits.of(Limit.MEHRAN_HAEMOGLOBIN_FEMALE_LESS_THAN);
        return switch (document.patient().sex().orElse(Sex.UNKNOWN)) {
            case MALE -> Optional.of(ofMen);
            case FEMALE -> Optional.of(ofWomen);
            case OTHER, UNKNOWN -> ofMen == ofWomen ? Optional.of(ofMen) : Optional.empty();
        };
    }

    /** A haemoglobin in g/L; empty where the unit is not known, or is an amount of substance. */
    private static Optional<Double> gramsPerLitre(Lab lab) {
        var unit = lab.unit().orElse("");
        return lab.value().flatMap(value -> switch (unit) {
            case "g/L" -> Optional.of(value);
            case "g/dL" -> Optional.of(value * 10);
            default -> Optional.<Double>empty();
        });
    }

    /** The latest value held of {@code test}; of several of one day the one that {@code worse} puts last. */
    private static OptionalDouble latest(
            ReferralDocument document, LabTest test, Function<Lab, Optional<Double>> amount, Comparator<Double> worse) {
        record Dated(LocalDate taken, double amount) {}
        var dated = new ArrayList<Dated>();
        for (var lab : document.labs().orElse(List.of())) {
            if (lab.test().filter(test::equals).isPresent()) {
                amount.apply(lab)
                        .ifPresent(value -> dated.add(new Dated(lab.taken().orElse(LocalDate.MIN), value)));
            }
        }
        return dated.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(Collections.max(
                                dated, Comparator.comparing(Dated::taken).thenComparing(Dated::amount, worse))
                        .amount());
    }
}
