package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The packaged jar, started as its users start it. */
class TriageJarIT {

    private static final Path JAR = Path.of(System.getProperty("limbqueue.jar"));

    @TempDir
    Path folder;

    private record Ended(int status, String out, String err) {}

    private Ended java(List<String> options, String... arguments) throws IOException, InterruptedException {
        var command = new ArrayList<String>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(options);
        command.add("-jar");
        command.add(JAR.toString());
        command.addAll(List.of(arguments));
        var out = folder.resolve("out");
        var err = folder.resolve("err");
        var process = new ProcessBuilder(command)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        if (!process.waitFor(2, TimeUnit.MINUTES)) {
            process.destroyForcibly();
            throw new AssertionError("did not end: " + command);
        }
        return new Ended(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    @Test
    void twoRunsPrintTheSameBytes() throws Exception {
        var one = java(List.of(), "triage", "--as-of", "2026-03-02", "demo-referrals");
        var other = java(
                List.of("-Duser.timezone=Pacific/Auckland", "-Duser.language=tr", "-Dfile.encoding=ISO-8859-1"),
                "triage",
                "--as-of",
                "2026-03-02",
                "demo-referrals");
        assertThat(one.err()).isEmpty();
        assertThat(one.out()).hasLineCount(35).isEqualTo(other.out());
        assertThat(one.status()).isZero();
    }

    /** So many that Java is started once more for them, unless options of Java are given. */
    @Test
    void aLongRunPrintsWhatAShortOneDoesAndPassesErrorsAndStatusOn() throws Exception {
        var one = Files.readString(Path.of("demo-referrals/05-rest-pain.referral.json"));
        var many = Collections.nCopies(2_500_000 / one.length(), one);
        var file =
                Files.writeString(folder.resolve("many.referral.json"), "[{\"abi\":1}," + String.join(",", many) + "]");
        var triage = new String[] {"triage", "--as-of", "2026-03-02", file.toString()};
        var again = java(List.of("-Xmx96m", "-Duser.language=tr"), triage);
        var here = java(List.of("-XX:TieredStopAtLevel=1"), triage);
        assertThat(again).isEqualTo(here);
        assertThat(again.status()).isEqualTo(2);
        assertThat(again.out()).hasLineCount(many.size());
        assertThat(again.err()).startsWith(file + ": [0].abi: ");
    }

    @Test
    void twoRunsPrintTheSamePlan() throws Exception {
        var plan = new String[] {
            "plan", "--as-of", "2026-03-02", "--steps", "5000", "demo-referrals/sessions.json", "demo-referrals"
        };
        var one = java(List.of(), plan);
        var other = java(
                List.of("-Duser.timezone=Pacific/Auckland", "-Duser.language=tr", "-XX:TieredStopAtLevel=1"), plan);
        assertThat(one.err()).isEmpty();
        assertThat(one.status()).isZero();
        assertThat(one.out())
                .startsWith("{\"notice\":")
                .contains("\"reference\":\"D-0005\"")
                .isEqualTo(other.out());
    }

    @Test
    void sessionsThatRepeatAndBankHolidaysAreReadFromTheJar() throws Exception {
        var sessions = Files.writeString(folder.resolve("sessions.json"), """
                {"zone": "Europe/Vienna", "holidays": "AT", "sessions": [
                  {"id": "clinic", "kind": "clinic", "date": "2026-03-09", "start": "08:00", "end": "12:00", "place": "Room 1",
                   "operator": "Dr Imre", "repeats": "FREQ=WEEKLY;UNTIL=20260413"}]}
                """);
        var ended = java(
                List.of("-Duser.language=tr"),
                "plan",
                "--as-of",
                "2026-03-02",
                sessions.toString(),
                "demo-referrals/05-rest-pain.referral.json");
        assertThat(ended.err()).isEmpty();
        assertThat(ended.status()).isZero();
        assertThat(ended.out())
                .contains("2026-04-06 is a bank holiday (Easter Monday), so these are closed: clinic-2026-04-06.");
    }

    @Test
    void aBadDocumentIsToldInUtf8AndTheStatusIsTwo() throws Exception {
        var file =
                Files.writeString(folder.resolve("bad.json"), "{\"legs\":{\"left\":{\"wound\":{\"ulcer\":\"groß\"}}}}");
        var ended = java(List.of(), "triage", file.toString());
        assertThat(ended)
                .isEqualTo(
                        new Ended(
                                2,
                                "",
                                file
                                        + ": legs.left.wound.ulcer: Ulcer must be none, shallow, deep or extensive, not \"groß\".\n"));
    }

    @Test
    void theCommandLineLoadsNeitherSpringNorALogNorAnObjectMapper() throws Exception {
        var loaded = folder.resolve("loaded");
        var ended = java(
                List.of("-Xlog:class+load:file=" + loaded + ":none"),
                "triage",
                "demo-referrals/05-rest-pain.referral.json");
        assertThat(ended.status()).as(ended.err()).isZero();
        assertThat(Files.readAllLines(loaded))
                .anyMatch(line -> line.startsWith("limbqueue.triage.Triage "))
                .noneMatch(line -> line.startsWith("org.springframework."))
                .noneMatch(line -> line.startsWith("ch.qos.logback."))
                .noneMatch(line -> line.startsWith("tools.jackson.databind.json.JsonMapper "));
    }
}
