package limbqueue.intake.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.options.FilePayload;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Function;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.file.MadeFiles;
import limbqueue.intake.HandRead;
import limbqueue.intake.LetterIntake;
import limbqueue.reading.ReadLetter;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.util.AopTestUtils;
import org.springframework.test.util.ReflectionTestUtils;

/**
 * Letters become referrals in a browser. Which words stand for which field is said here by hand, so that these tests are of
 * the screen alone. All people are invented.
 */
@InBrowser
class LetterViewIT {

    private static final Path PICTURES = Path.of("target/pictures");
    private static final String LETTER = """
            Dear colleague,

            thank you for seeing Mrs Adeline Quill, born 3 May 1951.
            She has had rest pain in the left foot for three weeks. ABI R 0.61.
            She takes apixaban 5 mg twice daily and metformin.
            There is an ulcer, and she cannot walk far.

            Dr Ines Farrow, Millbeck Surgery
            """;

    @Autowired
    private LetterIntake intake;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @TempDir
    Path folder;

    private Object reader = new Object();

    @BeforeEach
    void readByHand() {
        reader = Objects.requireNonNull(ReflectionTestUtils.getField(target(), "reader"));
        Function<String, ReadLetter> byHand = LetterViewIT::readByHand;
        ReflectionTestUtils.setField(target(), "reader", byHand);
    }

    @AfterEach
    void readAsBefore() {
        ReflectionTestUtils.setField(target(), "reader", reader);
    }

    private LetterIntake target() {
        return AopTestUtils.getUltimateTargetObject(intake);
    }

    private static ReadLetter readByHand(String text) {
        return new HandRead(text)
                .says("Quill", "patient.family", "\"Quill\"")
                .says("Adeline", "patient.given", "\"Adeline\"")
                .says("3 May 1951", "patient.born", "\"1951-05-03\"")
                .says("rest pain in the left foot", "legs.left.restPain.present", "true")
                .says("three weeks", "legs.left.restPain.sinceDays", "21")
                .says("ABI R 0.61", "legs.right.abi", "0.61")
                .says("apixaban", "medicines[0].name", "\"apixaban\"")
                .says("5 mg twice daily", "medicines[0].dose", "\"5 mg twice daily\"")
                .says("metformin", "medicines[1].name", "\"metformin\"")
                .says("Dr Ines Farrow", "referrer.name", "\"Dr Ines Farrow\"")
                .says("🦵 Zoë אבג", "patient.given", "\"🦵 Zoë אבג\"")
                .says("<script>alert(1)</script>", "asked.reason", "\"<script>alert(1)</script>\"")
                .asks("an ulcer", "An ulcer is named: on which leg, and how deep is it?")
                .asks("cannot walk far", "She cannot walk far: how many metres without pain?")
                .read();
    }

    @Test
    void aPastedLetterIsAnsweredOneByOneAndBecomesAReferral(Visitor coordinator) {
        coordinator.signIn("coordinator").open("referrals");
        coordinator.page().locator(".lq-from-letter").click();
        coordinator.page().waitForURL("**/intake/letter");
        coordinator.rest();
        assertThat(coordinator.page().locator("nav [aria-current=page]")).hasText("From a letter");
        assertAccessible(coordinator);
        picture(coordinator, "letter-empty");
        coordinator.button("Read the letter").click();
        coordinator.rest();
        assertThat(told(coordinator)).containsText("There is nothing to read yet.");

        paste(coordinator, LETTER);
        assertThat(count(coordinator)).hasText("9 proposed: 0 accepted, 0 refused, 9 open");
        assertThat(row(coordinator, "Right leg · ABI as reported")).containsText("0.61");
        assertThat(coordinator.page().locator(".lq-asking")).containsText("on which leg, and how deep is it?");
        assertAccessible(coordinator);

        act(coordinator, "Right leg · ABI as reported", "accept");
        assertThat(row(coordinator, "Right leg · ABI as reported")).containsText("accepted");
        act(coordinator, "Left leg · How long", "refuse");
        assertThat(row(coordinator, "Left leg · How long")).containsText("refused");
        assertThat(count(coordinator)).hasText("9 proposed: 1 accepted, 1 refused, 7 open");
        row(coordinator, "Medicine").first().hover();
        assertThat(coordinator.page().locator(".lq-read-words.lq-lit"))
                .hasText(new String[] {"apixaban", "5 mg twice daily"});
        picture(coordinator, "letter-read");

        act(coordinator, "Right leg · ABI as reported", "correct");
        coordinator.page().locator("[data-path='legs.right.abi']").fill("61");
        assertThat(row(coordinator, "Right leg · ABI as reported").locator(".lq-problem"))
                .isVisible();
        assertAccessible(coordinator);
        coordinator.page().locator("[data-path='legs.right.abi']").fill("0.81");
        assertThat(row(coordinator, "Right leg · ABI as reported").locator(".lq-problem"))
                .hasCount(0);
        picture(coordinator, "letter-correct");

        coordinator.button("Accept all").click();
        assertThat(count(coordinator)).hasText("9 proposed: 8 accepted, 1 refused, 0 open");
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.page().waitForSelector("lq-form lq-answer");
        coordinator.rest();
        var draft = document(coordinator);
        assertThat(text(draft, "patient.family")).isEqualTo("Quill");
        assertThat(text(draft, "legs.right.abi")).isEqualTo("0.81");
        assertThat(text(draft, "legs.left.restPain.present")).isEqualTo("true");
        assertThat(draft.get("legs.left.restPain.sinceDays")).isEmpty();
        assertThat(text(draft, "medicines[1].name")).isEqualTo("metformin");
        assertThat(text(draft, "letterText")).isEqualTo(LETTER);
        assertThat(coordinator.page().locator("[data-path='patient.family']")).hasValue("Quill");
    }

