package limbqueue.file.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.file.FileType;
import limbqueue.file.KeptFile;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes the files of referrals. */
@Repository
public class FileStore {

    private final JdbcClient jdbc;

    FileStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Adds a file; false if the referral has it already. */
    public boolean add(long referral, String name, FileType type, byte[] content, Person author, Instant at) {
        return jdbc.sql("""
                        insert into referral_file (referral, name, type, size, digest, content, account, author, at)
                        values (:referral, :name, :type, :size, sha256(:content), :content, :account, :author, :at)
                        on conflict on constraint referral_file_once do nothing
                        """)
                        .param("referral", referral)
                        .param("name", name)
                        .param("type", type.name())
                        .param("size", content.length)
                        .param("content", content)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** The file of this referral with this content, which must be there. */
    public KeptFile find(long referral, byte[] content) {
        return jdbc.sql("""
                select id, referral, name, type, size, encode(digest, 'hex') as digest, author, at
                from referral_file
                where referral = :referral and digest = sha256(:content)
                """)
                .param("referral", referral)
                .param("content", content)
                .query(FileStore::file)
                .single();
    }

    public Optional<KeptFile> find(long id) {
        return jdbc.sql("""
                select id, referral, name, type, size, encode(digest, 'hex') as digest, author, at
                from referral_file
                where id = :id
                """).param("id", id).query(FileStore::file).optional();
    }

    /** The files of a referral, in the order in which they came. */
    public List<KeptFile> of(long referral) {
        return jdbc.sql("""
                select id, referral, name, type, size, encode(digest, 'hex') as digest, author, at
                from referral_file
                where referral = :referral
                order by id
                """).param("referral", referral).query(FileStore::file).list();
    }

    /** The content of a file, which must be there. */
    public byte[] content(long id) {
        return jdbc.sql("select content from referral_file where id = :id")
                .param("id", id)
                .query(byte[].class)
                .single();
    }

    /** The reference of a referral, which must be there. */
    public String reference(long referral) {
        return jdbc.sql("select reference from referral where id = :referral")
                .param("referral", referral)
                .query(String.class)
                .single();
    }

    private static KeptFile file(ResultSet row, int number) throws SQLException {
        return new KeptFile(
                row.getLong("id"),
                row.getLong("referral"),
                row.getString("name"),
                FileType.valueOf(row.getString("type")),
                row.getInt("size"),
                row.getString("digest"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
