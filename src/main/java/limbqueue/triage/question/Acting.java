package limbqueue.triage.question;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** Answers unknown facts by what is to be acted on, and notes which unknown facts were looked at. */
public final class Acting implements Answers {

    private final Map<String, Fact<?>> unknown = new LinkedHashMap<>();

    @Override
    public <T> T of(Fact<T> fact) {
        if (fact.known().isPresent()) {
            return fact.known().get();
        }
        unknown.put(fact.path(), fact);
        return fact.actOn();
    }

    @Override
    public <T> T of(Part<T> part) {
        return part.conclude(this);
    }

    /** The unknown facts that were looked at, by path, in the order of looking. */
    public Map<String, Fact<?>> unknown() {
        return Collections.unmodifiableMap(unknown);
    }
}