    @Test
    void wordsAndProposalsLightEachOtherUpAndEverythingIsDoneByKeyboard(Visitor coordinator) {
        coordinator.signIn("coordinator").open("intake/letter");
        var page = coordinator.page();
        assertThat(page.locator("vaadin-text-area textarea")).isFocused();
        page.keyboard().insertText(LETTER);
        page.keyboard().press("Control+Enter");
        assertThat(count(coordinator)).containsText("9 proposed");
        page.locator(".lq-read-letter-words").focus();
        page.keyboard().press("Tab");
        var first = page.locator(".lq-read-words").first();
        assertThat(first).isFocused();
        assertThat(first).hasText("Adeline");
        assertThat(row(coordinator, "Given name")).hasClass(java.util.regex.Pattern.compile(".*lq-lit.*"));
        page.keyboard().press("Enter");
        assertThat(button(coordinator, "Given name", "accept")).isFocused();
        assertThat(first).hasClass(java.util.regex.Pattern.compile(".*lq-lit.*"));
        picture(coordinator, "letter-focus");

        page.keyboard().press("y");
        assertThat(row(coordinator, "Given name")).containsText("accepted");
        assertThat(button(coordinator, "Date of birth", "accept")).isFocused();
        page.keyboard().press("n");
        assertThat(row(coordinator, "Date of birth")).containsText("refused");
        page.keyboard().press("ArrowUp");
        page.keyboard().press("ArrowUp");
        page.keyboard().press("c");
        assertThat(page.locator("[data-path='patient.given']")).isFocused();
        page.keyboard().press("End");
        page.keyboard().type(" Ann");
        page.keyboard().press("Enter");
        assertThat(button(coordinator, "Given name", "accept")).isFocused();
        assertThat(row(coordinator, "Given name")).containsText("Adeline Ann");
        page.keyboard().press("a");
        assertThat(count(coordinator)).hasText("9 proposed: 8 accepted, 1 refused, 0 open");
        coordinator.button("Make the referral").focus();
        page.keyboard().press("Enter");
        page.waitForURL("**/edit");
        coordinator.rest();
        assertThat(text(document(coordinator), "patient.given")).isEqualTo("Adeline Ann");
        assertThat(document(coordinator).get("patient.born")).isEmpty();
    }

    @Test
    void emojiRightToLeftAndScriptsAreShownAsTheTextTheyAre(Visitor coordinator) {
        coordinator.signIn("coordinator").open("intake/letter");
        var words = "Patient: 🦵 Zoë אבג, <img src=x onerror=alert(2)> reason <script>alert(1)</script>";
        paste(coordinator, words);
        assertThat(coordinator.page().locator(".lq-read-letter-words")).hasText(words);
        assertThat(row(coordinator, "Given name")).containsText("🦵 Zoë אבג");
        assertThat(coordinator.page().locator("main script, main img")).hasCount(0);
        picture(coordinator, "letter-odd");
        coordinator.button("Accept all").click();
        coordinator.rest();
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.rest();
        assertThat(text(document(coordinator), "patient.given")).isEqualTo("🦵 Zoë אבג");
        assertThat(text(document(coordinator), "asked.reason")).isEqualTo("<script>alert(1)</script>");
        assertThat(coordinator.page().locator("main script")).hasCount(0);
    }

