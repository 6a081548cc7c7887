package limbqueue.triage.plan;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import limbqueue.triage.anatomy.LesionFact;

/**
 * Where a plan gets its answers from, so that it never sees an unknown: what is known as it is, the rest as it is to be
 * acted on, except for one unknown fact that is answered otherwise to see whether that makes another plan.
 */
final class PlanAnswers {

    private final String varied;
    private final int choice;
    private final Map<String, PlanFact<?>> open = new LinkedHashMap<>();

    private PlanAnswers(String varied, int choice) {
        this.varied = varied;
        this.choice = choice;
    }

    static PlanAnswers acting() {
        return new PlanAnswers("", 0);
    }

    /** Acting, but that {@code fact} has the answer in the place {@code choice} of its choices. */
    static PlanAnswers answering(PlanFact<?> fact, int choice) {
        return new PlanAnswers(fact.path(), choice);
    }

    /** Of a lesion most is known, and then nobody needs the question. */
    <T> T of(LesionFact<T> fact) {
        return fact.known().isPresent() ? fact.known().get() : of(PlanFact.of(fact));
    }

    <T> T of(PlanFact<T> fact) {
        if (fact.known().isPresent()) {
            return fact.known().get();
        }
        open.putIfAbsent(fact.path(), fact);
        return fact.path().equals(varied) ? fact.choices().get(choice) : fact.actOn();
    }

    /** The paths of the unknown facts that were looked at until now. */
    Set<String> paths() {
        return Set.copyOf(open.keySet());
    }

    /** The unknown facts that were looked at, in the order of looking. */
    Collection<PlanFact<?>> open() {
        return open.values();
    }
}
