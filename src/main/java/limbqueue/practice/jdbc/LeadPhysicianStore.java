package limbqueue.practice.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.access.Role;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps who leads. */
@Repository
public class LeadPhysicianStore {

    private final JdbcClient jdbc;

    LeadPhysicianStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Who was named last, as long as that is a physician who may sign in. */
    public Optional<Person> lead() {
        return jdbc.sql("""
                select a.id, a.sign_in_name, a.display_name, a.role
                from (select lead from lead_physician order by id desc limit 1) named join account a on a.id = named.lead
                where a.active and a.role = 'PHYSICIAN'
                """).query(LeadPhysicianStore::person).optional();
    }

    public List<Person> physicians() {
        return jdbc.sql("""
                select id, sign_in_name, display_name, role
                from account
                where active and role = 'PHYSICIAN'
                order by display_name, id
                """).query(LeadPhysicianStore::person).list();
    }

    public void add(Optional<Person> lead, Person author) {
        jdbc.sql("insert into lead_physician (lead, account, author) values (:lead, :account, :author)")
                .param("lead", lead.map(Person::id).orElse(null))
                .param("account", author.id())
                .param("author", author.displayName())
                .update();
    }

    private static Person person(ResultSet row, int number) throws SQLException {
        return new Person(
                row.getLong("id"),
                row.getString("sign_in_name"),
                row.getString("display_name"),
                Role.valueOf(row.getString("role")));
    }
}
