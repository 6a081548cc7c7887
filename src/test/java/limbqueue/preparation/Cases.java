package limbqueue.preparation;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.Triage;
import limbqueue.triage.plan.StentNeed;
import limbqueue.triage.rule.RuleBook;

/** Pieces of cases for tests. */
final class Cases {

    static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final Instant AT = Instant.parse("2026-03-01T09:00:00Z");

    private Cases() {}

    /**
     * What a lesion of a leg with rest pain needs.
     *
     * @param lesion its fields, as {@code segment=externalIliac side=left}
     */
    static List<StentNeed> needs(String lesion) {
        var draft = Draft.of("""
                {"legs": {"left": {"restPain": {"present": true, "sinceDays": 40}},
                          "right": {"restPain": {"present": true, "sinceDays": 40}}}}""");
        for (var field : lesion.strip().split(" +", -1)) {
            var at = field.indexOf('=');
            var value = field.substring(at + 1);
            draft.set(
                    "lesions[0]." + field.substring(0, at),
                    value.matches("\\d+(\\.\\d+)?") ? (Object) Double.valueOf(value) : value);
        }
        var reading = draft.read(TODAY);
        if (!reading.complete()) {
            throw new IllegalArgumentException(reading.problems().toString());
        }
        var plan = Triage.triage(reading.document(), Policy.standard(), TODAY).procedurePlan();
        return StentNeed.of(
                reading.document(), plan.orElseThrow(), RuleBook.shipped().on(TODAY));
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
        return new StentConfirmation(1, 1, Optional.of(side), segment, stent, "Wren Halloway", AT);
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
