package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

class TriageCommandTest {

    private static final String EMPTY = "{\"reference\":\"%s\"}";

    @TempDir
    Path folder;

    record Printed(int status, String out, String err) {
        List<String> references() {
            return out.lines()
                    .map(line -> line.replaceFirst("^\\{\"reference\":\"([^\"]*)\".*", "$1"))
                    .toList();
        }
    }

    static Printed run(String... arguments) {
        var out = new ByteArrayOutputStream();
        var err = new ByteArrayOutputStream();
        var status = Commands.run(List.of(arguments), out, new PrintStream(err, true, StandardCharsets.UTF_8));
        return new Printed(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    private static Printed triage(String... arguments) {
        var all = new ArrayList<>(List.of("triage", "--as-of", "2026-03-02"));
        all.addAll(List.of(arguments));
        return run(all.toArray(String[]::new));
    }

    private Path file(String name, String text) throws IOException {
        var file = folder.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.writeString(file, text);
    }

    @TestFactory
    Stream<DynamicTest> whatIsWrongIsToldInOneLine() throws IOException {
        List<String> lines;
        try (var in = TriageCommandTest.class.getResourceAsStream("bad-documents.txt")) {
            assertThat(in).isNotNull();
            lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .toList();
        }
        var documents = Stream.<DynamicTest>builder();
        for (var i = 0; i < lines.size(); ) {
            var document = lines.get(i++);
            var expected = new ArrayList<String>();
            while (i < lines.size()
                    && (expected.isEmpty()
                            || lines.get(i).startsWith("[") && lines.get(i).matches("\\[\\d+].*: .*"))) {
                expected.add(lines.get(i++));
            }
            documents.add(dynamicTest(document, () -> {
                var file = file("bad.json", document);
                var printed = triage(file.toString());
                assertThat(printed.err().lines().map(line -> line.replace(file + ": ", "")))
                        .containsExactlyElementsOf(expected);
                assertThat(printed.err()).startsWith(file + ": ").endsWith("\n");
                assertThat(printed.status()).isEqualTo(2);
            }));
        }
        return documents.build();
    }

    @Test
    void aBadDocumentDoesNotHoldUpTheOthers() throws IOException {
        var file = file("list.json", "[{\"reference\":\"A\"},{\"weightKg\":-1},{\"reference\":\"C\"}]");
        var printed = triage(file.toString());
        assertThat(printed.references()).containsExactly("A", "C");
        assertThat(printed.err()).startsWith(file + ": [1].weightKg: ").hasLineCount(1);
        assertThat(printed.status()).isEqualTo(2);
    }

    @Test
    void whatStandsBeforeABreakInAListIsStillTriaged() throws IOException {
        var file = file("list.json", "[{\"reference\":\"A\"},\n{\"reference\":}]");
        var printed = triage(file.toString());
        assertThat(printed.references()).containsExactly("A");
        assertThat(printed.err()).startsWith(file + ": line 2, column 14: ");
    }

    @Test
    void foldersAreReadSortedWithTheirInnerFoldersAndNamedFilesWhateverTheirName() throws IOException {
        file("in/b.referral.json", EMPTY.formatted("B"));
        file("in/a/z.referral.json", EMPTY.formatted("AZ"));
        file("in/c.json", EMPTY.formatted("no"));
        var named = file("named.txt", EMPTY.formatted("N"));
        var printed = triage(named.toString(), folder.resolve("in").toString(), named.toString());
        assertThat(printed.references()).containsExactly("N", "AZ", "B", "N");
        assertThat(printed.err()).isEmpty();
        assertThat(printed.status()).isZero();
    }

    @Test
    void aFolderThatContainsItselfIsReadOnce() throws IOException {
        file("in/a.referral.json", EMPTY.formatted("A"));
        Files.createSymbolicLink(folder.resolve("in/loop"), folder.resolve("in"));
        assertThat(triage(folder.resolve("in").toString()).references()).containsExactly("A");
    }

    @Test
    void aFolderWithoutReferralsIsToldAndNoError() {
        var printed = triage(folder.toString());
        assertThat(printed.err())
                .isEqualTo(folder + ": there is no file named *.referral.json in this folder, so nothing was read.\n");
        assertThat(printed.status()).isZero();
    }

    @Test
    void aMissingPathIsToldAndTheOthersAreRead() throws IOException {
        var file = file("a.json", EMPTY.formatted("A"));
        var printed = triage(folder.resolve("no").toString(), file.toString());
        assertThat(printed.err())
                .isEqualTo(folder.resolve("no") + ": there is no such file or folder. Check the path.\n");
        assertThat(printed.references()).containsExactly("A");
        assertThat(printed.status()).isEqualTo(2);
    }

    @Test
    void everyResultIsOneLineWithTheNoticeAndTheDayAskedFor() throws IOException {
        var printed = triage(file("a.json", "\ufeff{\"reference\":\"Grüße\"}").toString());
        assertThat(printed.out()).hasLineCount(1).endsWith("}\n").contains(TriageResult.NOTICE);
        assertThat(printed.out())
                .startsWith("{\"reference\":\"Grüße\",\"asOf\":\"2026-03-02\",\"policy\":\"standard-1\"");
    }

    @Test
    void aPolicyFileIsUsed() throws IOException {
        var policy = file(
                "own.policy.json",
                Files.readString(Path.of("demo-referrals/standard.policy.json")).replace("standard-1", "own-7"));
        var referral = file("a.json", EMPTY.formatted("A"));
        assertThat(triage("--policy", policy.toString(), referral.toString()).out())
                .contains("\"policy\":\"own-7\"");
        assertThat(triage("--policy=" + policy, "--", referral.toString()).status())
                .isZero();
    }

    @Test
    void aPolicyThatCannotBeUsedStopsTheRunInOneLine() throws IOException {
        var standard = Files.readString(Path.of("demo-referrals/standard.policy.json"));
        assertThat(policyComplaint(standard.replace("\"within14Days\": 14", "\"within14Days\": 4")))
                .isEqualTo(
                        "days.within14Days: A less urgent tier must have more days: within14Days has 4 and within5Days, the more urgent one, 5. Change one of them.");
        assertThat(policyComplaint(standard.replace("\"inr\": 1,", "")))
                .isEqualTo("validity.inr: The field \"inr\" is missing. Add it.");
        assertThat(policyComplaint(standard.replace("\"sameDay\": 0", "\"sameDay\": 2")))
                .isEqualTo(
                        "days.sameDay: Target of the tier sameDay 2 days is not possible: it lies only at 0 days. Change it.");
        assertThat(policyComplaint(standard.replace("\"inr\"", "\"INR\"")))
                .contains(
                        "validity.INR: There is no field \"INR\" in \"How long results may be used\". Did you mean inr?");
        assertThat(policyComplaint("{")).startsWith("line 1, column ");
    }

    private String policyComplaint(String policy) throws IOException {
        var file = file("bad.policy.json", policy);
        var printed = triage("--policy", file.toString(), folder.toString());
        assertThat(printed.status()).isEqualTo(2);
        assertThat(printed.out()).isEmpty();
        var start = "limbqueue triage: the policy cannot be used. " + file + ": ";
        assertThat(printed.err()).startsWith(start).hasLineCount(1);
        return printed.err().substring(start.length()).strip();
    }

    @Test
    void argumentsThatMakeNoSenseAreToldInOneLine() {
        assertThat(run("triage", "--when", "x"))
                .isEqualTo(
                        new Printed(
                                2,
                                "",
                                "limbqueue triage: there is no option --when. The options are --as-of DATE, --policy FILE and --help.\n"));
        assertThat(run("triage", "--as-of", "2.3.2026", "x"))
                .isEqualTo(
                        new Printed(
                                2,
                                "",
                                "limbqueue triage: --as-of 2.3.2026 is not a date. Write it as year-month-day, such as 2026-03-02.\n"));
        assertThat(run("triage", "--as-of"))
                .isEqualTo(new Printed(
                        2, "", "limbqueue triage: --as-of needs a date after it, such as --as-of 2026-03-02.\n"));
        assertThat(run("triage", "--policy", "/no/such", "x"))
                .isEqualTo(
                        new Printed(
                                2,
                                "",
                                "limbqueue triage: the policy cannot be read. /no/such: there is no such file or folder. Check the path.\n"));
        assertThat(run("tirage"))
                .isEqualTo(new Printed(
                        2,
                        "",
                        "limbqueue: there is no command \"tirage\". The commands are: triage, read-letter, plan.\n"));
    }

    @Test
    void withoutAPathTheUsageIsPrinted() {
        var printed = run("triage");
        assertThat(printed.status()).isEqualTo(2);
        assertThat(printed.out()).isEmpty();
        assertThat(printed.err()).startsWith("java -jar limbqueue.jar triage [--as-of DATE] [--policy FILE] PATH...\n");
        assertThat(run("triage", "--help")).isEqualTo(new Printed(0, printed.err(), ""));
        assertThat(run("--help").out())
                .startsWith(printed.err())
                .contains("java -jar limbqueue.jar read-letter PATH...\n");
    }

    @Test
    void aReaderThatHasHadEnoughEndsTheRunQuietly() throws IOException {
        var file = file("list.json", "[" + "{},".repeat(50) + "{}]");
        var err = new ByteArrayOutputStream();
        var status = Commands.run(
                List.of("triage", file.toString()),
                failing("Broken pipe"),
                new PrintStream(err, true, StandardCharsets.UTF_8));
        assertThat(err.size()).isZero();
        assertThat(status).isZero();
    }

    @Test
    void aFullDiskIsTold() throws IOException {
        var file = file("a.json", "{}");
        var err = new ByteArrayOutputStream();
        var status = Commands.run(
                List.of("triage", file.toString()),
                failing("No space left on device"),
                new PrintStream(err, true, StandardCharsets.UTF_8));
        assertThat(err.toString(StandardCharsets.UTF_8))
                .isEqualTo(
                        "limbqueue: the results cannot be written: No space left on device. Check the place they are sent to.\n");
        assertThat(status).isEqualTo(2);
    }

    private static OutputStream failing(String message) {
        return new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                throw new IOException(message);
            }
        };
    }
}
