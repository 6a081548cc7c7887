package limbqueue.letter.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and adds corrections of letters by hand. */
@Repository
public class CorrectionStore {

    private final JdbcClient jdbc;

    CorrectionStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * A letter as it can be corrected.
     *
     * @param parts as JSON text
     * @param closed whether it has left, or is withdrawn
     */
    public record Kept(long referral, int version, String parts, boolean closed) {}

    /** A correction with the parts before and after it, as JSON text. */
    public record Correction(int version, String author, Instant at, String before, String after) {}

    public Optional<Kept> find(long letter) {
        return jdbc.sql("""
                select referral, version, parts::text as parts, num_nonnulls(sent_at, withdrawn_at) > 0 as closed
                from letter
                where id = :id
                """)
                .param("id", letter)
                .query((row, number) -> new Kept(
                        row.getLong("referral"),
                        row.getInt("version"),
                        row.getString("parts"),
                        row.getBoolean("closed")))
                .optional();
    }

    /** The corrections of a letter, newest first. */
    public List<Correction> of(long letter) {
        return jdbc.sql("""
                select version, author, at, before_parts::text as before, parts::text as after
                from letter_correction
                where letter = :letter
                order by version desc
                """)
                .param("letter", letter)
                .query(CorrectionStore::correction)
                .list();
    }

    /** Corrects a letter that is at {@code version}; both texts are kept. The printed page is set anew when it is wanted. */
    public void correct(long letter, int version, String parts, String text, Person author, Instant at) {
        jdbc.sql("""
                insert into letter_correction (letter, version, before_parts, before_text, parts, text, account, author, at)
                select id, version + 1, parts, text, cast(:parts as json), :text, :account, :author, :at
                from letter
                where id = :id and version = :version
                """)
                .param("id", letter)
                .param("version", version)
                .param("parts", parts)
                .param("text", text)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
        jdbc.sql("""
                update letter
                set version = version + 1, parts = cast(:parts as json), text = :text, pdf = null
                where id = :id and version = :version
                """)
                .param("id", letter)
                .param("version", version)
                .param("parts", parts)
                .param("text", text)
                .update();
    }

    private static Correction correction(ResultSet row, int number) throws SQLException {
        return new Correction(
                row.getInt("version"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                row.getString("before"),
                row.getString("after"));
    }
}
