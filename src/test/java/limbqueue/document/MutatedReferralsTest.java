package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Demo referrals with seeded damage, in their text and in their values. Whatever the damage, reading ends with problems
 * and never with an exception, and every value of the text is either in the document that was read or under a problem:
 * nothing is half-read in silence.
 */
class MutatedReferralsTest {

    /** {@code -Dmutated.documents=1000000} tries more of them. */
    private static final int DOCUMENTS = Integer.getInteger("mutated.documents", 20_000);

    /** No document may take more of a processor's time to read. */
    private static final Duration LONGEST = Duration.ofSeconds(1);

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
    private static final long SEED = 20260302;

    private static final List<String> VALUES = List.of(
            "null",
            "true",
            "false",
            "0",
            "-1",
            "57",
            "900",
            "0.43",
            "2.0",
            "2.5",
            "1e3",
            "1E400",
            "-1e-400",
            "1e999999",
            "123456789012345678901234567890",
            "\"\"",
            "\" \"",
            "\"x\"",
            "\"none\"",
            "\"left\"",
            "\"0,57\"",
            "\"57\"",
            "\"2026-02-30\"",
            "\"2031-01-01\"",
            "\"1066-10-14\"",
            "\"2026-03-01T25:00\"",
            "\"2026-02-27\"",
            "\"line\\nbreak\\u0000\\u2028\"",
            "\"\\ud83d\"",
            "\"\\ud83e\\uddb5\"",
            "[]",
            "[null]",
            "[[]]",
            "[{}]",
            "{}",
            "{\"left\":{}}",
            "{\"present\":true}",
            "{\"a.b\":{\"\":[1]}}",
            "\"" + "long ".repeat(60) + "\"",
            "[".repeat(600) + "]".repeat(600));

    private static final List<String> PIECES = List.of(
            "{",
            "}",
            "[",
            "]",
            ",",
            ":",
            "\"",
            "\\",
            "null",
            "NaN",
            "-",
            "1e",
            "//",
            "\u0000",
            "\ufeff",
            "\ud83e",
            "é",
            "\n",
            "\"abi\":1,",
            "\"legs\":{},");

    @Test
    void readingEndsWithProblemsAndNeverWithAnExceptionAndLosesNothing() throws IOException {
        var originals = new ArrayList<String>();
        for (var file : DemoReferralsTest.files()) {
            originals.add(Files.readString(file).replaceAll("\n *", " "));
        }
        var complete = 0;
        for (var i = 0; i < DOCUMENTS; i++) {
            var seed = SEED + i;
            var random = new Random(seed);
            var text = damaged(originals.get(random.nextInt(originals.size())), random);
            var begin = THREADS.getCurrentThreadCpuTime();
            try {
                complete += check(text) ? 1 : 0;
                assertThat(Duration.ofNanos(THREADS.getCurrentThreadCpuTime() - begin))
                        .as("time to read")
                        .isLessThan(LONGEST);
            } catch (RuntimeException | StackOverflowError | AssertionError e) {
                throw new AssertionError("seed %d: %s%n%s".formatted(seed, e, text), e);
            }
        }
        // The damage must neither always be found harmless nor always be fatal, or the test would test nothing.
        assertThat(complete).isBetween(DOCUMENTS / 20, DOCUMENTS * 3 / 4);
    }

    private static String damaged(String text, Random random) {
        var damaged = text;
        for (var times = 1 + random.nextInt(3); times > 0; times--) {
            damaged = switch (random.nextInt(8)) {
                case 0 -> withPiece(damaged, random);
                case 1 -> damaged.substring(0, random.nextInt(damaged.length() + 1));
                case 2 -> {
                    var at = random.nextInt(Math.max(1, damaged.length()));
                    yield damaged.substring(0, at)
                            + damaged.substring(Math.min(damaged.length(), at + 1 + random.nextInt(4)));
                }
                case 3 -> withOtherName(damaged, random);
                default -> withOtherValue(damaged, random);
            };
        }
        return damaged;
    }

    private static String withPiece(String text, Random random) {
        var at = random.nextInt(text.length() + 1);
        return text.substring(0, at) + PIECES.get(random.nextInt(PIECES.size())) + text.substring(at);
    }

    /** Puts another value after some colon. */
    private static String withOtherValue(String text, Random random) {
        var colon = text.indexOf("\": ", random.nextInt(text.length() + 1));
        if (colon < 0) {
            return text;
        }
        var end = colon + 3;
        var quoted = false;
        var depth = 0;
        for (; end < text.length(); end++) {
            var c = text.charAt(end);
            if (c == '"' && text.charAt(end - 1) != '\\') {
                quoted = !quoted;
            }
            if (!quoted) {
                if (depth == 0 && (c == ',' || c == '}' || c == ']')) {
                    break;
                }
                depth += c == '{' || c == '[' ? 1 : c == '}' || c == ']' ? -1 : 0;
            }
        }
        return text.substring(0, colon + 3) + VALUES.get(random.nextInt(VALUES.size())) + text.substring(end);
    }

    private static String withOtherName(String text, Random random) {
        var end = text.indexOf("\": ", random.nextInt(text.length() + 1));
        if (end < 1) {
            return text;
        }
        return random.nextBoolean()
                ? text.substring(0, end - 1) + text.substring(end)
                : text.substring(0, end) + "X" + text.substring(end);
    }

    /** @return whether the document was read without problems */
    private static boolean check(String text) {
        var reading = DocumentFormat.parse(text, DemoReferralsTest.DAY);
        for (var problem : reading.problems()) {
            assertThat(problem.text()).isNotBlank().doesNotContain("\n");
        }
        if (reading.problems().stream().anyMatch(problem -> problem.path().isEmpty())) {
            assertThat(reading.document()).isEqualTo(DocumentFormat.empty());
            return false;
        }
        JsonNode read;
        try (var parser = JsonText.parser(text)) {
            parser.nextToken();
            read = JsonText.value(parser).node();
        }
        // A quick look that sees nothing wrong must not hide what the schema library would have found.
        var schema = PublishedSchema.referral();
        if (schema.problemsOf(read).isEmpty()) {
            assertThat(schema.problemsFoundByTheLibrary(read)).isEmpty();
        }
        var problems = reading.problems().stream().map(Problem::path).collect(Collectors.toSet());
        lookFor(read, DocumentFormat.write(reading.document()), "", problems);
        return problems.isEmpty();
    }

    /** Looks for every value of {@code read} in {@code kept}, except at the paths of problems. */
    private static void lookFor(JsonNode read, JsonNode kept, String path, Set<String> problems) {
        if (problems.contains(path)
                || read.isNull()
                || read.isString() && read.stringValue().isBlank()) {
            return;
        }
        if (read.isObject()) {
            for (var field : read.properties()) {
                lookFor(field.getValue(), kept.path(field.getKey()), FieldPath.field(path, field.getKey()), problems);
            }
        } else if (read.isArray()) {
            assertThat(kept.isMissingNode()).as(path).isFalse();
            assertThat(kept.size()).as(path).isEqualTo(read.size());
            for (var i = 0; i < read.size(); i++) {
                lookFor(read.get(i), kept.get(i), FieldPath.entry(path, i), problems);
            }
        } else {
            assertThat(kept.isMissingNode()).as(path).isFalse();
            if (read.isNumber()) {
                assertThat(kept.doubleValue()).as(path).isEqualTo(read.doubleValue());
            } else if (path.endsWith("acute.onset")) {
                assertThat(read.stringValue()).startsWith(kept.stringValue());
            } else {
                assertThat(kept).as(path).isEqualTo(read);
            }
        }
    }
}
