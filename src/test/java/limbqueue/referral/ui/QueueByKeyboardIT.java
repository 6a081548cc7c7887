package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A physician works through the demo's referrals at 1440 by 900, with the keyboard alone. All people are invented. */
@InBrowser
class QueueByKeyboardIT {

    private static final Path PICTURES = Path.of("target/pictures");

    /** What of the page lies outside of its window, and what of the board has to be scrolled to be seen. */
    private static final String BELOW_THE_FOLD = """
            () => {
              const hidden = [];
              const page = document.scrollingElement;
              if (page.scrollHeight > innerHeight || page.scrollWidth > innerWidth) {
                hidden.push(`the page: ${page.scrollWidth} x ${page.scrollHeight}`);
              }
              const parts = [".lq-because", ".lq-urgency-big", "lq-arteries svg", ".lq-legs-main", ".lq-flags .lq-panel",
                ".lq-unknown", ".lq-work-up", ".lq-plan", ".lq-since-seen", ".lq-earlier-decisions", ".lq-decision-bar"];
              for (const part of parts) {
                const shown = document.querySelector(".lq-one-screen " + part);
                const pieces = shown ? [...shown.getClientRects()] : [];
                const board = document.querySelector(".lq-board").getBoundingClientRect();
                const floor = part === ".lq-decision-bar" ? innerHeight : board.bottom;
                if (!pieces.length || pieces.some(piece => piece.bottom > floor + 1 || piece.right > innerWidth)) {
                  hidden.push(part);
                }
              }
              return hidden;
            }""";

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @AfterEach
    void emptyTheQueue() {
        as("physician", () -> {
            for (var line : referrals.queue()) {
                referrals.decide(
                        line.id(),
                        referrals.get(line.id()).version(),
                        new Decision.ReturnToReferrer("End of the test."));
            }
            return true;
        });
    }

    @Test
    void twentyReferralsAreTriagedByKeyboardAloneAndEachIsOnOneScreen(Visitor physician) throws IOException {
        queueTheDemo();
        var waiting = as("physician", referrals::queue).size();
        patient(physician).signIn("physician").page().waitForURL("**/queue");
        physician.rest();
        press(physician, "j");
        press(physician, "Enter");
        read(physician);
        picture(physician, "one-screen");
        assertAccessible(physician);

        press(physician, "?");
        assertThat(dialog(physician).innerText())
                .contains("approve the proposal", "send to hospital now", "the next referral of the queue");
        assertAccessible(physician);
        picture(physician, "one-screen-keys");
        press(physician, "a");
        press(physician, "Escape");
        gone(physician);
        assertThat(as("physician", referrals::queue)).hasSize(waiting);
        press(physician, "l");
        assertThat(dialog(physician).innerText()).contains("Letter as it came");
        press(physician, "Escape");
        gone(physician);
        press(physician, "b");
        physician.page().locator(".lq-timeline").waitFor();
        picture(physician, "one-screen-background");
        press(physician, "b");
        var first = open(physician);
        press(physician, "n");
        physician.page().waitForURL(url -> !url.endsWith("/" + first));
        read(physician);
        press(physician, "p");
        physician.page().waitForURL("**/referrals/" + first);

        var decided = new ArrayList<Long>();
        var hidden = new ArrayList<String>();
        for (var number = 0; number < 20; number++) {
            var id = read(physician);
            hidden.addAll(belowTheFold(physician));
            if (number == 8) {
                picture(physician, "one-screen-later");
            }
            if (physician.page().locator(".lq-approve").count() == 0) {
                press(physician, "h");
                typeAndConfirm(physician, "Told the vascular registrar and the patient by telephone.");
            } else {
                switch (number % 4) {
                    case 0 -> {
                        press(physician, "c");
                        dialog(physician)
                                .locator("vaadin-radio-button:focus-within")
                                .waitFor();
                        press(physician, "ArrowDown");
                        for (var tabs = 0; tabs < 9 && !inTheReason(physician); tabs++) {
                            press(physician, "Tab");
                        }
                        typeAndConfirm(physician, "Seen in the clinic yesterday, can wait as long as that.");
                    }
                    case 1 -> {
                        press(physician, "a");
                        if (number == 1) {
                            physician.page().waitForURL("**/*?decided=" + id);
                            press(physician, "u");
                            physician.page().waitForURL("**/referrals/" + id);
                            read(physician);
                            assertThat(as("physician", referrals::queue)).hasSize(waiting - decided.size());
                            press(physician, "a");
                        }
                    }
                    case 2 -> {
                        press(physician, "i");
                        typeAndConfirm(physician, "Also the toe pressure, please. ");
                    }
                    default -> {
                        press(physician, "r");
                        typeAndConfirm(physician, "Walking exercise first, then write again.");
                    }
                }
            }
            physician.page().waitForURL("**/*?decided=" + id);
            decided.add(id);
        }
        while (read(physician) > 0 && !physician.page().locator("[data-key=n]").isDisabled()) {
            hidden.addAll(belowTheFold(physician));
            var before = open(physician);
            press(physician, "n");
            physician.page().waitForURL(url -> !url.contains("/" + before));
        }

        assertThat(hidden).as("what has to be scrolled to").isEmpty();
        assertThat(new HashSet<>(decided)).hasSize(20);
        assertThat(as("physician", referrals::queue)).hasSize(waiting - 20);
        assertThat(decided.stream()
                        .map(id ->
                                as("physician", () -> referrals.decisions(id)).getFirst())
                        .peek(decision -> assertThat(decision.reason().isBlank())
                                .isEqualTo(decision.kind() == DecisionKind.APPROVED))
                        .map(decision -> decision.kind())
                        .distinct())
                .containsExactlyInAnyOrder(DecisionKind.values());
    }

