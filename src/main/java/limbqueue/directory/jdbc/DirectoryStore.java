package limbqueue.directory.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.DirectoryKind;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes the directory. */
@Repository
public class DirectoryStore {

    private static final String COLUMNS =
            "id, version, kind, name, organisation, address, phone, fax, email, prefers, language, last_entered";

    /** Trigrams that two names share, of all that either has, from which on they are much alike; common practice, no source. */
    private static final double ALIKE = 0.6;

    private final JdbcClient jdbc;

    DirectoryStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Entries that were not merged into another, by name; the {@code most} that were named last. */
    public List<DirectoryEntry> standing(DirectoryKind kind, int most) {
        return jdbc.sql("select " + COLUMNS + " from (select * from directory_entry"
                        + " where kind = :kind and merged_into is null order by last_entered desc, id limit :most) as latest"
                        + " order by lower(name), lower(organisation)")
                .param("kind", kind.name())
                .param("most", most)
                .query(DirectoryStore::entry)
                .list();
    }

    /** The entry that stands for the one with this id. */
    public Optional<DirectoryEntry> find(long id) {
        return jdbc.sql("""
                        with recursive way (id, merged_into) as (
                            select id, merged_into from directory_entry where id = :id
                            union
                            select next.id, next.merged_into from directory_entry next
                            join way on next.id = way.merged_into)
                        select""" + " " + COLUMNS + " from directory_entry"
                        + " where id in (select id from way where merged_into is null)")
                .param("id", id)
                .query(DirectoryStore::entry)
                .optional();
    }

    /** The entry that stands for the one of this name, whatever its capitals. */
    public Optional<DirectoryEntry> named(DirectoryKind kind, String name, String organisation) {
        return jdbc.sql("""
                        select id from directory_entry
                        where kind = :kind and lower(name) = lower(:name) and lower(organisation) = lower(:organisation)""")
                .param("kind", kind.name())
                .param("name", name)
                .param("organisation", organisation)
                .query(Long.class)
                .optional()
                .flatMap(this::find);
    }

    /** Adds the entry, or gives the one of its name what it lacked. */
    public void takeIn(DirectoryEntry entry) {
        var standing = named(entry.kind(), entry.name(), entry.organisation());
        if (standing.isPresent()) {
            complete(standing.get().id(), entry);
            return;
        }
        jdbc.sql("""
                insert into directory_entry
                    (kind, name, organisation, address, phone, fax, email, prefers, last_entered)
                values (:kind, :name, :organisation, :address, :phone, :fax, :email, :prefers, :lastEntered)
                on conflict (kind, lower(name), lower(organisation)) do nothing""")
                .param("kind", entry.kind().name())
                .param("name", entry.name())
                .param("organisation", entry.organisation())
                .param("address", entry.address())
                .param("phone", entry.phone())
                .param("fax", entry.fax())
                .param("email", entry.email())
                .param("prefers", entry.prefers())
                .param("lastEntered", entry.lastEntered())
                .update();
    }

    /** An entry that has everything is not written. */
    private void complete(long id, DirectoryEntry from) {
        jdbc.sql("""
                update directory_entry
                set address = coalesce(nullif(address, ''), :address), phone = coalesce(nullif(phone, ''), :phone),
                    fax = coalesce(nullif(fax, ''), :fax), email = coalesce(nullif(email, ''), :email),
                    prefers = coalesce(nullif(prefers, ''), :prefers), language = coalesce(nullif(language, ''), :language),
                    last_entered = greatest(last_entered, :lastEntered), version = version + 1
                where id = :id
                    and (last_entered < :lastEntered or (address = '' and :address <> '') or (phone = '' and :phone <> '')
                        or (fax = '' and :fax <> '') or (email = '' and :email <> '')
                        or (prefers = '' and :prefers <> '') or (language = '' and :language <> ''))""")
                .param("id", id)
                .param("address", from.address())
                .param("phone", from.phone())
                .param("fax", from.fax())
                .param("email", from.email())
                .param("prefers", from.prefers())
                .param("language", from.language())
                .param("lastEntered", from.lastEntered())
                .update();
    }

