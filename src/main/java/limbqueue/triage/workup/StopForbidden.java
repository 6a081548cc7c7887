package limbqueue.triage.workup;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.threshold.Limit;

/**
 * Why nobody but the prescriber may stop a drug against clotting: a recent stent or clot, a stroke, a recent infarction.
 * A valve and a clot in a vein have no field, and are asked about in words.
 */
final class StopForbidden {

    /** What no field tells. */
    static final String ASK =
            "Ask first for a mechanical heart valve, a stent in the heart and a clot in the last months.";

    private static final Set<Complication> CLOTS = Set.of(Complication.THROMBOSIS, Complication.EMBOLISM);

    private StopForbidden() {}

    /** The reasons that the referral tells, in words. */
    static List<String> reasons(Occasion on) {
        var reasons = new ArrayList<String>();
        if (recent(on, StopForbidden::stent)) {
            reasons.add("a stent of the last 12 months, or of an unknown day");
        }
        if (recent(on, StopForbidden::clot)) {
            reasons.add("a clot after an earlier procedure");
        }
        if (on.history().stroke().orElse(false)) {
            reasons.add("a stroke");
        }
        if (on.history().recentMyocardialInfarctionDays().isPresent()) {
            reasons.add("a recent heart attack");
        }
        if (on.anyLeg(leg -> leg.acute())) {
            reasons.add("a leg that is newly blocked");
        }
        return reasons;
    }

    private static boolean stent(Procedure procedure) {
        return procedure.kind().equals(Optional.of(ProcedureKind.STENT));
    }

    private static boolean clot(Procedure procedure) {
        return procedure.complication().map(CLOTS::contains).orElse(false);
    }

    private static boolean recent(Occasion on, java.util.function.Predicate<Procedure> which) {
        LocalDate first = on.day().minusMonths(on.limits().whole(Limit.RECENT_STENT_MONTHS_LESS_THAN));
        return on.document().procedures().orElse(List.of()).stream()
                .filter(which)
                .anyMatch(procedure ->
                        procedure.date().map(day -> day.isAfter(first)).orElse(true));
    }
}
