package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import limbqueue.document.DocumentFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

class ReadLetterCommandTest {

    @TempDir
    Path folder;

    private record Printed(int status, String out, String err) {
        List<JsonNode> lines() {
            return out.lines().map(line -> new ObjectMapper().readTree(line)).toList();
        }
    }

    private static Printed read(String... arguments) {
        var all = new ArrayList<>(List.of("read-letter"));
        all.addAll(List.of(arguments));
        var out = new ByteArrayOutputStream();
        var err = new ByteArrayOutputStream();
        var status = Commands.run(all, out, new PrintStream(err, true, StandardCharsets.UTF_8));
        return new Printed(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    private Path file(String name, String text) throws IOException {
        return file(name, text, StandardCharsets.UTF_8);
    }

    private Path file(String name, String text, Charset charset) throws IOException {
        var file = folder.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.write(file, text.getBytes(charset));
    }

    private static JsonNode found(JsonNode line, String field) {
        return line.get("found")
                .valueStream()
                .filter(found -> found.get("field").asString().equals(field))
                .findFirst()
                .orElseThrow();
    }

    /** The form of a line is that of referral-format.md, "Command line". */
    @Test
    void oneLineALetterWithPathDocumentAndWords() throws IOException {
        var letter = file("letter.txt", "ABI right 0.61, left 0.92.");
        var printed = read(letter.toString());
        assertThat(printed.err()).isEmpty();
        assertThat(printed.status()).isZero();
        var line = printed.lines().getFirst();
        assertThat(line.propertyNames()).containsExactly("path", "document", "found");
        assertThat(line.get("path").asString()).isEqualTo(letter.toString());
        assertThat(line.at("/document/legs/right/abi").asDouble()).isEqualTo(0.61);
        var abi = found(line, "legs.right.abi");
        assertThat(abi.propertyNames()).containsExactly("field", "value", "start", "end");
        assertThat("ABI right 0.61, left 0.92."
                        .substring(abi.get("start").intValue(), abi.get("end").intValue()))
                .contains("0.61");
    }

    @Test
    void offsetsCountCodePointsAndNotTheHalvesOfOne() throws IOException {
        // U+1F9B5 is one code point of two chars.
        var text = "\uD83E\uDDB5\uD83E\uDDB5 She has diabetes.";
        var line = read(file("letter.txt", text).toString()).lines().getFirst();
        var diabetes = found(line, "history.diabetes");
        assertThat(diabetes.get("start").intValue()).isEqualTo("?? She has ".length());
        assertThat(diabetes.get("end").intValue()).isEqualTo("?? She has diabetes".length());
    }

    @Test
    void aByteOrderMarkDoesNotCountAndLineEndsStay() throws IOException {
        var line = read(file("letter.txt", "\ufeffDear all,\r\n\r\nShe has diabetes.")
                        .toString())
                .lines()
                .getFirst();
        assertThat(found(line, "history.diabetes").get("start").intValue())
                .isEqualTo("Dear all,\r\n\r\nShe has ".length());
    }

    @Test
    void whatIsNotUtf8IsReadAsWindows1252() throws IOException {
        var letter = file(
                "letter.txt",
                "Re: Mrs Zo\u00eb Th\u00e9bault\n\u201cShe has diabetes\u201d",
                Charset.forName("windows-1252"));
        var line = read(letter.toString()).lines().getFirst();
        assertThat(line.at("/document/patient/given").asString()).isEqualTo("Zo\u00eb");
        assertThat(line.at("/document/history/diabetes").booleanValue()).isTrue();
    }

    @Test
    void foldersAreReadWithTheFoldersInThemSortedByName() throws IOException {
        file("b.txt", "b");
        file("a/c.TXT", "c");
        file("a/notes.md", "not a letter");
        file("z.text", "z");
        var printed = read(folder.toString());
        assertThat(printed.lines().stream()
                        .map(line -> Path.of(line.get("path").asString())
                                .getFileName()
                                .toString()))
                .containsExactly("c.TXT", "b.txt", "z.text");
    }

    @Test
    void whatCannotBeReadIsOneLineAndTheOthersAreRead() throws IOException {
        var letter = file("letter.txt", "She has diabetes.");
        var missing = folder.resolve("missing.txt");
        var empty = Files.createDirectory(folder.resolve("empty"));
        var printed = read(missing.toString(), letter.toString(), empty.toString());
        assertThat(printed.status()).isEqualTo(2);
        assertThat(printed.lines()).hasSize(1);
        assertThat(printed.err())
                .isEqualTo(missing + ": there is no such file or folder. Check the path.\n" + empty
                        + ": there is no letter (.txt, .text, .pdf, .docx) in this folder, so nothing was read.\n");
    }

    @Test
    void anUnknownOptionIsToldAndNothingIsRead() {
        assertThat(read("--fast")).satisfies(printed -> {
            assertThat(printed.status()).isEqualTo(2);
            assertThat(printed.out()).isEmpty();
            assertThat(printed.err())
                    .isEqualTo("limbqueue read-letter: there is no option --fast. The only option is --help.\n");
        });
    }

    @Test
    void theSameLettersPrintTheSameBytesAndTheDocumentIsAReferral() throws IOException {
        var letters = "src/test/resources/letters/known";
        var one = read(letters);
        assertThat(one.out()).isEqualTo(read(letters).out()).isNotEmpty();
        for (var line : one.lines()) {
            assertThat(line.get("document").has("letterText")).isFalse();
            var today = LocalDate.of(2027, 1, 1);
            assertThat(DocumentFormat.read(line.get("document"), today).problems())
                    .isEmpty();
        }
    }
}
