package limbqueue.referral.ui;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import limbqueue.access.ActingAs;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Not a test: prints how long the next referral takes, from the key until it is painted. */
@InBrowser
class NextReferralBenchmark {

    private static final int ROUNDS = 3;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Test
    void fromTheKeyUntilItIsPainted(Visitor physician) throws IOException {
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                var document = Files.readString(file);
                actingAs.person("coordinator", () -> {
                    var entered = referrals.enter(document);
                    referrals.submit(entered.id(), entered.version());
                });
            }
        }
        var page = physician.signIn("physician").page();
        page.waitForURL("**/queue");
        physician.rest();
        page.evaluate("() => performance.setResourceTimingBufferSize(1000)");
        page.locator(".lq-queue-entry").first().click();
        for (var round = 1; round <= ROUNDS; round++) {
            walk(physician, "n");
            print(round, page);
            walk(physician, "p");
            print(round, page);
        }
    }

    private static void walk(Visitor physician, String key) {
        var page = physician.page();
        page.waitForFunction("() => document.querySelector('.lq-one-screen')?.dataset.read");
        page.evaluate("() => performance.clearMeasures('lq-shown')");
        while (page.locator("[data-key=" + key + "]").isEnabled()) {
            var before = page.url();
            page.keyboard().press(key);
            page.waitForURL(url -> !url.equals(before));
            physician.rest();
            page.waitForFunction("() => document.querySelector('.lq-one-screen')?.dataset.read");
        }
    }

    private static void print(int round, Page page) {
        var shown = times(page, "performance.getEntriesByName('lq-shown').map(entry => entry.duration)");
        // What the server and the way to it and back take of that; the rest is the browser's.
        var answered = times(page, """
                performance.getEntriesByName('lq-shown').map(entry => performance.getEntriesByType('resource')
                    .find(sent => sent.startTime >= entry.startTime)?.duration ?? 0)
                """);
        page.evaluate("() => performance.clearResourceTimings()");
        System.out.printf(
                "round %d: %d referrals, median %d ms (answered in %d), nine of ten within %d ms (answered in %d), slowest %d ms%n",
                round,
                shown.size(),
                median(shown),
                median(answered),
                nineOfTen(shown),
                nineOfTen(answered),
                shown.getLast());
    }

    private static List<Long> times(Page page, String script) {
        return ((List<?>) page.evaluate("() => " + script))
                .stream()
                        .map(time -> Math.round(((Number) time).doubleValue()))
                        .sorted()
                        .toList();
    }

    private static long median(List<Long> times) {
        return times.get(times.size() / 2);
    }

    private static long nineOfTen(List<Long> times) {
        return times.get(times.size() * 9 / 10);
    }
}
