package limbqueue.start;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Two servers on one database: what is done on one is seen in the open browsers of both. */
@InBrowser
class TwoServersIT {

    private static final Pattern ADDRESS = Pattern.compile("LimbQueue is ready: (http://localhost:\\d+/)");
    private static final String DRAFTS = "To complete";

    @TempDir
    Path folder;

    @Autowired
    private JdbcConnectionDetails database;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    /** The goal of the product: a second. Seven changes and their median, so that one pause of the machine decides nothing. */
    @Test
    void aChangeOnOneServerShowsInTheCountsOfTheOtherWithinASecond(Visitor here) throws Exception {
        try (var other = anotherServer();
                var there = Visitor.of(address(other))) {
            here.signIn("coordinator");
            there.signIn("coordinator");
            assertThat(here.place()).isEqualTo("work");
            var drafts = count(there);
            var took = new ArrayList<Duration>();
            for (var change = 1; change <= 7; change++) {
                var from = System.nanoTime();
                begin();
                waitForCount(there, drafts + change);
                took.add(Duration.ofNanos(System.nanoTime() - from));
            }
            System.out.println("a change shows on the other server after "
                    + took.stream().map(Duration::toMillis).toList() + " ms");
            assertThat(took.stream().sorted().toList().get(3)).isLessThanOrEqualTo(Duration.ofSeconds(1));
            waitForCount(here, drafts + 7);

            there.open("referrals");
            there.button("New referral").click();
            there.page().waitForURL("**/edit");
            waitForCount(here, drafts + 8);
        }
    }

    /** Again a second, and the median of five. */
    @Test
    void aSameDayCaseRingsOnTheOtherServerWithinASecondAndWhoLooksAtItIsSeenThere(Visitor here) throws Exception {
        try (var other = anotherServer();
                var there = Visitor.of(address(other))) {
            here.signIn("physician");
            there.signIn("coordinator");
            var took = new ArrayList<Duration>();
            var id = 0L;
            for (var one = 1; one <= 5; one++) {
                var from = System.nanoTime();
                id = suddenlyIll();
                waitForRings(there, 1);
                took.add(Duration.ofNanos(System.nanoTime() - from));
                waitForRings(here, 1);
                here.button("I take it: the same-day case Tolliver, Bram").click();
                here.page().waitForURL("**/referrals/" + id);
                waitForRings(there, 0);
            }
            System.out.println("a same-day case rings on the other server after "
                    + took.stream().map(Duration::toMillis).toList() + " ms");
            assertThat(took.stream().sorted().toList().get(2)).isLessThanOrEqualTo(Duration.ofSeconds(1));

            there.open("referrals/" + id);
            assertThat(there.page().locator(".lq-onlookers")).containsText("(physician, since");
            assertThat(here.page().locator(".lq-onlookers")).containsText("(coordinator, since");
            there.open("work");
            assertThat(here.page().locator(".lq-onlookers")).not().containsText("coordinator");
        }
    }

    @Test
    void whatHappensWhileTheConnectionIsBrokenShowsWhenItIsBack(Visitor here) {
        here.signIn("coordinator");
        var drafts = count(here);
        begin();
        waitForCount(here, drafts + 1);

        // This change is told to nobody.
        jdbc.sql("alter table referral disable trigger referral_told").update();
        begin();
        jdbc.sql("alter table referral enable trigger referral_told").update();
        var ended = jdbc.sql("""
                        select count(pg_terminate_backend(pid))
                        from pg_stat_activity
                        where application_name = 'LimbQueue, listening' and datname = current_database()
                        """).query(Integer.class).single();
        assertThat(ended).isPositive();

        waitForCount(here, drafts + 2);
        begin();
        waitForCount(here, drafts + 3);
    }

    @Test
    void whoMayNoLongerSignInIsShownNothingMore(Visitor here) {
        here.signIn("coordinator");
        var drafts = count(here);
        jdbc.sql("update account set active = false, version = version + 1 where sign_in_name = 'coordinator'")
                .update();
        try {
            actingAs.person("physician", referrals::begin);
            here.page().waitForURL("**/sign-in");
        } finally {
            jdbc.sql("update account set active = true, version = version + 1 where sign_in_name = 'coordinator'")
                    .update();
        }
        here.signIn("coordinator");
        waitForCount(here, drafts + 1);
    }

    private long suddenlyIll() {
        var id = new AtomicLong();
        actingAs.person("coordinator", () -> {
            var entered = referrals.enter(Arriving.SUDDEN);
            referrals.submit(entered.id(), entered.version());
            id.set(entered.id());
        });
        return id.get();
    }

    private static void waitForRings(Visitor visitor, int rings) {
        visitor.page().waitForFunction("rings => document.querySelectorAll('.lq-ring-line').length === rings", rings);
    }

    private void begin() {
        actingAs.person("coordinator", referrals::begin);
    }

    private static Locator chip(Visitor visitor) {
        return visitor.page().locator(".lq-chip", new Page.LocatorOptions().setHasText(DRAFTS));
    }

    private static int count(Visitor visitor) {
        assertThat(chip(visitor)).hasText(Pattern.compile(DRAFTS + " \\d+"));
        return Integer.parseInt(chip(visitor).innerText().substring(DRAFTS.length() + 1));
    }

    private static void waitForCount(Visitor visitor, int count) {
        visitor.page()
                .waitForFunction(
                        "words => [...document.querySelectorAll('.lq-chip')].some(chip => chip.textContent === words)",
                        DRAFTS + " " + count);
    }

    private Run anotherServer() throws Exception {
        var arguments = new ArrayList<>(List.of("--server.port=0", "--spring.datasource.url=" + database.getJdbcUrl()));
        var user = database.getUsername();
        if (user != null && !user.isEmpty()) {
            arguments.add("--spring.datasource.username=" + user);
            arguments.add("--spring.datasource.password=" + database.getPassword());
        }
        return Run.jar(folder, arguments.toArray(String[]::new));
    }

    private static String address(Run server) throws Exception {
        var matcher = ADDRESS.matcher(server.ready());
        assertThat(matcher.find()).isTrue();
        return matcher.group(1);
    }
}
