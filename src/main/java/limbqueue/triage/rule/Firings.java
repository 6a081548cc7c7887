package limbqueue.triage.rule;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.stream.Stream;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Contradiction;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Wifi;
import limbqueue.triage.TriageResult.WorkUpItem;

/** Which rules of the book a result rests on. */
public final class Firings {

    /** Stands before the code of an item of the work-up, since a red flag may have the same code. */
    public static final String WORK_UP = "work-up-";

    private static final String STAGE = "wifi-stage";

    private Firings() {}

    /**
     * Ids of the rules that say something in {@code result}: as a reason, a red flag, a contradiction or an item of the
     * work-up, needed or held already, or in the procedure plan; and those that gave it a figure, an index or a grade without a reason of its own.
     */
    public static Set<String> of(TriageResult result) {
        var rules = new LinkedHashSet<String>();
        result.reasons().stream().map(Reason::rule).forEach(rules::add);
        result.redFlags().stream().map(RedFlag::code).forEach(rules::add);
        result.contradictions().stream().map(Contradiction::rule).forEach(rules::add);
        result.workUp().stream()
                .map(WorkUpItem::code)
                .map(code -> WORK_UP + code)
                .forEach(rules::add);
        result.procedurePlan().map(ProcedurePlan::rules).ifPresent(rules::addAll);
        rules.add("fhir-priority");
        var legs = Stream.of(result.legs().left(), result.legs().right()).toList();
        if (legs.stream().anyMatch(leg -> leg.tbi().isPresent())) {
            rules.add("toe-brachial-index");
        }
        // Every leg has grades; they say something where a reason gives them.
        if (rules.contains(STAGE)) {
            rules.add("wifi-ischaemia");
            rules.add("wifi-benefit");
            var grades = legs.stream()
                    .map(LegResult::wifi)
                    .flatMap(wifi -> wifi.stream())
                    .toList();
            if (grades.stream().mapToInt(Wifi::wound).anyMatch(grade -> grade > 0)) {
                rules.add("wifi-wound");
            }
            if (grades.stream().mapToInt(Wifi::infection).anyMatch(grade -> grade > 0)) {
                rules.add("wifi-infection");
            }
        }
        return rules;
    }
}
