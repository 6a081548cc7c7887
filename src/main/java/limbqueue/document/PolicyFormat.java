package limbqueue.document;

import java.io.InputStream;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/** Reads and writes policies: {@code {"id": …, "days": {"sameDay": 0, …}, "validity": {"creatinine": 30, …}}}; a choice on metformin may follow. */
public final class PolicyFormat {

    /**
     * A policy, or what is wrong with it: a policy is read as a whole or not at all.
     *
     * @param problems in the order of the text; empty exactly when there is a policy
     */
    public record PolicyReading(Optional<Policy> policy, List<Problem> problems) {
        public PolicyReading {
            problems = List.copyOf(problems);
        }
    }

    /**
     * What a number of a policy may be.
     *
     * @param unit as {@code days}
     */
    public record Range(int least, int most, String unit) {}

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final String METFORMIN = "metformin";

    private PolicyFormat() {}

    /**
     * Reads a policy from JSON text in UTF-8. The stream is left open.
     *
     * @throws tools.jackson.core.exc.JacksonIOException if the stream cannot be read
     */
    public static PolicyReading parse(InputStream json) {
        var checked = CheckedJson.parse(json, PublishedSchema.policy());
        return checked.node().map(PolicyFormat::read).orElseGet(() -> refused(checked.problems()));
    }

    /**
     * What the number at {@code path} may be, as {@code days.within5Days}.
     *
     * @throws IllegalArgumentException if a policy has no such number
     */
    public static Range range(String path) {
        var field = PublishedSchema.policy().root();
        for (var name : path.split("\\.", -1)) {
            field = field.path("properties").path(name);
        }
        if (!field.path("minimum").isInt()) {
            throw new IllegalArgumentException("a policy has no number " + path);
        }
        return new Range(
                field.get("minimum").intValue(),
                field.get("maximum").intValue(),
                field.get("x-unit").stringValue());
    }

    private static PolicyReading refused(List<Problem> problems) {
        return new PolicyReading(Optional.empty(), problems);
    }

    private static PolicyReading read(JsonNode policy) {
        var found = new LinkedHashMap<String, String>();
        checkOrder(policy.get("days"), found);
        return found.isEmpty()
                ? new PolicyReading(Optional.of(policy(policy)), List.of())
                : refused(CheckedJson.problems(found));
    }

    private static void checkOrder(JsonNode days, Map<String, String> found) {
        var before = Tier.SAME_DAY;
        for (var tier : Tier.values()) {
            if (tier == Tier.SAME_DAY || tier == Tier.ADVICE_ONLY) {
                continue;
            }
            if (days(days, tier) <= days(days, before)) {
                found.put(
                        FieldPath.field("days", RecordForm.name(tier)),
                        "A less urgent tier must have more days: %s has %d and %s, the more urgent one, %d. Change one of them."
                                .formatted(
                                        RecordForm.name(tier),
                                        days(days, tier),
                                        RecordForm.name(before),
                                        days(days, before)));
            }
            before = tier;
        }
    }

    private static int days(JsonNode days, Tier tier) {
        return whole(days, RecordForm.name(tier));
    }

    private static int whole(JsonNode object, String name) {
        return object.get(name).decimalValue().intValueExact();
    }

    private static Policy policy(JsonNode object) {
        var days = new EnumMap<Tier, Integer>(Tier.class);
        for (var tier : Tier.values()) {
            if (tier != Tier.ADVICE_ONLY) {
                days.put(tier, days(object.get("days"), tier));
            }
        }
        var validity = object.get("validity");
        return new Policy(
                object.get("id").stringValue(),
                days,
                new Policy.Validity(
                        whole(validity, "creatinine"),
                        whole(validity, "creatinineWhenImpaired"),
                        whole(validity, "bloodCount"),
                        whole(validity, "inr"),
                        whole(validity, "imagingMonths")),
                metformin(object));
    }

    /** Policies of the time before this choice say nothing of it, and went by the drug label. */
    private static Policy.Metformin metformin(JsonNode object) {
        var chosen = object.get(METFORMIN);
        return chosen != null && chosen.stringValue().equals(RecordForm.name(Policy.Metformin.CONTRAST_MANUAL))
                ? Policy.Metformin.CONTRAST_MANUAL
                : Policy.Metformin.DRUG_LABEL;
    }

    /** Writes {@code policy} with its fields in the order of the format. */
    public static JsonNode write(Policy policy) {
        var object = NODES.objectNode();
        object.put("id", policy.id());
        var days = object.putObject("days");
        for (var tier : Tier.values()) {
            var tierDays = policy.days().get(tier);
            if (tierDays != null) {
                days.put(RecordForm.name(tier), tierDays);
            }
        }
        object.set("validity", RecordForm.of(Policy.Validity.class).write(policy.validity()));
        if (policy.metformin() != Policy.Metformin.DRUG_LABEL) {
            object.put(METFORMIN, RecordForm.name(policy.metformin()));
        }
        return object;
    }
}
