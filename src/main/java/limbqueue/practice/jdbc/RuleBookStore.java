package limbqueue.practice.jdbc;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import tools.jackson.databind.json.JsonMapper;

/** Keeps the texts of rule books. */
@Repository
public class RuleBookStore {

    private final JdbcClient jdbc;
    private final JsonMapper json;

    RuleBookStore(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Adds a book, unless it is there. */
    public void keep(String id, Map<String, String> files) {
        jdbc.sql("""
                insert into rule_book (id, files)
                values (:id, cast(:files as json))
                on conflict (id) do nothing
                """)
                .param("id", id)
                .param("files", json.writeValueAsString(new TreeMap<>(files)))
                .update();
    }

    /** The text of each file of a book by its name. */
    public Optional<Map<String, String>> find(String id) {
        return jdbc.sql("""
                select files::text as files
                from rule_book
                where id = :id
                """).param("id", id).query(String.class).optional().map(this::files);
    }

    private Map<String, String> files(String text) {
        var files = new TreeMap<String, String>();
        json.readTree(text).forEachEntry((name, content) -> files.put(name, content.stringValue()));
        return files;
    }
}
