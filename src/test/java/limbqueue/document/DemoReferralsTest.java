package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limbqueue.triage.Policy;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class DemoReferralsTest {

    static final Path FOLDER = Path.of("demo-referrals");

    /** The day with which the dates of the demo referrals are coherent, as their README says. */
    static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    static List<Path> files() throws IOException {
        try (var files = Files.list(FOLDER)) {
            return files.filter(file -> file.toString().endsWith(".referral.json"))
                    .sorted()
                    .toList();
        }
    }

    @Test
    void thereAreEnoughOfThem() throws IOException {
        assertThat(files()).hasSizeGreaterThanOrEqualTo(26);
    }

    @Test
    void everyDemoReferralIsReadWithoutProblems() throws IOException {
        for (var file : files()) {
            assertThat(DocumentFormat.parse(Files.readString(file), DAY).problems())
                    .as(file.toString())
                    .isEmpty();
        }
    }

    @Test
    void everyDemoReferralIsWrittenAsItWasRead() throws IOException {
        for (var file : files()) {
            var text = Files.readString(file);
            var read = DocumentFormat.parse(text, DAY).document();
            var written = DocumentFormat.write(read);
            assertThat(DocumentFormat.read(written, DAY)).as(file.toString()).isEqualTo(new Reading(read, List.of()));
            // The time of day of an onset is all that the record does not keep.
            var withoutTime = text.replace("2026-03-01T19:30", "2026-03-01");
            assertThat(Draft.of(JsonText.write(written)).differencesFrom(Draft.of(withoutTime)))
                    .as(file.toString())
                    .isEmpty();
        }
    }

    @Test
    void everyFieldOfTheFormatIsAcceptedAsNull() {
        var schema = PublishedSchema.referral();
        assertThat(DocumentFormat.parse(nulls(schema.root()), DAY).problems()).isEmpty();
    }

    /** An object with every field of {@code part} null, and those of its inner objects and entries null one level on. */
    private static String nulls(JsonNode part) {
        var schema = PublishedSchema.referral();
        return part.get("properties").propertyNames().stream()
                .map(name -> {
                    var field = schema.field(part, name).orElseThrow();
                    var value = field.has("properties")
                            ? nulls(field)
                            : schema.entry(field)
                                    .map(entry -> "[" + nulls(entry) + "]")
                                    .orElse("null");
                    return "\"" + name + "\":" + value;
                })
                .collect(Collectors.joining(",", "{", "}"));
    }

    @Test
    void theReadmeHasALineForEveryDemoReferral() throws IOException {
        var readme = Files.readString(FOLDER.resolve("README.md"));
        var named = new TreeSet<String>();
        var matcher = Pattern.compile("^\\| `([^`]+)` \\| \\S.+ \\|$", Pattern.MULTILINE)
                .matcher(readme);
        while (matcher.find()) {
            named.add(matcher.group(1));
        }
        assertThat(named)
                .containsExactlyElementsOf(files().stream()
                        .map(file -> file.getFileName().toString())
                        .toList());
        assertThat(readme).contains(DAY.toString());
    }

    @Test
    void thePublishedSchemasLieOnTheClassPathByteForByte() throws IOException {
        for (var name : List.of("referral.schema.json", "policy.schema.json", "sessions.schema.json")) {
            try (var in = PublishedSchema.class.getResourceAsStream(name)) {
                assertThat(in).isNotNull().hasBinaryContent(Files.readAllBytes(FOLDER.resolve(name)));
            }
        }
    }

    @Test
    void theExamplePolicyIsTheStandardPolicy() throws IOException {
        try (var in = Files.newInputStream(FOLDER.resolve("standard.policy.json"))) {
            assertThat(PolicyFormat.parse(in).policy()).contains(Policy.standard());
        }
        assertThat(new JsonMapper()
                        .readTree(FOLDER.resolve("standard.policy.json").toFile()))
                .isEqualTo(PolicyFormat.write(Policy.standard()));
    }
}
