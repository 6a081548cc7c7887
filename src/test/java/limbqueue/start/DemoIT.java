package limbqueue.start;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo as a newcomer meets it: its sign-ins, its pictures, and an approval that survives the end of the process. */
class DemoIT {

    private static final String LETTER = """
            Fellgate Surgery, 12 Harbour Row, Fellgate
            18 November 2026

            Re: Mr Osric Tamblyn, born 9 February 1951

            Thank you for seeing this retired ferryman. For six weeks he has had rest pain in the right foot at night,
            eased by hanging it out of bed, and for a fortnight a shallow ulcer of the right great toe, no bone exposed.
            There is no gangrene and no sign of infection. On the left he walks about 200 yards before the calf stops him.
            ABI R 0.38, L 0.71. Femoral pulses present, pedal pulses absent on the right.
            He is diabetic, smokes 15 a day and has never had a stroke; his brother lost a leg. He takes apixaban 5 mg twice
            daily, metformin 1 g twice daily and atorvastatin 40 mg at night. Creatinine 1.4 mg/dL.
            An angiogram at Saltmarsh General in the spring was only diagnostic; I have not been sent the report.
            Please see him urgently.

            Dr Wilmot Carrick
            """;

    private static final Path PICTURES = Path.of("target", "pictures", "demo");
    private static final Pattern ADDRESS = Pattern.compile("LimbQueue is ready: (http://localhost:\\d+/)");
    private static final Pattern FAMILY = Pattern.compile("\"family\": \"([^\"]+)\"");
    private static final Pattern SIGN_IN = Pattern.compile("(\\w+) +password +(\\S+)");

    @TempDir
    Path folder;

    @Test
    void anApprovalIsThereAfterTheProcessWasKilled() throws Exception {
        String decided;
        try (var demo = start()) {
            try (var physician = visitor(demo, "physician")) {
                physician.open("queue");
                physician
                        .page()
                        .locator(".lq-tier-group .lq-queue-entry")
                        .first()
                        .click();
                physician.page().waitForURL(url -> url.matches(".*/referrals/\\d+"));
                physician.rest();
                decided = physician.place();
                physician.button("Approve").click();
                physician.page().waitForURL(url -> url.contains("decided="));
                demo.handle().destroyForcibly();
                demo.exitCode();
            }
        }
        try (var again = start();
                var physician = visitor(again, "physician")) {
            physician.open(decided);
            assertThat(physician.page().locator(".lq-decision-banner")).containsText("Approved");
        }
        var log = Files.readString(folder.resolve("limbqueue-data/logs/limbqueue.json"));
        assertThat(log).contains("\"@timestamp\"");
        assertThat(familyNames())
                .hasSizeGreaterThan(20)
                .allSatisfy(name -> assertThat(log).doesNotContain(name));
    }

    /** The family names of the demo's patients, none of which belongs into a log. */
    private static List<String> familyNames() throws IOException {
        var names = new ArrayList<String>();
        try (var files = Files.list(Path.of("demo-referrals"))) {
            for (var file : files.filter(file -> file.toString().endsWith(".referral.json"))
                    .toList()) {
                FAMILY.matcher(Files.readString(file)).results().forEach(found -> names.add(found.group(1)));
            }
        }
        return names;
    }

