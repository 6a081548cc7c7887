package limbqueue.document;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.TriageResult.ToeBrachialIndex;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Writes triage results in the public data format, version 1. */
public final class ResultFormat {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private ResultFormat() {}

    /** One JSON object on one line, without the line's end, the same bytes for the same result. */
    public static String write(TriageResult result) {
        return JsonText.write(RecordForm.of(TriageResult.class).write(result, ResultFormat::special));
    }

    private static Optional<JsonNode> special(Object value) {
        return switch (value) {
            case AnkleBrachialIndex index -> Optional.of(index(index, index.value()));
            case ToeBrachialIndex index -> Optional.of(index(index, index.value()));
            case Tasc type -> Optional.of(NODES.stringNode(type.label()));
            case Fontaine grade -> Optional.of(NODES.stringNode(grade.label()));
            case RutherfordGrade grade -> Optional.of(rutherford(grade));
            case Rutherford category -> Optional.of(category(category));
            default -> Optional.empty();
        };
    }

    /** An index with the two decimals at which its bands are published. */
    private static JsonNode index(Record index, double value) {
        ObjectNode object = RecordForm.of(index.getClass()).write(index, RecordForm.Special.NONE);
        return object.set("value", NODES.numberNode(BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP)));
    }

    private static JsonNode rutherford(RutherfordGrade grade) {
        var object = NODES.objectNode();
        object.put("scale", RecordForm.name(grade.scale()));
        object.set("category", category(grade.category()));
        var possible = object.putArray("possible");
        grade.possible().forEach(category -> possible.add(category(category)));
        return object;
    }

    /** Chronic categories are numbers, acute ones text, so that a 3 is never taken for a III. */
    private static JsonNode category(Rutherford category) {
        return category.scale() == RutherfordScale.CHRONIC
                ? NODES.numberNode(Integer.parseInt(category.label()))
                : NODES.stringNode(category.label());
    }
}
