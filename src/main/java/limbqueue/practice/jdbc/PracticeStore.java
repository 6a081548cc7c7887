package limbqueue.practice.jdbc;

import java.util.List;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes the one row of the practice. */
@Repository
public class PracticeStore {

    private final JdbcClient jdbc;

    PracticeStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public Practice get() {
        return jdbc.sql("""
                        select name, address_lines, phone, fax, email, urgent_phone, signatory,
                            envelope_window, version
                        from practice""")
                .query((row, number) -> new Practice(
                        row.getString("name"),
                        List.of((String[]) row.getArray("address_lines").getArray()),
                        row.getString("phone"),
                        row.getString("fax"),
                        row.getString("email"),
                        row.getString("urgent_phone"),
                        row.getString("signatory"),
                        EnvelopeWindow.valueOf(row.getString("envelope_window")),
                        row.getInt("version")))
                .single();
    }

    /** False if the practice is no longer at the version of {@code practice}. */
    public boolean replace(Practice practice) {
        return jdbc.sql("""
                        update practice
                        set name = :name, address_lines = :addressLines, phone = :phone, fax = :fax, email = :email,
                            urgent_phone = :urgentPhone, signatory = :signatory, envelope_window = :window,
                            version = version + 1
                        where version = :version""")
                        .param("name", practice.name())
                        .param("addressLines", practice.addressLines().toArray(String[]::new))
                        .param("phone", practice.phone())
                        .param("fax", practice.fax())
                        .param("email", practice.email())
                        .param("urgentPhone", practice.urgentPhone())
                        .param("signatory", practice.signatory())
                        .param("window", practice.window().name())
                        .param("version", practice.version())
                        .update()
                == 1;
    }
}
