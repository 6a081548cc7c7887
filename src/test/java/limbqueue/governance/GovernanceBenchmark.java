package limbqueue.governance;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.JdbcTemplate;

/**
 * Prints how long the figures of many referrals take, and the whole page in a browser, beside counting the decisions in the
 * same run. Not part of the build: {@code ./mvnw -Dquick test -Dtest=GovernanceBenchmark -Dreferrals=20000}.
 */
@OnPostgres
class GovernanceBenchmark {

    private static final int REFERRALS = Integer.getInteger("referrals", 20_000);
    private static final int WARM_UP = 5;
    private static final int RUNS = 21;

    @Autowired
    private Governance governance;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcTemplate jdbc;

    @LocalServerPort
    private int port;

    @Test
    void figuresOfManyReferrals() {
        ManyCourses.add(jdbc, REFERRALS);
        actingAs.person("manager", () -> {
            var today = governance.today();
            print("counting the decisions", () -> jdbc.queryForObject("select count(*) from decision", Long.class));
            print("figures of the last year", () -> governance.report(Period.lastYear(today)));
            print("figures of every referral", () -> governance.report(new Period(today.minusYears(2), today)));
        });
        try (var manager = Visitor.of("http://localhost:" + port + "/")) {
            manager.signIn("manager");
            print("the page, all referrals", () -> manager.open("governance?from=2000-01-01"));
        }
    }

    private static void print(String what, Runnable work) {
        var times = IntStream.range(0, WARM_UP + RUNS)
                .mapToDouble(_ -> {
                    var begun = System.nanoTime();
                    work.run();
                    return (System.nanoTime() - begun) / 1e6;
                })
                .skip(WARM_UP)
                .sorted()
                .toArray();
        System.out.printf(
                Locale.ROOT,
                "%,d referrals: %-28s median %7.1f ms, longest of %d %7.1f ms%n",
                REFERRALS,
                what,
                times[RUNS / 2],
                RUNS,
                Arrays.stream(times).max().orElseThrow());
    }
}
