package limbqueue.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import limbqueue.file.VirusScan.Finding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Shell scripts stand in for the scanner. */
class ScannerProgramTest {

    @TempDir
    Path folder;

    @Test
    void whatTheProgramEndsWithIsItsFinding() throws IOException {
        assertThat(scanner("exit 0", 20).look(new byte[] {1})).isEqualTo(Finding.CLEAN);
        assertThat(scanner("exit 1", 20).look(new byte[] {1})).isEqualTo(Finding.INFECTED);
        assertThat(scanner("exit 2", 20).look(new byte[] {1})).isEqualTo(Finding.NOT_LOOKED_AT);
    }

    @Test
    void theFileIsTheLastArgumentAndIsGoneAfterwards() throws IOException {
        var seen = folder.resolve("seen");
        var scanner = scanner("test \"$1\" = --quick && cp \"$2\" " + seen + " && echo \"$2\" > " + seen + ".path", 20);
        assertThat(scanner.look("content".getBytes(java.nio.charset.StandardCharsets.UTF_8)))
                .isEqualTo(Finding.CLEAN);
        assertThat(seen).hasContent("content");
        assertThat(Path.of(Files.readString(Path.of(seen + ".path")).strip())).doesNotExist();
    }

    @Test
    void aProgramThatHangsOrIsMissingLooksAtNothing() throws IOException {
        assertThat(scanner("sleep 60", 0).look(new byte[] {1})).isEqualTo(Finding.NOT_LOOKED_AT);
        var missing = new ScannerProgram(List.of(folder.resolve("none").toString()), Duration.ofSeconds(20));
        assertThat(missing.look(new byte[] {1})).isEqualTo(Finding.NOT_LOOKED_AT);
    }

    private ScannerProgram scanner(String script, int seconds) throws IOException {
        var program = folder.resolve("scanner");
        Files.writeString(program, "#!/bin/sh\n" + script + "\n");
        Files.setPosixFilePermissions(program, java.nio.file.attribute.PosixFilePermissions.fromString("rwxr-xr-x"));
        return new ScannerProgram(List.of(program.toString(), "--quick"), Duration.ofSeconds(seconds));
    }
}
