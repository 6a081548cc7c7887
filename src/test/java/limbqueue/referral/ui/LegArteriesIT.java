package limbqueue.referral.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Lesions entered and read on the picture of the leg arteries, in a browser. */
@InBrowser
class LegArteriesIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Test
    void lesionsAreEnteredWithTheMouseAndAreInTheSavedDocument(Visitor coordinator) {
        begin(coordinator);
        click(coordinator, "left-externalIliac");
        assertThat(editor(coordinator)).containsText("Left external iliac");
        assertThat(editor(coordinator)).containsText("Not known.");
        add(coordinator);
        type(coordinator, "Stenosis, lesion 1, %", "100");
        type(coordinator, "Length, lesion 1, mm", "60");
        choose(coordinator, "Calcification, lesion 1", "severe");
        choose(coordinator, "At the origin, lesion 1", "no");
        add(coordinator);
        type(coordinator, "Stenosis, lesion 2, %", "70");
        coordinator.rest();

        assertThat(marks(coordinator))
                .containsExactly(
                        "occlusion left-externalIliac", "severe left-externalIliac", "stenosis left-externalIliac");
        assertThat(words(coordinator))
                .containsText(
                        "occlusion, 60\u00a0mm long, severely calcified, not at the origin; stenosis of 70\u00a0%");
        assertThat(legs(coordinator).getByRole(AriaRole.STATUS)).containsText("Left external iliac: occlusion, 60");
        coordinator.picture(PICTURES.resolve("legs-editor.png"), 1440);
        coordinator.picture(PICTURES.resolve("legs-editor-1024.png"), 1024);
        saved(coordinator);
        assertThat(document(coordinator))
                .contains("\"lesions\":[{\"segment\":\"externalIliac\",\"side\":\"left\",\"stenosisPercent\":100,"
                        + "\"lengthMm\":60,\"calcification\":\"severe\",\"ostial\":false},"
                        + "{\"segment\":\"externalIliac\",\"side\":\"left\",\"stenosisPercent\":70}]");

        coordinator.open(coordinator.place());
        assertThat(field(coordinator, "lesions[0].lengthMm")).hasValue("60");
        assertThat(field(coordinator, "lesions[1].stenosisPercent")).hasValue("70");
    }

    @Test
    void aLesionIsEnteredFromTheKeyboardAlone(Visitor coordinator) {
        begin(coordinator);
        var page = coordinator.page();
        // The last field before the lesions; from there on no mouse is used.
        page.locator("[id='field-imaging'] .lq-button").focus();
        press(page, "Tab");
        assertThat(artery(coordinator, "infrarenalAorta")).isFocused();
        press(page, "ArrowRight");
        assertThat(artery(coordinator, "left-commonIliac")).isFocused();
        press(page, "ArrowDown", "ArrowDown", "ArrowDown");
        assertThat(artery(coordinator, "left-superficialFemoral")).isFocused();
        press(page, "ArrowRight");
        assertThat(artery(coordinator, "left-profundaFemoris")).isFocused();
        press(page, "ArrowLeft", "ArrowDown");
        assertThat(artery(coordinator, "left-popliteal")).isFocused();
        assertThat(artery(coordinator, "left-popliteal")).hasAttribute("aria-label", "Left popliteal: not known");
        press(page, "ArrowLeft");
        assertThat(artery(coordinator, "right-popliteal")).isFocused();
        coordinator.picture(PICTURES.resolve("legs-focus.png"), 1440);
        press(page, "Enter");
        assertThat(editor(coordinator).getByRole(AriaRole.BUTTON, named("Add lesion of the right popliteal")))
                .isFocused();
        press(page, "Enter");
        assertThat(legs(coordinator).getByLabel("Stenosis, lesion 1, %")).isFocused();
        page.keyboard().type("80");
        press(page, "Enter");
        assertThat(legs(coordinator).getByLabel("Length, lesion 1, mm")).isFocused();
        page.keyboard().type("25");
        press(page, "Enter", "Enter");
        // Vessel diameter was left out; the answers are keys as everywhere on the form.
        press(page, "m", "n");
        coordinator.rest();
        press(page, "Escape");
        assertThat(artery(coordinator, "right-popliteal")).isFocused();
        assertThat(editor(coordinator)).isHidden();
        saved(coordinator);
        assertThat(document(coordinator))
                .contains("\"lesions\":[{\"segment\":\"popliteal\",\"side\":\"right\",\"stenosisPercent\":80,"
                        + "\"lengthMm\":25,\"calcification\":\"moderate\",\"ostial\":false}]");
        assertThat(marks(coordinator)).containsExactly("stenosis right-popliteal", "moderate right-popliteal");
        assertThat(artery(coordinator, "right-popliteal"))
                .hasAttribute(
                        "aria-label", Pattern.compile("Right popliteal: stenosis of 80\u00a0%, 25\u00a0mm long.*"));

        press(page, "Control+z");
        coordinator.rest();
        assertThat(field(coordinator, "lesions[0].ostial").locator("input:checked"))
                .hasValue("");
        assertThat(legs(coordinator).getByRole(AriaRole.STATUS)).hasText("Undone.");
        assertThat(artery(coordinator, "right-popliteal")).isFocused();
    }

    @Test
    void everyArteryIsReachedByArrowKeys(Visitor coordinator) {
        begin(coordinator);
        var page = coordinator.page();
        var reached = new TreeSet<String>();
        artery(coordinator, "infrarenalAorta").focus();
        walk(page, reached, 0);
        assertThat(reached).hasSize(25);
    }

    /** Tries each arrow key from where the focus is, and goes on from every artery that it had not been at. */
    private static void walk(Page page, Set<String> reached, int depth) {
        var here = focusedArtery(page);
        if (!reached.add(here) || depth > 30) {
            return;
        }
        for (var key : List.of("ArrowDown", "ArrowLeft", "ArrowRight", "ArrowUp")) {
            press(page, key);
            if (!focusedArtery(page).equals(here)) {
                walk(page, reached, depth + 1);
            }
            page.evaluate("place => document.querySelector(`[data-place=\"${place}\"]`).focus()", here);
        }
    }

    private static String focusedArtery(Page page) {
        return String.valueOf(page.evaluate("document.activeElement.dataset.place"));
    }

    @Test
    void thePictureAndTheListHoldTheSameLesions(Visitor coordinator) {
        begin(coordinator);
        coordinator.button("Add lesion").click();
        coordinator.rest();
        field(coordinator, "lesions[0].segment").locator("select").selectOption("commonIliac");
        answer(coordinator, "lesions[0].side", "right");
        typeInTheList(coordinator, "lesions[0].stenosisPercent", "90");
        assertThat(legs(coordinator).locator("[data-mark=stenosis][data-segment=commonIliac]"))
                .hasCount(1);

        // The words of the table lead to the same editor.
        words(coordinator).getByText("stenosis of 90").click();
        assertThat(legs(coordinator).getByLabel("Stenosis, lesion 1, %")).hasValue("90");
        type(coordinator, "Length, lesion 1, mm", "15");
        coordinator.rest();
        assertThat(field(coordinator, "lesions[0].lengthMm")).hasValue("15");
        typeInTheList(coordinator, "lesions[0].lengthMm", "25");
        assertThat(legs(coordinator).getByLabel("Length, lesion 1, mm")).hasValue("25");

        editor(coordinator)
                .getByRole(AriaRole.BUTTON, named("Delete lesion 1 of the right common iliac"))
                .click();
        coordinator.rest();
        assertThat(field(coordinator, "lesions[0].lengthMm")).hasCount(0);
        assertThat(marks(coordinator)).isEmpty();
        legs(coordinator).locator(".lq-arteries-undo").click();
        coordinator.rest();
        assertThat(field(coordinator, "lesions[0].lengthMm")).hasValue("25");
        assertThat(marks(coordinator)).containsExactly("stenosis right-commonIliac");
        saved(coordinator);
        assertThat(document(coordinator)).contains("\"stenosisPercent\":90,\"lengthMm\":25");
    }

    @Test
    void whatCannotBeRightIsToldAtItsFieldAndKeptAndNotDrawn(Visitor coordinator) {
        begin(coordinator);
        click(coordinator, "left-peroneal");
        add(coordinator);
        type(coordinator, "Stenosis, lesion 1, %", "9oo");
        type(coordinator, "Length, lesion 1, mm", "2000");
        coordinator.rest();
        var stenosis = legs(coordinator).getByLabel("Stenosis, lesion 1, %");
        assertThat(stenosis).hasAttribute("aria-invalid", "true");
        assertThat(editor(coordinator).locator(".lq-problem")).hasCount(2);
        assertThat(editor(coordinator)).containsText("9oo");
        assertThat(editor(coordinator)).containsText("2000");
        assertThat(marks(coordinator)).containsExactly("unknown left-peroneal");
        assertThat(words(coordinator)).containsText("narrowing not known, length not known");
        coordinator.picture(PICTURES.resolve("legs-bad-input.png"), 1440);
        saved(coordinator);
        assertThat(document(coordinator)).contains("\"stenosisPercent\":\"9oo\",\"lengthMm\":2000");
        coordinator.open(coordinator.place());
        click(coordinator, "left-peroneal");
        assertThat(stenosis).hasValue("9oo");
    }

    @Test
    void nothingTypedIsLostWhenTheEditorClosesAtOnce(Visitor coordinator) {
        begin(coordinator);
        click(coordinator, "right-pedal");
        add(coordinator);
        var length = legs(coordinator).getByLabel("Length, lesion 1, mm");
        length.fill("33");
        coordinator.page().keyboard().press("Escape");
        coordinator.rest();
        click(coordinator, "right-anteriorTibial");
        add(coordinator);
        legs(coordinator).getByLabel("Stenosis, lesion 1, %").fill("55");
        click(coordinator, "right-peroneal");
        coordinator.rest();
        saved(coordinator);
        assertThat(document(coordinator))
                .contains("{\"segment\":\"pedal\",\"side\":\"right\",\"lengthMm\":33}")
                .contains("{\"segment\":\"anteriorTibial\",\"side\":\"right\",\"stenosisPercent\":55}");
    }

    @Test
    void thePictureCanBeUsedByEverybody(Visitor coordinator) {
        begin(coordinator);
        click(coordinator, "left-commonIliac");
        add(coordinator);
        type(coordinator, "Stenosis, lesion 1, %", "9oo");
        coordinator.rest();
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.page().evaluate("""
                () => {
                  document.querySelector('[data-place=left-pedal]').removeAttribute('aria-label');
                  document.querySelector('[data-place=left-pedal] title').remove();
                  document.querySelector('.lq-arteries-editor input[type=text]').removeAttribute('aria-label');
                }""");
        assertThat(coordinator.accessibilityViolations())
                .anyMatch(line -> line.startsWith("aria-command-name:") && line.contains("left-pedal"))
                .anyMatch(line -> line.startsWith("label:"));
    }

    @Test
    void thePhysicianReadsThePictureBesideTheGrades(Visitor physician) {
        var id = new AtomicReference<Long>();
        actingAs.person("coordinator", () -> {
            var entered = referrals.enter("""
                    {"patient": {"family": "Wetherlam", "given": "Oriel", "born": "1951-04-02"},
                     "armPressures": {"left": 138, "right": 136},
                     "legs": {"left": {"restPain": {"present": true, "sinceDays": 30},
                       "pressures": {"dorsalisPedis": 44, "posteriorTibial": 40, "toe": 26}}},
                     "lesions": [{"side": "left", "segment": "externalIliac", "stenosisPercent": 100, "lengthMm": 70,
                       "calcification": "severe", "source": "cta"}]}""");
            referrals.submit(entered.id(), entered.version());
            id.set(entered.id());
        });
        physician.signIn("physician").open("referrals/" + id.get());
        assertThat(marks(physician)).containsExactly("occlusion left-externalIliac", "severe left-externalIliac");
        assertThat(legs(physician).locator("[role=button]")).hasCount(0);
        assertThat(legs(physician).locator("svg[role=img]").first())
                .hasAttribute(
                        "aria-label", Pattern.compile(".*External iliac: right nothing reported, left occlusion.*"));
        physician.picture(PICTURES.resolve("referral-legs.png"), 1440);
        physician.picture(PICTURES.resolve("referral-legs-1024.png"), 1024);
        legs(physician).getByText("The same in words").click();
        assertThat(words(physician))
                .containsText("occlusion, 70\u00a0mm long, severely calcified, seen on CT angiogram");
        assertThat(physician.accessibilityViolations()).isEmpty();
        legs(physician)
                .screenshot(new Locator.ScreenshotOptions().setPath(PICTURES.resolve("referral-legs-words.png")));
    }

    private static void begin(Visitor visitor) {
        visitor.signIn("coordinator").open("referrals");
        visitor.page()
                .locator("vaadin-button", new Page.LocatorOptions().setHasText("New referral"))
                .click();
        visitor.page().waitForURL("**/edit");
        visitor.page().waitForSelector("lq-arteries [data-place]");
        visitor.rest();
    }

    private static Locator legs(Visitor visitor) {
        return visitor.page().locator("lq-arteries");
    }

    private static Locator artery(Visitor visitor, String place) {
        return legs(visitor).locator("[data-place='" + place + "']");
    }

    /** Clicks with the mouse on the middle of an artery. */
    private static void click(Visitor visitor, String place) {
        artery(visitor, place).scrollIntoViewIfNeeded();
        var middle = (List<?>) visitor.page().evaluate("""
                        place => {
                          const course = document.querySelector(`[data-halo="${place}"] path`);
                          const middle = course.getPointAtLength(course.getTotalLength() / 2);
                          const { x, y } = new DOMPoint(middle.x, middle.y).matrixTransform(course.getScreenCTM());
                          return [x, y];
                        }""", place);
        visitor.page().mouse().click(((Number) middle.get(0)).doubleValue(), ((Number) middle.get(1)).doubleValue());
        visitor.rest();
    }

    private static Locator editor(Visitor visitor) {
        return legs(visitor).locator(".lq-arteries-editor");
    }

    private static Locator words(Visitor visitor) {
        return legs(visitor).locator("table");
    }

    private static Locator field(Visitor visitor, String path) {
        return visitor.page().locator("[data-path='" + path + "']");
    }

    private static Locator.GetByRoleOptions named(String name) {
        return new Locator.GetByRoleOptions().setName(name).setExact(true);
    }

    private static void add(Visitor visitor) {
        editor(visitor).locator(".lq-arteries-add").click();
        visitor.rest();
    }

    private static void answer(Visitor visitor, String path, String code) {
        field(visitor, path).locator("label[data-code='" + code + "']").click();
        visitor.rest();
    }

    private static void choose(Visitor visitor, String label, String code) {
        legs(visitor)
                .locator("lq-answer[aria-label='" + label + "'] label[data-code='" + code + "']")
                .click();
        visitor.rest();
    }

    private static void type(Visitor visitor, String label, String text) {
        var field = legs(visitor).getByLabel(label);
        field.fill("");
        field.pressSequentially(text);
        visitor.page().waitForTimeout(LineField.SETTLED_AFTER_MS + 100);
        visitor.rest();
    }

    private static void typeInTheList(Visitor visitor, String path, String text) {
        field(visitor, path).fill("");
        field(visitor, path).pressSequentially(text);
        visitor.page().waitForTimeout(LineField.SETTLED_AFTER_MS + 100);
        visitor.rest();
    }

    private static void press(Page page, String... keys) {
        for (var key : keys) {
            page.keyboard().press(key);
        }
    }

    /** What is drawn on the arteries, as {@code occlusion left-externalIliac}. */
    private static List<String> marks(Visitor visitor) {
        visitor.page().waitForSelector("lq-arteries svg [data-layer=marks]", attached());
        return ((List<?>) visitor.page()
                        .evaluate("() => [...document.querySelectorAll('lq-arteries [data-layer=marks] > g')]"
                                + ".map(mark => `${mark.dataset.mark} ${mark.dataset.side}-${mark.dataset.segment}`)"))
                .stream().map(String::valueOf).toList();
    }

    private static Page.WaitForSelectorOptions attached() {
        return new Page.WaitForSelectorOptions().setState(WaitForSelectorState.ATTACHED);
    }

    private static void saved(Visitor visitor) {
        visitor.page().waitForTimeout(LineField.SETTLED_AFTER_MS + 100);
        visitor.rest();
        assertThat(visitor.page().locator(".lq-save-line")).containsText("Saved ");
    }

    /** The document of the form that is open, as it is stored. */
    private String document(Visitor visitor) {
        var id = Long.parseLong(visitor.place().replaceAll("\\D", ""));
        var stored = new AtomicReference<String>("");
        actingAs.person(
                "coordinator",
                () -> stored.set(Draft.of(referrals.get(id).document()).toJson()));
        return stored.get();
    }
}
