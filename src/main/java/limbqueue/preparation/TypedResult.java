package limbqueue.preparation;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.Side;

/** A result as it is typed in while a case is prepared; it goes into the referral. */
public sealed interface TypedResult {

    /** Puts the result into {@code document}. */
    void into(Draft document);

    /** @param unit UCUM code */
    record Laboratory(LabTest test, BigDecimal value, String unit, LocalDate taken) implements TypedResult {

        @Override
        public void into(Draft document) {
            var entry = "labs[" + document.sizeOf("labs").orElse(0) + "].";
            document.set(entry + "test", code(test));
            document.set(entry + "value", value);
            document.set(entry + "unit", unit);
            document.set(entry + "taken", taken.toString());
        }
    }

    /** @param mmHg resting systolic pressure of the great toe */
    record ToePressure(Side side, BigDecimal mmHg) implements TypedResult {

        @Override
        public void into(Draft document) {
            document.set("legs." + code(side) + ".pressures.toe", mmHg);
        }
    }

    /** A picture whose report has come. */
    record ImagingReport(ImagingKind kind, LocalDate date, String where, boolean imagesHeld, String findings)
            implements TypedResult {

        @Override
        public void into(Draft document) {
            var entry = "imaging[" + document.sizeOf("imaging").orElse(0) + "].";
            document.set(entry + "kind", code(kind));
            document.set(entry + "date", date.toString());
            document.set(entry + "reportHeld", true);
            document.set(entry + "imagesHeld", imagesHeld);
            if (!where.isBlank()) {
                document.set(entry + "where", where.strip());
            }
            if (!findings.isBlank()) {
                document.set(entry + "findings", findings.strip());
            }
        }
    }

    /**
     * The reports, or the images, of every earlier procedure and picture have come.
     *
     * @param images whether it is the images
     */
    record OutsideRecords(boolean images) implements TypedResult {

        @Override
        public void into(Draft document) {
            for (var list : new String[] {"procedures", "imaging"}) {
                for (var i = 0; i < document.sizeOf(list).orElse(0); i++) {
                    document.set(list + "[" + i + "]." + (images ? "imagesHeld" : "reportHeld"), true);
                }
            }
        }
    }

    record Pregnancy(boolean pregnant) implements TypedResult {

        @Override
        public void into(Draft document) {
            document.set("history.pregnant", pregnant);
        }
    }

    /**
     * What imaging shows of a lesion that the referral names.
     *
     * @param lesion its place in the document, from 0
     * @param diameterMm of the vessel
     * @param stenosisPercent 100 is an occlusion
     */
    record LesionMeasured(
            int lesion,
            Optional<Side> side,
            Optional<BigDecimal> diameterMm,
            Optional<BigDecimal> stenosisPercent,
            Optional<Calcification> calcification)
            implements TypedResult {

        @Override
        public void into(Draft document) {
            var entry = "lesions[" + lesion + "].";
            side.ifPresent(of -> document.set(entry + "side", code(of)));
            diameterMm.ifPresent(value -> document.set(entry + "diameterMm", value));
            stenosisPercent.ifPresent(value -> document.set(entry + "stenosisPercent", value));
            calcification.ifPresent(value -> document.set(entry + "calcification", code(value)));
        }
    }

    /** The code of a value in the public format: {@code whiteCells}. */
    private static String code(Enum<?> value) {
        var code = new StringBuilder();
        var wordBegins = false;
        for (var letter : value.name().toCharArray()) {
            if (letter != '_') {
                code.append(wordBegins ? letter : Character.toLowerCase(letter));
            }
            wordBegins = letter == '_';
        }
        return code.toString();
    }
}
