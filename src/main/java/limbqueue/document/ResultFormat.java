package limbqueue.document;

import java.math.BigDecimal;
import java.math.RoundingMode;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.TriageResult.ToeBrachialIndex;

/** Writes triage results in the public data format, version 1. */
public final class ResultFormat {

    private ResultFormat() {}

    /** One JSON object on one line, without the line's end, the same bytes for the same result. */
    public static String write(TriageResult result) {
        var out = new StringBuilder(8_000);
        RecordForm.of(TriageResult.class).append(result, ResultFormat::append, out);
        return out.toString();
    }

    private static boolean append(Object value, StringBuilder out) {
        switch (value) {
            case AnkleBrachialIndex index -> append(index.value(), index.band(), index.from(), out);
            case ToeBrachialIndex index -> append(index.value(), index.band(), index.from(), out);
            case Tasc type -> JsonText.quote(type.label(), out);
            case Fontaine grade -> JsonText.quote(grade.label(), out);
            case RutherfordGrade grade -> append(grade, out);
            case Rutherford category -> append(category, out);
            default -> {
                return false;
            }
        }
        return true;
    }

    /** An index with the two decimals at which its bands are published. */
    private static void append(double value, Enum<?> band, Enum<?> from, StringBuilder out) {
        out.append("{\"value\":")
                .append(BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP))
                .append(",\"band\":\"")
                .append(RecordForm.name(band))
                .append("\",\"from\":\"")
                .append(RecordForm.name(from))
                .append("\"}");
    }

    private static void append(RutherfordGrade grade, StringBuilder out) {
        out.append("{\"scale\":\"").append(RecordForm.name(grade.scale())).append("\",\"category\":");
        append(grade.category(), out);
        var separator = ",\"possible\":[";
        for (var category : grade.possible()) {
            append(category, out.append(separator));
            separator = ",";
        }
        out.append("]}");
    }

    /** Chronic categories are numbers, acute ones text, so that a 3 is never taken for a III. */
    private static void append(Rutherford category, StringBuilder out) {
        if (category.scale() == RutherfordScale.CHRONIC) {
            out.append(category.label());
        } else {
            JsonText.quote(category.label(), out);
        }
    }
}
