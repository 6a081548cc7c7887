package limbqueue.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

@OnPostgres
class ReferralFilesIT {

    @Autowired
    private ReferralFiles files;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Test
    void aFileIsKeptToTheByteWithWhatItIsAndWhoBroughtIt() throws Exception {
        var referral = office(() -> referrals.enter(Arriving.REST_PAIN)).id();
        var pdf = MadeFiles.pdf("Dear colleague");
        var kept = office(() -> files.keep(referral, sound(pdf, "C:\\fax\\מכתב 🦵.pdf")));

        assertThat(kept.name()).isEqualTo("מכתב 🦵.pdf");
        assertThat(kept.type()).isEqualTo(FileType.PDF);
        assertThat(kept.size()).isEqualTo(pdf.length);
        assertThat(kept.digest())
                .isEqualTo(java.util.HexFormat.of()
                        .formatHex(java.security.MessageDigest.getInstance("SHA-256")
                                .digest(pdf)));
        assertThat(kept.keptBy()).isNotBlank();
        assertThat(office(() -> files.of(referral))).containsExactly(kept);
        var served = office(() -> files.serve(kept.id()));
        assertThat(served.content()).isEqualTo(pdf);
        assertThat(served.headers())
                .containsEntry("Content-Type", "application/pdf")
                .containsEntry("X-Content-Type-Options", "nosniff");
    }

    @Test
    void theSameFileASecondTimeIsTheOneThatIsThere() {
        var referral = office(() -> referrals.enter(Arriving.REST_PAIN)).id();
        var text = MadeFiles.bytes("Dear colleague");
        var first = office(() -> files.keep(referral, sound(text, "a.txt")));
        assertThat(office(() -> files.keep(referral, sound(text, "b.txt")))).isEqualTo(first);
        var other = office(() -> referrals.enter(Arriving.REST_PAIN)).id();
        assertThat(office(() -> files.keep(other, sound(text, "b.txt"))).id()).isNotEqualTo(first.id());
    }

    @Test
    void nobodyChangesOrRemovesAFile() {
        var referral = office(() -> referrals.enter(Arriving.REST_PAIN)).id();
        var kept = office(() -> files.keep(referral, sound(MadeFiles.docx("Dear colleague"), "a.docx")));
        for (var sql : new String[] {
            "update referral_file set name = 'b' where id = " + kept.id(),
            "delete from referral_file where id = " + kept.id(),
            "truncate referral_file"
        }) {
            assertThatThrownBy(() -> jdbc.sql(sql).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    @Test
    void aFileThatIsTooLargeIsRefusedBeforeItIsRead() throws IOException {
        var endless = new Endless();
        assertThat(office(() -> files.receive(endless, "a.pdf", 2L << 30)))
                .isInstanceOfSatisfying(
                        Received.Refused.class,
                        refused -> assertThat(refused.sentence())
                                .startsWith("The file is too large: it has 2.0 GB, and at most 25 MB are taken."));
        assertThat(endless.read).isZero();

        assertThat(office(() -> files.receive(endless, "a.pdf", 1000)))
                .isInstanceOfSatisfying(
                        Received.Refused.class,
                        refused -> assertThat(refused.sentence()).startsWith("The file is too large"));
        assertThat(endless.read).isBetween(25L << 20, (25L << 20) + 1);
    }

    @Test
    void whatCannotBeUsedIsRefusedAndAScanIsKeptWithoutItsWords() {
        assertThat(office(() -> files.receive(stream(MadeFiles.bytes("<html></html>")), "a.html", 13)))
                .isInstanceOf(Received.Refused.class);
        assertThat(office(() -> files.receive(stream(MadeFiles.picture("png")), "a.png", -1)))
                .isInstanceOfSatisfying(
                        Received.Sound.class,
                        sound -> assertThat(sound.file().type()).isEqualTo(FileType.PNG));
    }

    @Test
    void aManagerHasNoFiles() {
        assertThatThrownBy(() -> as("manager", () -> files.of(1))).isInstanceOf(AccessDeniedException.class);
    }

    private DroppedFile sound(byte[] content, String name) throws IOException {
        return ((Received.Sound) files.receive(stream(content), name, content.length)).file();
    }

    private static InputStream stream(byte[] content) {
        return new ByteArrayInputStream(content);
    }

    /** Goes on for ever, and counts what was taken from it. */
    private static final class Endless extends InputStream {

        private long read;

        @Override
        public int read() {
            read++;
            return 'x';
        }

        @Override
        public int read(byte[] into, int offset, int length) {
            read += length;
            java.util.Arrays.fill(into, offset, offset + length, (byte) 'x');
            return length;
        }
    }

    private <T> T office(Callable<T> work) {
        return as("coordinator", work);
    }

    private <T> T as(String person, Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> {
            try {
                result.set(work.call());
            } catch (RuntimeException refused) {
                throw refused;
            } catch (Exception broken) {
                throw new IllegalStateException(broken);
            }
        });
        return result.get();
    }
}