    @Test
    void everyScreenIsKeptAsAPicture() throws Exception {
        Files.createDirectories(PICTURES);
        try (var demo = start()) {
            try (var newcomer = Visitor.of(address(demo))) {
                newcomer.open("sign-in");
                picture(newcomer, "sign-in");
            }
            try (var coordinator = visitor(demo, "coordinator")) {
                coordinator.open("work?list=waiting");
                picture(coordinator, "work");
                coordinator
                        .page()
                        .locator(".lq-work-line", new Page.LocatorOptions().setHasText("Teviot"))
                        .click();
                coordinator.page().waitForURL("**/chasing");
                coordinator.rest();
                picture(coordinator, "chasing");
                coordinator.open("intake/letter");
                coordinator.page().locator("vaadin-text-area textarea").fill(LETTER);
                coordinator.button("Read the letter").click();
                coordinator.page().waitForSelector(".lq-read-letter-words");
                coordinator.rest();
                picture(coordinator, "from-a-letter");
                coordinator.open("referrals");
                picture(coordinator, "referrals");
                coordinator
                        .page()
                        .locator("vaadin-grid")
                        .getByText("Keswick-Oduya, Lavinia", new Locator.GetByTextOptions().setExact(true))
                        .first()
                        .click();
                coordinator.page().waitForURL("**/edit");
                coordinator.page().waitForSelector("lq-form lq-answer");
                coordinator.rest();
                picture(coordinator, "form-top");
                coordinator
                        .page()
                        .locator("[data-path='legs.left.pressures.dorsalisPedis']")
                        .scrollIntoViewIfNeeded();
                picture(coordinator, "form");
                coordinator.open("referrals");
                coordinator.page().locator("vaadin-text-field input").fill("Inglewood");
                coordinator
                        .page()
                        .locator("vaadin-grid")
                        .getByText(Pattern.compile("^Inglewood, "))
                        .first()
                        .click();
                coordinator.page().waitForURL("**/edit");
                coordinator.page().waitForSelector("lq-arteries table button");
                coordinator.rest();
                coordinator.page().locator("lq-arteries table button").first().click();
                coordinator.page().locator("lq-arteries").evaluate("legs => legs.scrollIntoView()");
                picture(coordinator, "legs");
                coordinator.open("preparation");
                picture(coordinator, "preparation");
                coordinator
                        .page()
                        .locator(".lq-row-link", new Page.LocatorOptions().setHasText("Shawcross"))
                        .click();
                coordinator.page().waitForURL(url -> url.matches(".*/referrals/\\d+/preparation"));
                coordinator.rest();
                picture(coordinator, "case");
                coordinator.open("stents");
                picture(coordinator, "stents");
                coordinator.open("sessions");
                coordinator.button("Next week").click();
                coordinator.page().waitForURL("**/sessions?week=*");
                coordinator.rest();
                picture(coordinator, "sessions");
                coordinator.open("letters");
                picture(coordinator, "letters");
                coordinator
                        .page()
                        .getByText("Text", new Page.GetByTextOptions().setExact(true))
                        .first()
                        .click();
                coordinator.rest();
                picture(coordinator, "letter");
            }
            try (var physician = visitor(demo, "physician")) {
                physician.open("queue");
                picture(physician, "queue");
                physician
                        .page()
                        .locator(
                                ".lq-queue-entry", new Page.LocatorOptions().setHasText("possible undisclosed attempt"))
                        .first()
                        .click();
                physician.page().waitForURL(url -> url.matches(".*/referrals/\\d+"));
                physician.rest();
                picture(physician, "referral");
                physician.button("Change").click();
                physician.rest();
                picture(physician, "change");
                for (var view : new String[] {"rules", "policy", "governance"}) {
                    physician.open(view);
                    picture(physician, view);
                }
            }
            try (var manager = visitor(demo, "manager")) {
                for (var view : new String[] {"people", "practice", "same-day", "activity"}) {
                    manager.open(view);
                    picture(manager, view);
                }
            }
        }
    }

    private Run start() throws Exception {
        return Run.jar(
                folder,
                "--server.port=0",
                "--limbqueue.demo-folder=" + Path.of("demo-referrals").toAbsolutePath());
    }

    private static String address(Run demo) throws Exception {
        var matcher = ADDRESS.matcher(demo.ready());
        assertThat(matcher.find()).isTrue();
        return matcher.group(1);
    }

    /** Somebody who signs in with what the block at the start says. */
    private static Visitor visitor(Run demo, String name) throws Exception {
        var visitor = Visitor.of(address(demo));
        var password = SIGN_IN.matcher(demo.ready())
                .results()
                .filter(line -> line.group(1).equals(name))
                .findFirst()
                .orElseThrow()
                .group(2);
        return visitor.signIn(name, password);
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + "-1440.png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }
}
