package limbqueue.letter.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.letter.LetterKind;
import limbqueue.letter.WordingVersion;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and adds the words of letters that the practice published, and the language it writes in. */
@Repository
public class WordingStore {

    private static final String COLUMNS = "select version, text, author, at from letter_wording";

    private final JdbcClient jdbc;

    WordingStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** What was published last; empty if nothing ever was. */
    public Optional<WordingVersion> latest(LetterKind kind, String language) {
        return jdbc.sql(COLUMNS + """
                 where kind = :kind and language = :language order by version desc limit 1
                """)
                .param("kind", kind.name())
                .param("language", language)
                .query(WordingStore::version)
                .optional();
    }

    /** Everything that was published, newest first. */
    public List<WordingVersion> history(LetterKind kind, String language) {
        return jdbc.sql(COLUMNS + """
                 where kind = :kind and language = :language order by version desc
                """)
                .param("kind", kind.name())
                .param("language", language)
                .query(WordingStore::version)
                .list();
    }

    /**
     * Adds a version.
     *
     * @param text empty to go back to the words that are shipped
     * @return false if somebody has added this version already
     */
    public boolean add(
            LetterKind kind, String language, int version, Optional<String> text, Person author, Instant at) {
        return jdbc.sql("""
                        insert into letter_wording (kind, language, version, text, account, author, at)
                        values (:kind, :language, :version, :text, :account, :author, :at)
                        on conflict (kind, language, version) do nothing
                        """)
                        .param("kind", kind.name())
                        .param("language", language)
                        .param("version", version)
                        .param("text", text.orElse(null))
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** The language chosen for letters to whom nobody has chosen another for; empty if none ever was. */
    public Optional<String> language() {
        return jdbc.sql("select language from letter_language order by id desc limit 1")
                .query(String.class)
                .optional();
    }

    public void chooseLanguage(String language, Person author, Instant at) {
        jdbc.sql("""
                insert into letter_language (language, account, author, at) values (:language, :account, :author, :at)
                """)
                .param("language", language)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    private static WordingVersion version(ResultSet row, int number) throws SQLException {
        return new WordingVersion(
                row.getInt("version"),
                Optional.ofNullable(row.getString("text")),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
