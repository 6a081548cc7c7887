package limbqueue.testbed;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.NumericNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Any number of referrals, uneven as they arrive: each is one of the demo referrals with some facts left out and some
 * numbers changed. The same seed gives the same referrals.
 */
public final class GeneratedReferrals {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** Share of facts left out: from a complete letter to a telephone message. */
    private static final double[] LEFT_OUT = {0.0, 0.1, 0.3, 0.6};

    private final List<JsonNode> demo;
    private final RandomGenerator random;
    private int written;

    public GeneratedReferrals(long seed) {
        this.demo = demo();
        this.random = new Random(seed);
    }

    /** The next referral. */
    public JsonNode next() {
        var referral = (ObjectNode) demo.get(random.nextInt(demo.size())).deepCopy();
        thin(referral, LEFT_OUT[random.nextInt(LEFT_OUT.length)]);
        referral.put("reference", "G-%06d".formatted(++written));
        return referral;
    }

    /** The next {@code count} referrals, each as one line of JSON. */
    public List<String> lines(int count) {
        return Stream.generate(this::next).limit(count).map(JsonNode::toString).toList();
    }

    private void thin(JsonNode node, double leftOut) {
        if (node instanceof ObjectNode object) {
            for (var name : List.copyOf(object.propertyNames())) {
                var value = object.get(name);
                if (value.isContainer()) {
                    thin(value, leftOut);
                } else if (random.nextDouble() < leftOut) {
                    object.remove(name);
                } else if (value instanceof NumericNode number && number.isIntegralNumber() && random.nextInt(4) == 0) {
                    object.put(name, Math.max(1, Math.round(number.asInt() * (0.8 + 0.2 * random.nextDouble()))));
                }
            }
        } else if (node instanceof ArrayNode list) {
            list.forEach(entry -> thin(entry, leftOut));
        }
    }

    private static List<JsonNode> demo() {
        try (var files = Files.list(Path.of("demo-referrals"))) {
            var referrals = new ArrayList<JsonNode>();
            for (var file : files.filter(path -> path.toString().endsWith(".referral.json"))
                    .sorted()
                    .toList()) {
                referrals.add(JSON.readTree(Files.readString(file)));
            }
            return referrals;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
