package planted.kitchen;

import org.springframework.jdbc.core.simple.JdbcClient;

/** Breaks: SQL outside a jdbc package. */
public final class SqlInTheKitchen {

    private final JdbcClient jdbc;

    public SqlInTheKitchen(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public int one() {
        return jdbc.sql("select 1").query(Integer.class).single();
    }
}
