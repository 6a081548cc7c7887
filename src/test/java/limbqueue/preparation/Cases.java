package limbqueue.preparation;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;

/** Pieces of cases for tests. */
final class Cases {

    static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final Instant AT = Instant.parse("2026-03-01T09:00:00Z");

    private Cases() {}

    /** @param lesion fields of one lesion, as {@code segment=externalIliac side=left stenosisPercent=100} */
    static ReferralDocument withLesions(String... lesions) {
        var draft = Draft.empty();
        for (var i = 0; i < lesions.length; i++) {
            for (var field : lesions[i].strip().split(" +")) {
                var at = field.indexOf('=');
                draft.set("lesions[" + i + "]." + field.substring(0, at), value(field.substring(at + 1)));
            }
        }
        var reading = draft.read(TODAY);
        if (!reading.complete()) {
            throw new IllegalArgumentException(reading.problems().toString());
        }
        return reading.document();
    }

    private static Object value(String text) {
        if (text.equals("true") || text.equals("false")) {
            return Boolean.valueOf(text);
        }
        return text.matches("\\d+(\\.\\d+)?") ? (Object) Double.valueOf(text) : text;
    }

    static CoveredStent stent(long id, double diameterMm, double lengthMm, String expires, int count, int promised) {
        return new CoveredStent(
                id,
                1,
                diameterMm,
                lengthMm,
                7,
                LocalDate.parse(expires),
                "L-" + id,
                "Cabinet 2",
                count,
                promised,
                "Wren Halloway",
                AT);
    }

    static StentConfirmation confirmed(Side side, Segment segment, CoveredStent stent) {
        return new StentConfirmation(1, 1, side, segment, stent, "Wren Halloway", AT);
    }

    static CaseItem item(String code, boolean needed, Optional<LocalDate> validUntil, Standing standing) {
        return new CaseItem(
                code,
                "Item " + code,
                "Why.",
                "source",
                true,
                needed,
                validUntil,
                1,
                standing,
                "Wren Halloway",
                Optional.of(AT));
    }

    static ReadinessOverride override(String facts) {
        return new ReadinessOverride(1, facts, "The leg does not wait.", "Dr Imogen Tarrant", AT);
    }
}