    @Test
    void whatAFlagRestsOnLeadsToTheWordsOfTheLetter(Visitor physician) throws IOException {
        var id = queued(Files.readString(Path.of("demo-referrals/18-diagnostic-angiogram-no-report.referral.json")));
        openOnOneScreen(physician, id);

        physician.page().locator(".lq-flags-raised .lq-proof-open").first().focus();
        press(physician, "Enter");
        dialog(physician).locator("mark").first().waitFor();
        assertThat(dialog(physician).locator("mark").first().innerText()).containsIgnoringCase("angiogra");
        assertThat(dialog(physician).innerText()).contains("Marked: what the letter says of");
        assertAccessible(physician);
        picture(physician, "one-screen-letter");
    }

    @Test
    void otherFactsAreTriedOutAndSavedAsACorrectionThatIsSeenAsNew(Visitor physician) throws IOException {
        var id = queued(Files.readString(Path.of("demo-referrals/02-limiting-claudication.referral.json")));
        openOnOneScreen(physician, id);
        assertThat(physician.page().locator(".lq-since-seen").innerText()).contains("Seen only as it is");
        press(physician, "w");
        physician.page().waitForURL("**/what-if");
        var panel = physician.rest().page().locator(".lq-what-if-panel");
        assertThat(panel.innerText()).contains("No fact is changed yet");
        var before = as("physician", () -> referrals.get(id));

        var spreading = physician.page().locator("[data-path='legs.left.wound.gangrene']");
        spreading.scrollIntoViewIfNeeded();
        spreading.locator("label[data-code='extensive']").click();
        panel.locator(".lq-what-if-other").first().waitFor();

        assertThat(panel.innerText()).contains("left leg, gangrene: ", "would be Extensive", "Rutherford");
        assertThat(panel.locator(".lq-what-if-other").first().innerText()).startsWith("Urgency");
        assertThat(as("physician", () -> referrals.get(id))).isEqualTo(before);
        assertAccessible(physician);
        picture(physician, "what-if");

        physician
                .page()
                .locator("vaadin-button", saying("Save as a correction by Dr Imogen Tarrant"))
                .click();
        physician.page().waitForURL("**/referrals/" + id);
        read(physician);
        assertThat(Draft.of(as("physician", () -> referrals.get(id)).document())
                        .get("legs.left.wound.gangrene")
                        .map(value -> value.asString()))
                .contains("extensive");
        assertThat(physician.page().locator(".lq-since-seen").innerText())
                .contains("left leg, gangrene", "Extensive", "Urgency was");
        assertThat(as("physician", () -> referrals.timeline(id)).getFirst().who())
                .isEqualTo("Dr Imogen Tarrant");
        picture(physician, "since-last-seen");
    }