    @Test
    void aPdfIsChosenReadKeptAndServedToBeSaved(Visitor coordinator) {
        coordinator.signIn("coordinator").open("intake/letter");
        var pdf = MadeFiles.pdf(LETTER.split("\n"));
        choose(coordinator, "מכתב 🦵.pdf", pdf);
        assertThat(count(coordinator)).containsText("9 proposed");
        assertThat(coordinator.page().locator(".lq-letter-side")).containsText("מכתב 🦵.pdf");
        coordinator.button("Accept all").click();
        coordinator.rest();
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.page().waitForSelector("lq-form lq-answer");
        coordinator.rest();
        var link = coordinator.page().locator(".lq-files a");
        assertThat(link).hasText("מכתב 🦵.pdf");
        picture(coordinator, "letter-form-files");
        assertAccessible(coordinator);
        var served = coordinator
                .page()
                .request()
                .get(coordinator
                        .page()
                        .evaluate("a => a.href", link.elementHandle())
                        .toString());
        assertThat(served.body()).isEqualTo(pdf);
        assertThat(served.headers())
                .containsEntry("content-type", "application/pdf")
                .containsEntry("x-content-type-options", "nosniff");
        assertThat(served.headers().get("content-disposition"))
                .startsWith("attachment; filename=")
                .endsWith("filename*=UTF-8''%D7%9E%D7%9B%D7%AA%D7%91%20%F0%9F%A6%B5.pdf");
        assertThat(served.headers().get("content-security-policy"))
                .contains("sandbox")
                .contains("default-src 'none'");

        coordinator.open(coordinator.place().replace("/edit", ""));
        assertThat(coordinator.page().locator(".lq-files a")).hasText("מכתב 🦵.pdf");
        coordinator.page().locator(".lq-files-panel").scrollIntoViewIfNeeded();
        picture(coordinator, "letter-page-files");
        assertAccessible(coordinator);
    }

    @Test
    void aDroppedWordDocumentComesBehindWhatWasTypedAndAScanIsKeptWithoutWords(Visitor coordinator) {
        coordinator.signIn("coordinator").open("intake/letter");
        coordinator.page().locator("vaadin-text-area textarea").fill("Told on the telephone: ABI R 0.61");
        drop(coordinator, "letter.docx", MadeFiles.docx("takes apixaban"));
        assertThat(coordinator.page().locator(".lq-read-letter-words"))
                .hasText("Told on the telephone: ABI R 0.61 takes apixaban");
        assertThat(count(coordinator)).containsText("2 proposed");
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.rest();

        coordinator.open("intake/letter");
        choose(coordinator, "scan.pdf", MadeFiles.scan(1));
        assertThat(coordinator.page().locator("main")).containsText("scan.pdf, a PDF, is kept with the referral.");
        coordinator.open("intake/letter");
        assertThat(coordinator.page().locator("main")).containsText("scan.pdf, a PDF, is kept with the referral.");
        coordinator.button("Go on with the file alone").click();
        coordinator.rest();
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-files a")).hasText("scan.pdf");
    }

    @Test
    void aBadFileIsToldInWordsAndWhatWasTypedStays(Visitor coordinator) throws IOException {
        coordinator.signIn("coordinator").open("intake/letter");
        coordinator.page().locator("vaadin-text-area textarea").fill("Typed before");
        choose(coordinator, "letter.docx", MadeFiles.docxBomb(201));
        assertThat(told(coordinator)).containsText("swells to more than 200 MB");
        choose(coordinator, "letter.html", "<html></html>".getBytes(StandardCharsets.UTF_8));
        assertThat(told(coordinator)).containsText("This is a web page (HTML)");
        picture(coordinator, "letter-refused");
        assertAccessible(coordinator);
        var huge = folder.resolve("huge.pdf");
        try (var file = new RandomAccessFile(huge.toFile(), "rw")) {
            file.setLength(2L << 30);
        }
        input(coordinator).setInputFiles(huge);
        assertThat(told(coordinator))
                .containsText("The file is too large: it has 2.0 GB, and at most 25 MB are taken.");
        assertThat(coordinator.page().locator("vaadin-text-area textarea")).hasValue("Typed before");
        coordinator.open("referrals");
        coordinator.open("intake/letter");
        assertThat(coordinator.page().locator("vaadin-text-area textarea")).hasValue("Typed before");
    }

