package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * No number is taken for another because its unit was mistaken. The limits are common practice, no source: where two units
 * of a test give numbers of another size, none is possible in both, and true extremes are given in the other unit.
 */
class LaboratoryUnitsTest {

    private record Range(String unit, double least, double most) {

        boolean overlaps(Range other) {
            return least <= other.most && other.least <= most;
        }
    }

    private static Map<String, List<Range>> ranges() {
        var ranges = new HashMap<String, List<Range>>();
        for (var rule : PublishedSchema.referral().root().at("/$defs/lab/allOf").values()) {
            var given = rule.at("/if/properties");
            var value = rule.at("/then/properties/value");
            if (given.at("/unit/const").isString() && value.isObject()) {
                ranges.computeIfAbsent(given.at("/test/const").stringValue(), test -> new ArrayList<>())
                        .add(new Range(
                                given.at("/unit/const").stringValue(),
                                number(value, "minimum"),
                                number(value, "maximum")));
            }
        }
        return ranges;
    }

    private static double number(JsonNode value, String name) {
        return value.get(name).doubleValue();
    }

    private static Range range(String test, String unit) {
        return ranges().getOrDefault(test, List.of()).stream()
                .filter(range -> range.unit().equals(unit))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void noCreatinineIsPossibleInBothOfItsUnits() {
        assertThat(range("creatinine", "mg/dL").overlaps(range("creatinine", "umol/L")))
                .isFalse();
    }

    @Test
    void noHbA1cIsPossibleInBothOfItsUnits() {
        assertThat(range("hba1c", "%").overlaps(range("hba1c", "mmol/mol"))).isFalse();
    }

    @Test
    void noHaemoglobinIsPossibleInGramsPerLitreAndAnotherUnit() {
        assertThat(range("haemoglobin", "g/L").overlaps(range("haemoglobin", "g/dL")))
                .isFalse();
        assertThat(range("haemoglobin", "g/L").overlaps(range("haemoglobin", "mmol/L")))
                .isFalse();
    }

    @Test
    void everyUnitThatIsOfferedHasItsLimits() {
        for (var rule : PublishedSchema.referral().root().at("/$defs/lab/allOf").values()) {
            var units = rule.at("/then/properties/unit/enum");
            if (units.isArray()) {
                var test = rule.at("/if/properties/test/const").stringValue();
                assertThat(ranges().getOrDefault(test, List.of()).stream().map(Range::unit))
                        .as(test)
                        .containsExactlyInAnyOrderElementsOf(units.values().stream()
                                .filter(JsonNode::isString)
                                .map(JsonNode::stringValue)
                                .toList());
            }
        }
        assertThat(ranges()).hasSize(10);
    }

    /** What is called likely must itself be possible. */
    @Test
    void theUnitThatIsCalledLikelyPermitsTheNumber() {
        for (var rule : PublishedSchema.referral().root().at("/$defs/lab/allOf").values()) {
            var likely = rule.at("/then/properties/value/x-likelyUnits");
            for (var other : likely.isArray() ? likely.values() : List.<JsonNode>of()) {
                var test = rule.at("/if/properties/test/const").stringValue();
                var range = range(test, other.get("unit").stringValue());
                assertThat(number(other, "minimum")).as(test).isGreaterThanOrEqualTo(range.least());
                assertThat(number(other, "maximum")).as(test).isLessThanOrEqualTo(range.most());
            }
        }
    }
}
