package limbqueue.triage.threshold;

import java.util.EnumMap;
import java.util.Map;

/** The numbers in force on one day. */
public final class Limits {

    private final Map<Limit, Double> values;

    Limits(Map<Limit, Double> values) {
        this.values = new EnumMap<>(values);
    }

    /** The number, in the unit that the file gives it. */
    public double of(Limit limit) {
        var value = values.get(limit);
        if (value == null) {
            throw new IllegalStateException("no value is in force for " + limit.id());
        }
        return value;
    }

    /** The number as a whole, for limits in days or counts. */
    public int whole(Limit limit) {
        return Math.toIntExact(Math.round(of(limit)));
    }
}
