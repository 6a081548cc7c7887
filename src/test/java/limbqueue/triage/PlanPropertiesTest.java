package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.random.RandomGenerator;
import java.util.stream.Collectors;
import limbqueue.document.ResultFormat;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * What holds of the plan for every list of lesions. The seeds are fixed; each failure names its own and the referral.
 */
class PlanPropertiesTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** The answers of a lesion's fields, worst last where one is worse than another. */
    private static final Map<String, List<Object>> LESION = new LinkedHashMap<>();

    static {
        LESION.put("side", List.of("left", "right"));
        LESION.put("stenosisPercent", List.of(20, 80, 100));
        LESION.put("lengthMm", List.of(20, 90, 150, 260));
        LESION.put("ostial", List.of(false, true));
        LESION.put("calcification", List.of("none", "moderate", "severe"));
        LESION.put("ageMonths", List.of(1, 24));
        LESION.put("diameterMm", List.of(6, 9));
    }

    private static final List<Object> SEGMENTS = List.of(
            "infrarenalAorta",
            "commonIliac",
            "externalIliac",
            "internalIliac",
            "commonFemoral",
            "profundaFemoris",
            "superficialFemoral",
            "popliteal",
            "anteriorTibial",
            "pedal");

    /** Facts that call for caution, each of them told in a few pairs. */
    private static final List<Map<String, Object>> CAUTIONS = List.of(
            Map.of("procedures[0].side", "left", "procedures[0].outcome", "failed", "procedures[0].kind", "stent"),
            Map.of(
                    "procedures[0].side",
                    "left",
                    "procedures[0].outcome",
                    "failed",
                    "procedures[0].kind",
                    "stent",
                    "procedures[0].accessSite",
                    "right groin"),
            Map.of(
                    "procedures[0].side",
                    "left",
                    "procedures[0].outcome",
                    "completed",
                    "procedures[0].complication",
                    "bleeding",
                    "procedures[0].accessSite",
                    "left groin"),
            Map.of("allergies[0].to", "iohexol"),
            Map.of("legs.right.amputation", "aboveKnee"),
            Map.of("legs.right.pulses.femoral", "absent"),
            Map.of("history.spinalHardware", true),
            Map.of("history.hipOrPelvicHardware", true),
            Map.of("armPressures.left", 100, "armPressures.right", 130),
            Map.of("armPressures.left", 130, "armPressures.right", 100),
            Map.of("history.leftInternalMammaryGraft", true),
            Map.of("history.dialysis", true),
            Map.of("labs[0].test", "egfr", "labs[0].value", 20, "labs[0].unit", "mL/min"),
            Map.of("history.pregnant", true),
            Map.of("history.bleedingDisorder", true),
            Map.of("medicines[0].name", "apixaban"));

    private static void forLesions(
            int count, long firstSeed, double known, BiConsumer<RandomGenerator, Facts> property) {
        for (var i = 0; i < count; i++) {
            var seed = firstSeed + i;
            var random = new Random(seed);
            var facts = draw(random, known);
            try {
                property.accept(random, facts);
            } catch (AssertionError | RuntimeException e) {
                fail("seed " + seed + ": " + e.getMessage() + "\nreferral: " + facts, e);
            }
        }
    }

    /** A left leg with rest pain, and lesions of both sides. */
    private static Facts draw(RandomGenerator random, double known) {
        var values = new TreeMap<String, Object>(Map.of("legs.left.restPain.present", true));
        var size = random.nextInt(5);
        for (var i = 0; i < size; i++) {
            var lesion = "lesions[" + i + "].";
            var segment = RandomReferral.pick(random, SEGMENTS);
            values.put(lesion + "segment", segment);
            LESION.forEach((field, answers) -> {
                if (random.nextDouble() < known && !(field.equals("side") && segment.equals("infrarenalAorta"))) {
                    values.put(lesion + field, RandomReferral.pick(random, answers));
                }
            });
        }
        return new Facts(values);
    }

    private static ProcedurePlan plan(Facts facts) {
        return facts.triage().procedurePlan().orElseThrow();
    }

    private static JsonNode json(Facts facts) {
        return JSON.readTree(ResultFormat.write(facts.triage())).get("procedurePlan");
    }

    /** Everything that a plan says, without the order of its lists and the places of lesions in theirs. */
    private static String unordered(JsonNode node) {
        if (node.isArray()) {
            return node.valueStream()
                    .map(PlanPropertiesTest::unordered)
                    .sorted()
                    .collect(Collectors.joining(",", "[", "]"));
        }
        if (node.isObject()) {
            return node.propertyStream()
                    .map(field -> field.getKey() + ":" + unordered(field.getValue()))
                    .collect(Collectors.joining(",", "{", "}"));
        }
        return node.asString()
                .replaceAll("(lesions|procedures)\\[\\d+]", "$1[]")
                .replaceAll(" \\(lesion \\d+\\)", "");
    }

    @Test
    void exchangingLeftAndRightExchangesThePlan() {
        forLesions(400, 1, 0.9, (random, drawn) -> {
            var facts = drawn.with("armPressures.left", 100).with("armPressures.right", 130);
            if (random.nextBoolean()) {
                facts = facts.with("legs.right.restPain.present", true);
            }
            assertThat(unordered(JSON.readTree(RandomReferral.exchanged(
                            json(RandomReferral.mirrored(facts)).toString()))))
                    .isEqualTo(unordered(json(facts)));
        });
    }

    @Test
    void theOrderOfLesionsDoesNotMatter() {
        forLesions(
                400,
                2_000,
                0.9,
                (random, facts) -> assertThat(unordered(json(RandomReferral.shuffled(facts))))
                        .isEqualTo(unordered(json(facts))));
    }

    @Test
    void aFactThatCallsForCautionTakesNothingOutOfTheRoomAndNoCautionAway() {
        forLesions(200, 4_000, 0.9, (random, facts) -> {
            var before = plan(facts);
            for (var added : CAUTIONS) {
                var more = facts;
                for (var fact : added.entrySet()) {
                    more = more.with(fact.getKey(), fact.getValue());
                }
                var after = plan(more);
                assertThat(items(after)).as(added.toString()).containsAll(items(before));
                assertThat(must(after)).as(added.toString()).containsAll(must(before));
                assertThat(cautions(after)).as(added.toString()).containsAll(cautions(before));
            }
        });
    }

    private static Set<String> items(ProcedurePlan plan) {
        return plan.room().stream().map(ProcedurePlan.RoomItem::item).collect(Collectors.toSet());
    }

    private static Set<String> must(ProcedurePlan plan) {
        return plan.room().stream()
                .filter(ProcedurePlan.RoomItem::mustBeInRoom)
                .map(ProcedurePlan.RoomItem::item)
                .collect(Collectors.toSet());
    }

    private static Set<String> cautions(ProcedurePlan plan) {
        return plan.cautions().stream().map(ProcedurePlan.Caution::text).collect(Collectors.toSet());
    }

    /** One step worse in one field of a lesion that is treated, or a failed attempt more. */
    @Test
    void aWorseLesionNeverTakesLessTime() {
        forLesions(250, 6_000, 0.9, (random, facts) -> {
            var before = plan(facts);
            for (var target : before.targets()) {
                for (var field : List.of("stenosisPercent", "lengthMm", "calcification")) {
                    var path = target.lesion() + "." + field;
                    var answers = Objects.requireNonNull(LESION.get(field));
                    var now = facts.get(path).map(answers::indexOf).orElse(answers.size() - 1);
                    if (now < answers.size() - 1) {
                        notShorter(before, plan(facts.with(path, answers.get(now + 1))), path);
                    }
                }
            }
            notShorter(
                    before,
                    plan(facts.with("procedures[0].side", "left").with("procedures[0].outcome", "failed")),
                    "failed");
        });
    }

    private static void notShorter(ProcedurePlan before, ProcedurePlan after, String why) {
        assertThat(after.expectedMinutes()).as(why).isGreaterThanOrEqualTo(before.expectedMinutes());
        assertThat(after.expectedMinutes90()).as(why).isGreaterThanOrEqualTo(before.expectedMinutes90());
    }

    /** A field of a lesion is asked about when two of its answers make different plans, and only then. */
    @Test
    void exactlyWhatChangesThePlanIsAsked() {
        forLesions(150, 8_000, 0.6, (random, facts) -> {
            var asked = asked(facts);
            for (var path : unknown(facts)) {
                var plans = new HashSet<String>();
                for (var answer : Objects.requireNonNull(LESION.get(path.substring(path.indexOf('.') + 1)))) {
                    plans.add(withoutWords(json(facts.with(path, answer))));
                }
                if (plans.size() > 1) {
                    assertThat(asked).as(path).contains(path);
                } else {
                    assertThat(asked).as(path).doesNotContain(path);
                }
            }
        });
    }

    /** How a lesion is put into words tells every field; that alone makes no other plan. */
    private static String withoutWords(JsonNode plan) {
        return plan.toString().replaceAll("(calcification not known|, \\w+ly calcified)", "");
    }

    private static Set<String> asked(Facts facts) {
        return facts.triage().questions().stream()
                .filter(question -> question.couldChange().contains("procedurePlan"))
                .map(TriageResult.Question::field)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static List<String> unknown(Facts facts) {
        var unknown = new ArrayList<String>();
        for (var i = 0; facts.get("lesions[" + i + "].segment").isPresent(); i++) {
            for (var field : LESION.keySet()) {
                var path = "lesions[" + i + "]." + field;
                var aorta =
                        facts.get("lesions[" + i + "].segment").orElseThrow().equals("infrarenalAorta");
                if (facts.get(path).isEmpty() && !(aorta && field.equals("side"))) {
                    unknown.add(path);
                }
            }
        }
        return unknown;
    }

    @Test
    void whereEverythingIsToldNothingIsAskedForThePlan() {
        forLesions(
                200,
                10_000,
                1,
                (random, facts) -> assertThat(asked(facts.with("procedures", List.of())
                                .with("armPressures.left", 120)
                                .with("armPressures.right", 125)
                                .with("history.leftInternalMammaryGraft", false)
                                .with("history.spinalHardware", false)
                                .with("history.hipOrPelvicHardware", false)
                                .with("legs.left.pulses.femoral", "present")
                                .with("legs.right.pulses.femoral", "present")))
                        .isEmpty());
    }

    /** Every entry names a rule of the book and the source that the book gives for it. */
    @Test
    void noEntryIsWithoutItsRuleAndItsWords() {
        forLesions(
                200,
                12_000,
                0.7,
                (random, facts) -> entries(json(facts)).forEach(entry -> {
                    assertThat(entry.get("rule").asString())
                            .as(entry.toString())
                            .startsWith("plan-");
                    assertThat(entry.get("source").asString())
                            .as(entry.toString())
                            .isNotBlank();
                    for (var word : List.of("why", "text", "view", "item", "fits", "from", "target")) {
                        if (entry.has(word)) {
                            assertThat(entry.get(word).asString())
                                    .as(entry.toString())
                                    .isNotBlank()
                                    .doesNotContain("%")
                                    .doesNotContainPattern("\\s[?:,.]|\\s\\s");
                        }
                    }
                }));
    }

    private static List<JsonNode> entries(JsonNode plan) {
        return plan.valueStream()
                .filter(JsonNode::isArray)
                .flatMap(JsonNode::valueStream)
                .filter(JsonNode::isObject)
                .toList();
    }
}
