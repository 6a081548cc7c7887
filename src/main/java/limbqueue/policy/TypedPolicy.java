package limbqueue.policy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import limbqueue.document.PolicyFormat;
import limbqueue.practice.PolicyVersion;
import limbqueue.practice.SecondLook;
import limbqueue.triage.Policy;
import limbqueue.triage.Policy.Metformin;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A policy as it stands in the fields, whether it can be right or not.
 *
 * @param fields what is typed, by the path of the field: those of {@link PolicyNumber} and the constants here
 */
public record TypedPolicy(Map<String, String> fields) {

    public static final String NAME = "id";
    /** Name of a {@link Metformin}. */
    public static final String METFORMIN = "metformin";
    /** {@code true} or {@code false}. */
    public static final String SECOND_LOOK_RED_FLAG = "secondLook.loweredAgainstRedFlag";
    /** {@code true} or {@code false}. */
    public static final String SECOND_LOOK_LIMB_THREAT = "secondLook.loweredBelowLimbThreat";
    /** A date as {@code 2026-03-02}. */
    public static final String VALID_FROM = "validFrom";

    public static final String REASON = "reason";

    private static final Pattern WHOLE = Pattern.compile("-?\\d{1,9}");

    public TypedPolicy {
        fields = Map.copyOf(fields);
    }

    /**
     * What was typed, read.
     *
     * @param policy empty while something of it cannot be right
     * @param validFrom empty while it is no day that may be chosen
     * @param problems what cannot be right and what to do, by the path of its field, in the order of the fields
     */
    public record Read(
            Optional<Policy> policy,
            SecondLook secondLook,
            Optional<LocalDate> validFrom,
            String reason,
            Map<String, String> problems) {}

    /** The fields as they begin: what is in force, under a new name and from today on. */
    public static TypedPolicy of(PolicyVersion inForce, String name, LocalDate today) {
        var fields = new TreeMap<String, String>();
        for (var number : PolicyNumber.values()) {
            fields.put(number.path(), Integer.toString(number.of(inForce.policy())));
        }
        fields.put(NAME, name);
        fields.put(METFORMIN, inForce.policy().metformin().name());
        fields.put(SECOND_LOOK_RED_FLAG, Boolean.toString(inForce.secondLook().loweredAgainstRedFlag()));
        fields.put(
                SECOND_LOOK_LIMB_THREAT, Boolean.toString(inForce.secondLook().loweredBelowLimbThreat()));
        fields.put(VALID_FROM, today.toString());
        fields.put(REASON, "");
        return new TypedPolicy(fields);
    }

    /** Empty where nothing is typed. */
    public String get(String path) {
        return fields.getOrDefault(path, "");
    }

    public TypedPolicy with(String path, String typed) {
        var changed = new TreeMap<>(fields);
        changed.put(path, typed);
        return new TypedPolicy(changed);
    }

    /** @param today the earliest day from which a policy may count */
    public Read read(LocalDate today) {
        var problems = new LinkedHashMap<String, String>();
        var reading = PolicyFormat.parse(
                new ByteArrayInputStream(document().toString().getBytes(StandardCharsets.UTF_8)));
        reading.problems().forEach(problem -> problems.put(field(problem.path()), problem.text()));
        var validFrom = date(get(VALID_FROM)).filter(day -> !day.isBefore(today));
        if (validFrom.isEmpty()) {
            problems.put(VALID_FROM, "Choose the first day on which it counts: today or later.");
        }
        if (get(REASON).isBlank()) {
            problems.put(REASON, "Say why the policy changes; it is kept with the policy.");
        }
        return new Read(
                reading.policy(),
                new SecondLook(
                        Boolean.parseBoolean(get(SECOND_LOOK_RED_FLAG)),
                        Boolean.parseBoolean(get(SECOND_LOOK_LIMB_THREAT))),
                validFrom,
                get(REASON).strip(),
                problems);
    }

    /** In the public format, with what is no number left as it is, so that the format says what is wrong with it. */
    private ObjectNode document() {
        var document = JsonNodeFactory.instance.objectNode();
        document.put(NAME, get(NAME).strip());
        document.putObject("days").put("sameDay", 0);
        document.putObject("validity");
        for (var number : PolicyNumber.values()) {
            var names = number.path().split("\\.", -1);
            var into = (ObjectNode) document.get(names[0]);
            var typed = get(number.path()).strip();
            if (WHOLE.matcher(typed).matches()) {
                into.put(names[1], Integer.parseInt(typed));
            } else if (!typed.isEmpty()) {
                into.put(names[1], typed);
            }
        }
        if (get(METFORMIN).equals(Metformin.CONTRAST_MANUAL.name())) {
            document.put(METFORMIN, "contrastManual");
        }
        return document;
    }

    /** A missing number is told of the object that lacks it; it belongs to the first field that is empty. */
    private String field(String path) {
        if (fields.containsKey(path)) {
            return path;
        }
        return Arrays.stream(PolicyNumber.values())
                .map(PolicyNumber::path)
                .filter(field -> field.startsWith(path) && get(field).isBlank())
                .findFirst()
                .orElse(NAME);
    }

    private static Optional<LocalDate> date(String typed) {
        try {
            return Optional.of(LocalDate.parse(typed));
        } catch (DateTimeException none) {
            return Optional.empty();
        }
    }
}
