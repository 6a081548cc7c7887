package limbqueue.booking;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Where steps are in the plan that is kept.
 *
 * @param sessions by the reference of the case and the step, the name of the session
 */
public record KeptPlaces(Map<String, Map<StepKind, String>> sessions) {

    public KeptPlaces {
        var copy = new HashMap<String, Map<StepKind, String>>();
        sessions.forEach((reference, places) -> copy.put(reference, Map.copyOf(places)));
        sessions = Map.copyOf(copy);
    }

    /** Where {@code plan} puts everybody. */
    public static KeptPlaces of(Plan plan) {
        var sessions = new HashMap<String, Map<StepKind, String>>();
        plan.cases()
                .forEach(one -> one.steps()
                        .forEach(step -> step.session()
                                .ifPresent(session -> sessions.computeIfAbsent(one.reference(), _ -> new HashMap<>())
                                        .put(step.step(), session))));
        return new KeptPlaces(sessions);
    }

    /** The session in which a step of a case is kept. */
    public Optional<String> of(String reference, StepKind step) {
        return Optional.ofNullable(sessions.getOrDefault(reference, Map.of()).get(step));
    }
}
