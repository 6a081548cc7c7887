package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Tier and red flags of every demo referral, derived by hand; the table gives the rule and its source beside each. */
class TriageOfDemoReferralsTest {

    private record Expected(String reference, String tier, List<String> flags, String rule) {}

    private static List<String[]> rows(String name) throws IOException {
        try (var in = TriageOfDemoReferralsTest.class.getResourceAsStream(name)) {
            assertThat(in).isNotNull();
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#") && !line.isBlank())
                    .skip(1)
                    .map(line -> line.split(";", -1))
                    .toList();
        }
    }

    private static List<Expected> table() throws IOException {
        return rows("demo-referrals.csv").stream()
                .map(cells -> new Expected(
                        cells[0],
                        cells[1],
                        cells[2].isEmpty() ? List.of() : Arrays.asList(cells[2].split(" ")),
                        cells[3]))
                .toList();
    }

    private static List<JsonNode> results() {
        var printed = TriageCommandTest.run("triage", "--as-of", "2026-03-02", "demo-referrals");
        assertThat(printed.err()).isEmpty();
        var mapper = new JsonMapper();
        return printed.out().lines().map(mapper::readTree).toList();
    }

    @TestFactory
    Stream<DynamicTest> tierAndFlagsAreThoseDerivedByHand() throws IOException {
        var results = results();
        return table().stream()
                .map(expected -> dynamicTest(expected.reference() + " " + expected.rule(), () -> {
                    var result = results.stream()
                            .filter(one -> one.get("reference").stringValue().equals(expected.reference()))
                            .findFirst()
                            .orElseThrow();
                    var flags = new ArrayList<String>();
                    result.get("redFlags")
                            .values()
                            .forEach(flag -> flags.add(flag.get("code").stringValue()));
                    assertThat(result.get("urgency").get("tier").stringValue()).isEqualTo(expected.tier());
                    assertThat(flags).containsExactlyInAnyOrderElementsOf(expected.flags());
                    assertThat(expected.rule()).isNotBlank();
                }));
    }

    @Test
    void everyDemoReferralStandsInTheTableOnce() throws IOException {
        assertThat(table().stream().map(Expected::reference))
                .containsExactlyElementsOf(results().stream()
                        .map(result -> result.get("reference").stringValue())
                        .toList());
    }

    @Test
    void theAnatomyIsThatDerivedByHand() throws IOException {
        var found = new ArrayList<String>();
        for (var result : results()) {
            for (var entry : result.get("anatomy").values()) {
                found.add(String.join(
                        ";",
                        result.get("reference").stringValue(),
                        entry.get("region").stringValue(),
                        entry.get("side").stringValue(),
                        entry.path("tasc").asString(""),
                        entry.get("possible")
                                .valueStream()
                                .map(JsonNode::stringValue)
                                .collect(Collectors.joining(" ")),
                        entry.path("glass").asString("")));
            }
        }
        assertThat(found)
                .containsExactlyElementsOf(rows("demo-anatomy.csv").stream()
                        .map(cells -> String.join(";", Arrays.copyOf(cells, 6)))
                        .toList());
    }

    @Test
    void everyTierIsShownByADemoReferral() {
        var tiers = new HashSet<String>();
        results().forEach(result -> tiers.add(result.get("urgency").get("tier").stringValue()));
        assertThat(tiers)
                .containsExactlyInAnyOrder(
                        "sameDay", "within5Days", "within14Days", "within6Weeks", "within18Weeks", "adviceOnly");
    }
}