    @Test
    void theLetterOfAReferralThatIsThereIsReadBesideIt(Visitor coordinator) {
        var draft = Draft.empty();
        draft.set("patient.family", "Quill");
        draft.set("patient.given", "Adele");
        draft.set("letterText", LETTER);
        var id = office(() -> referrals.enter(draft.toJson())).id();
        coordinator.signIn("coordinator").open("referrals/" + id + "/edit");
        coordinator.page().getByText("Read its letter").click();
        coordinator.page().waitForURL("**/intake/letter?referral=" + id);
        coordinator.rest();
        assertThat(count(coordinator)).containsText("8 proposed");
        assertThat(coordinator.page().locator("main")).containsText("1 more it says");
        var contradiction = coordinator.page().locator(".lq-contradicting .lq-proposed");
        assertThat(contradiction).containsText("On the form");
        assertThat(contradiction).containsText("Adele");
        assertThat(contradiction).containsText("In the letter");
        picture(coordinator, "letter-beside");
        assertAccessible(coordinator);
        coordinator.button("Accept all").click();
        assertThat(count(coordinator)).hasText("8 proposed: 7 accepted, 0 refused, 1 open");
        contradiction.locator("[data-act=accept]").click();
        coordinator.rest();

        office(() -> {
            var now = referrals.get(id);
            var theirs = Draft.of(now.document());
            theirs.set("patient.phone", "01632 960 001");
            return referrals.save(id, now.version(), theirs.toJson());
        });
        coordinator.button("Take into the referral").click();
        assertThat(told(coordinator)).containsText("has saved another version meanwhile");
        assertThat(count(coordinator)).hasText("8 proposed: 8 accepted, 0 refused, 0 open");
        coordinator.button("Take into the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.rest();
        var entered = document(coordinator);
        assertThat(text(entered, "patient.given")).isEqualTo("Adeline");
        assertThat(text(entered, "patient.phone")).isEqualTo("01632 960 001");
        assertThat(text(entered, "letterText")).isEqualTo(LETTER);
    }

    @Test
    void aManagerReadsNoLetters(Visitor manager) {
        manager.signIn("manager").open("intake/letter");
        assertThat(manager.page().locator(".lq-letter-view")).hasCount(0);
    }

    // ---- Steps ----

    private static void paste(Visitor visitor, String words) {
        visitor.page().locator("vaadin-text-area textarea").fill(words);
        visitor.button("Read the letter").click();
        visitor.page().waitForSelector(".lq-read-letter-words");
        visitor.rest();
    }

    private static Locator input(Visitor visitor) {
        return visitor.page().locator("vaadin-upload input[type=file]");
    }

    private static void choose(Visitor visitor, String name, byte[] content) {
        input(visitor).setInputFiles(new FilePayload(name, "application/octet-stream", content));
    }

    private static void drop(Visitor visitor, String name, byte[] content) {
        visitor.page()
                .locator("vaadin-upload")
                .evaluate("""
                (upload, [name, content]) => {
                  const bytes = Uint8Array.from(atob(content), (c) => c.charCodeAt(0));
                  const data = new DataTransfer();
                  data.items.add(new File([bytes], name));
                  upload.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
                }""", new String[] {name, Base64.getEncoder().encodeToString(content)});
    }

    private static Locator row(Visitor visitor, String label) {
        return visitor.page()
                .locator(".lq-proposed")
                .filter(new Locator.FilterOptions()
                        .setHas(visitor.page()
                                .locator(".lq-proposed-label")
                                .getByText(label, new Locator.GetByTextOptions().setExact(true))));
    }

    private static Locator button(Visitor visitor, String label, String act) {
        return row(visitor, label).locator("[data-act=" + act + "]");
    }

    private static void act(Visitor visitor, String label, String act) {
        button(visitor, label, act).click();
        visitor.rest();
    }

    private static Locator count(Visitor visitor) {
        return visitor.page().locator(".lq-letter-actions [role=status]");
    }

    private static Locator told(Visitor visitor) {
        return visitor.page().locator(".lq-letter-told");
    }

    private static void assertAccessible(Visitor visitor) {
        visitor.rest();
        assertThat(visitor.accessibilityViolations()).isEmpty();
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + ".png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }

    private Draft document(Visitor visitor) {
        var id = Long.parseLong(visitor.place().replaceAll("\\D", ""));
        return Draft.of(office(() -> referrals.get(id)).document());
    }

    private static String text(Draft draft, String path) {
        return draft.get(path)
                .map(value -> value.isString() ? value.stringValue() : value.toString())
                .orElse("not known");
    }

    private <T> T office(Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person("coordinator", () -> {
            try {
                result.set(work.call());
            } catch (RuntimeException failed) {
                throw failed;
            } catch (Exception failed) {
                throw new IllegalStateException(failed);
            }
        });
        return result.get();
    }
}