    /** Entries of another name, or of this name elsewhere, that are much like it; the most alike first. */
    public List<DirectoryEntry> like(DirectoryKind kind, String name, String organisation, int most) {
        return jdbc.sql("select " + COLUMNS + """
                         from directory_entry
                        where kind = :kind and merged_into is null and lower(name) % lower(:name)
                            and similarity(folded(name), folded(:name)) >= :alike
                            and (lower(name), lower(organisation)) <> (lower(:name), lower(:organisation))
                        order by similarity(folded(name), folded(:name)) desc, id
                        limit :most""")
                .param("kind", kind.name())
                .param("name", name)
                .param("organisation", organisation)
                .param("alike", ALIKE)
                .param("most", most)
                .query(DirectoryStore::entry)
                .list();
    }

    /**
     * Ids of entries that may stand for the same, two by two, the lower one first. Names that are alike do not suffice for
     * referring doctors: the practice is alike or not known too, or they share a number or an address of e-mail.
     */
    public List<long[]> alike(DirectoryKind kind, int most) {
        return jdbc.sql("""
                        select a.id as one, b.id as other
                        from directory_entry a join directory_entry b
                            on b.kind = a.kind and b.id > a.id and lower(b.name) % lower(a.name)
                        where a.kind = :kind and a.merged_into is null and b.merged_into is null
                            and similarity(folded(a.name), folded(b.name)) >= :alike
                            and (a.organisation = '' or b.organisation = ''
                                 or similarity(folded(a.organisation), folded(b.organisation)) >= :alike
                                 or phone_end(a.phone) = phone_end(b.phone) or phone_end(a.fax) = phone_end(b.fax)
                                 or (a.email <> '' and lower(a.email) = lower(b.email)))
                        order by similarity(folded(a.name), folded(b.name)) desc, a.id, b.id
                        limit :most""")
                .param("kind", kind.name())
                .param("alike", ALIKE)
                .param("most", most)
                .query((row, number) -> new long[] {row.getLong("one"), row.getLong("other")})
                .list();
    }

    /** Whether another entry has the name of this one. */
    public boolean isTaken(DirectoryEntry entry) {
        return jdbc.sql("""
                        select exists (select from directory_entry
                            where kind = :kind and lower(name) = lower(:name)
                                and lower(organisation) = lower(:organisation) and id <> :id)""")
                .param("kind", entry.kind().name())
                .param("name", entry.name())
                .param("organisation", entry.organisation())
                .param("id", entry.id())
                .query(Boolean.class)
                .single();
    }

    /** False if the entry is no longer at the version of {@code entry}, or was merged. */
    public boolean replace(DirectoryEntry entry) {
        return jdbc.sql("""
                        update directory_entry
                        set name = :name, organisation = :organisation, address = :address, phone = :phone, fax = :fax,
                            email = :email, prefers = :prefers, language = :language, version = version + 1
                        where id = :id and version = :version and merged_into is null""")
                        .param("name", entry.name())
                        .param("organisation", entry.organisation())
                        .param("address", entry.address())
                        .param("phone", entry.phone())
                        .param("fax", entry.fax())
                        .param("email", entry.email())
                        .param("prefers", entry.prefers())
                        .param("language", entry.language())
                        .param("id", entry.id())
                        .param("version", entry.version())
                        .update()
                == 1;
    }

    /** False if one of them is gone, merged already, or of another kind. */
    public boolean merge(long kept, long other) {
        var both = jdbc.sql(
                        "select " + COLUMNS
                                + " from directory_entry where id in (:kept, :other) and merged_into is null order by id for update")
                .param("kept", kept)
                .param("other", other)
                .query(DirectoryStore::entry)
                .list();
        if (both.size() != 2 || both.get(0).kind() != both.get(1).kind()) {
            return false;
        }
        complete(kept, both.get(0).id() == other ? both.get(0) : both.get(1));
        jdbc.sql("update directory_entry set merged_into = :kept, version = version + 1 where id = :other")
                .param("kept", kept)
                .param("other", other)
                .update();
        return true;
    }

    private static DirectoryEntry entry(ResultSet row, int number) throws SQLException {
        return new DirectoryEntry(
                row.getLong("id"),
                row.getInt("version"),
                DirectoryKind.valueOf(row.getString("kind")),
                row.getString("name"),
                row.getString("organisation"),
                row.getString("address"),
                row.getString("phone"),
                row.getString("fax"),
                row.getString("email"),
                row.getString("prefers"),
                row.getString("language"),
                row.getObject("last_entered", LocalDate.class));
    }
}