    @Test
    void eachLineOfTheQueueSaysWhyItStandsThere(Visitor physician) throws IOException {
        queued(Files.readString(Path.of("demo-referrals/19-put-off-elsewhere.referral.json")));
        queued(Files.readString(Path.of("demo-referrals/20-wants-it-before-the-cruise.referral.json")));
        queued(Files.readString(Path.of("demo-referrals/04-claudication-getting-worse.referral.json")));
        patient(physician).signIn("physician").page().waitForURL("**/queue");
        var lines = physician.rest().page().locator(".lq-queue-entry").allInnerTexts();

        assertThat(lines).hasSize(3).allMatch(line -> line.contains("Stands here by: ") && line.contains("target "));
        assertThat(lines).anyMatch(line -> line.contains("counted from when") && line.contains("put it off"));
        assertThat(lines).anyMatch(line -> line.contains("asked: ") && line.contains("changed nothing"));
        assertThat(lines).anyMatch(line -> line.contains("walking getting worse"));
        picture(physician, "queue-order");
    }

    private void queueTheDemo() throws IOException {
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                var document = Files.readString(file);
                as("coordinator", () -> {
                    var entered = referrals.enter(document);
                    return referrals.submit(entered.id(), entered.version());
                });
            }
        }
    }

    private long queued(String document) {
        return as("coordinator", () -> {
            var entered = referrals.enter(document);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version()))
                    .referral()
                    .id();
        });
    }

    /** Many steps follow one another; a busy machine may take its time for each. */
    private static Visitor patient(Visitor visitor) {
        visitor.page().setDefaultTimeout(120_000);
        return visitor;
    }

    private static void openOnOneScreen(Visitor visitor, long id) {
        patient(visitor).signIn("physician").open("referrals/" + id);
        read(visitor);
    }

    private static List<String> belowTheFold(Visitor visitor) {
        var id = open(visitor);
        var hidden = (List<?>) visitor.page().evaluate(BELOW_THE_FOLD);
        if (!hidden.isEmpty()) {
            visitor.picture(PICTURES.resolve("below-the-fold-" + id + ".png"), 1440);
        }
        return hidden.stream().map(part -> id + ": " + part).toList();
    }

    /** Waits until a referral has been shown as long as it takes to look at it. */
    private static long read(Visitor visitor) {
        visitor.page()
                .waitForFunction(
                        "() => document.querySelector('.lq-one-screen')?.dataset.read"
                                + " && location.pathname.endsWith('/' + document.querySelector('.lq-one-screen').dataset.read)");
        visitor.page().locator("lq-arteries svg").first().waitFor();
        return open(visitor);
    }

    private static long open(Visitor visitor) {
        return Long.parseLong(visitor.page().url().replaceAll(".*/referrals/(\\d+).*", "$1"));
    }

    private static void typeAndConfirm(Visitor visitor, String words) {
        dialog(visitor).locator("textarea:focus").waitFor(new Locator.WaitForOptions().setTimeout(30_000));
        visitor.page().keyboard().type(words);
        visitor.rest();
        press(visitor, "Control+Enter");
    }

    private static boolean inTheReason(Visitor visitor) {
        return dialog(visitor).locator("textarea:focus").count() > 0;
    }

    private static void press(Visitor visitor, String key) {
        visitor.page().keyboard().press(key);
        visitor.rest();
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    private static void gone(Visitor visitor) {
        dialog(visitor).waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.DETACHED));
    }

    private static Page.LocatorOptions saying(String words) {
        return new Page.LocatorOptions().setHasText(words);
    }

    private <T> T as(String signInName, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(signInName, () -> result.set(work.get()));
        return result.get();
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + "-1440.png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }

    private static void assertAccessible(Visitor visitor) {
        assertThat(visitor.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
    }
}
