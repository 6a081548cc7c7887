package limbqueue.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ServedTest {

    @Test
    void noBrowserShowsRunsOrGuesses() {
        for (var type : FileType.values()) {
            var headers = Served.of(file("letter", type), new byte[] {1}).headers();
            assertThat(headers)
                    .containsEntry("Content-Type", type.mediaType())
                    .containsEntry("X-Content-Type-Options", "nosniff");
            assertThat(headers.get("Content-Disposition")).startsWith("attachment;");
            assertThat(headers.get("Content-Security-Policy"))
                    .contains("sandbox;")
                    .contains("default-src 'none'");
            assertThat(headers.get("Cache-Control")).contains("no-store");
        }
    }

    @ParameterizedTest
    @CsvSource({
        "letter.pdf, PDF, letter.pdf",
        "LETTER.PDF, PDF, LETTER.PDF",
        "photo.jpeg, JPEG, photo.jpeg",
        "fax.tiff, TIFF, fax.tiff",
        "letter, DOCX, letter.docx",
        "letter.exe, PDF, letter.exe.pdf",
        "letter.docx, PDF, letter.docx.pdf"
    })
    void itIsSavedUnderAnEndingThatIsTrue(String name, FileType type, String savedAs) {
        assertThat(Served.savedAs(file(name, type))).isEqualTo(savedAs);
    }

    /** The form of the header is that of RFC 6266; the letters of the second name are written as in RFC 8187. */
    @Test
    void aNameCannotBreakOutOfTheHeader() {
        var headers = Served.of(file("a\"; x=1 é🦵.pdf", FileType.PDF), new byte[] {1})
                .headers();
        assertThat(headers.get("Content-Disposition"))
                .isEqualTo("attachment; filename=\"a__ x_1 __.pdf\";"
                        + " filename*=UTF-8''a%22%3B%20x%3D1%20%C3%A9%F0%9F%A6%B5.pdf");
    }

    @ParameterizedTest
    @CsvSource({
        "'../../etc/letter.pdf', letter.pdf",
        "'C:\\fax\\letter.pdf', letter.pdf",
        "'lettre\u202Efdp.exe', lettrefdp.exe",
        "'a\u0000b\u0007.pdf', ab.pdf",
        "'', letter.pdf",
        "' ', letter.pdf",
        "'מכתב 🦵.pdf', 'מכתב 🦵.pdf'"
    })
    void aNameIsKeptWithoutFoldersAndUnseenCharacters(String came, String kept) {
        assertThat(new DroppedFile(came, FileType.PDF, new byte[] {1}).name()).isEqualTo(kept);
    }

    private static KeptFile file(String name, FileType type) {
        return new KeptFile(1, 1, name, type, 1, "", "Wren Halloway", Instant.EPOCH);
    }
}
