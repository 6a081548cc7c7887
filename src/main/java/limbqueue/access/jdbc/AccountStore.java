package limbqueue.access.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Account;
import limbqueue.access.Role;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes accounts. */
@Repository
public class AccountStore {

    /** An account with the hash of its password. */
    public record Found(Account account, String passwordHash) {}

    private final JdbcClient jdbc;

    AccountStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Everybody, active people first, then by name. */
    public List<Account> all() {
        return jdbc.sql("""
                        select id, sign_in_name, display_name, role, active, must_change_password, version
                        from account
                        order by active desc, lower(display_name), id""").query(AccountStore::account).list();
    }

    /** The account with this sign-in name, in upper or lower case. */
    public Optional<Found> find(String signInName) {
        return jdbc.sql("""
                        select id, sign_in_name, display_name, role, active, must_change_password, version, password_hash
                        from account
                        where lower(sign_in_name) = lower(:signInName)""")
                .param("signInName", signInName)
                .query((row, number) -> new Found(account(row, number), row.getString("password_hash")))
                .optional();
    }

    /** The account with this id, which must exist. */
    public Account get(long id) {
        return jdbc.sql("""
                        select id, sign_in_name, display_name, role, active, must_change_password, version
                        from account
                        where id = :id""").param("id", id).query(AccountStore::account).single();
    }

    /** Whether the account with this id is active and still at this version. */
    public boolean isCurrent(long id, int version) {
        return jdbc.sql("select exists (select from account where id = :id and version = :version and active)")
                .param("id", id)
                .param("version", version)
                .query(Boolean.class)
                .single();
    }

    /** Adds an account; empty if the sign-in name is taken. */
    public Optional<Account> add(
            String signInName, String displayName, Role role, String passwordHash, boolean mustChangePassword) {
        return jdbc.sql("""
                        insert into account (sign_in_name, display_name, role, password_hash, must_change_password)
                        values (:signInName, :displayName, :role, :passwordHash, :mustChangePassword)
                        on conflict do nothing
                        returning id, sign_in_name, display_name, role, active, must_change_password, version""")
                .param("signInName", signInName)
                .param("displayName", displayName)
                .param("role", role.name())
                .param("passwordHash", passwordHash)
                .param("mustChangePassword", mustChangePassword)
                .query(AccountStore::account)
                .optional();
    }

    /** False if the account is no longer at {@code version}. */
    public boolean setActive(long id, int version, boolean active) {
        return jdbc.sql("""
                        update account
                        set active = :active, version = version + 1
                        where id = :id and version = :version""")
                        .param("id", id)
                        .param("version", version)
                        .param("active", active)
                        .update()
                == 1;
    }

    /** False if the account is no longer at {@code version}. */
    public boolean setPassword(long id, int version, String passwordHash, boolean mustChangePassword) {
        return jdbc.sql("""
                        update account
                        set password_hash = :passwordHash, must_change_password = :mustChangePassword,
                            version = version + 1
                        where id = :id and version = :version""")
                        .param("id", id)
                        .param("version", version)
                        .param("passwordHash", passwordHash)
                        .param("mustChangePassword", mustChangePassword)
                        .update()
                == 1;
    }

    /** Makes two managers who deactivate each other at the same moment wait for one another. */
    public void lockManagers() {
        jdbc.sql("select id from account where role = :manager and active order by id for update")
                .param("manager", Role.MANAGER.name())
                .query(Long.class)
                .list();
    }

    public boolean hasActiveManager() {
        return jdbc.sql("select exists (select from account where role = :manager and active)")
                .param("manager", Role.MANAGER.name())
                .query(Boolean.class)
                .single();
    }

    private static Account account(ResultSet row, int number) throws SQLException {
        return new Account(
                row.getLong("id"),
                row.getString("sign_in_name"),
                row.getString("display_name"),
                Role.valueOf(row.getString("role")),
                row.getBoolean("active"),
                row.getBoolean("must_change_password"),
                row.getInt("version"));
    }
}
