package limbqueue.referral.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Keyboard;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A referral told on the telephone and entered by the keyboard alone. All people and places in it are invented. */
@InBrowser
class KeystrokeIT {

    private static final int MOST = 90;

    private static final String FROM_THE_SAME_DOCTOR = """
            {"patient": {"family": "Aldermoor"},
             "referrer": {"name": "Dr Maud Ferrier", "organisation": "Millbeck Surgery",
                          "address": "4 Mill Lane\\nMillbeck", "phone": "0555 01 2200", "fax": "0555 01 2201",
                          "email": "surgery@millbeck.example", "prefers": "fax"}}""";

    private static final String ANOTHER_DOCTOR = """
            {"patient": {"family": "Brackenrigg"},
             "referrer": {"name": "Dr Ivo Fernsby", "organisation": "Harbour Practice"}}""";

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;

    @BeforeEach
    void twoDoctorsAreKnown() {
        staff = new Staff(actingAs);
        for (var document : new String[] {FROM_THE_SAME_DOCTOR, ANOTHER_DOCTOR}) {
            staff.as("coordinator", () -> {
                var entered = referrals.enter(document);
                return (SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version());
            });
        }
    }

    /** Types, and counts every key that is not a character of a name or a number; a chord counts each of its keys. */
    private static final class Hands {

        private final Page page;
        private final Keyboard keyboard;
        private int keys;

        Hands(Visitor visitor) {
            page = visitor.page();
            keyboard = page.keyboard();
        }

        /** A name or a number. The unit of a dose belongs to its number. */
        Hands say(String nameOrNumber) {
            keyboard.type(nameOrNumber);
            return this;
        }

        Hands enter() {
            return press("Enter");
        }

        /** Single letters that answer, one after the other. */
        Hands answer(String letters) {
            letters.chars().mapToObj(Character::toString).forEach(this::press);
            return this;
        }

        Hands press(String key) {
            keys += key.split("\\+").length;
            keyboard.press(key);
            return this;
        }

        /** So that a step that goes astray is found where it does. */
        Hands isAt(String path) {
            var at = page.evaluate("""
                    () => {
                      const control = document.activeElement.closest("[data-path], [data-line], [data-list]");
                      return control?.dataset.path ?? control?.dataset.line ?? control?.dataset.list ?? "";
                    }""");
            assertThat(at).as("where the cursor stands").isEqualTo(path);
            return this;
        }
    }

    @Test
    void aWholeReferralIsEnteredFromTheTelephoneWithFewKeys(Visitor coordinator) throws IOException {
        coordinator.signIn("coordinator").open("referrals");
        var page = coordinator.page();
        var hands = new Hands(coordinator);
        hands.press("Alt+n");
        page.waitForURL("**/edit");
        page.waitForFunction("() => document.activeElement?.dataset?.path === 'patient.family'");

        hands.say("Thornbury").enter().say("Agnes").enter().say("14.03.1949").enter();
        hands.isAt("patient.sex").answer("f").say("0555 01 4477").enter();
        hands.isAt("referrer.name").say("ferr").enter();
        hands.isAt("asked.priority").answer("un").isAt("asked.reason").enter();

        hands.isAt("legs.right.acute.present").answer("nn");
        hands.isAt("legs.right.wound.ulcer").answer("nn");
        hands.isAt("legs.left.wound.ulcer").answer("sntn").say("21").enter().answer("n");
        hands.isAt("legs.left.infection.localSigns").say("1").enter().answer("n");
        hands.isAt("legs.right.restPain.present").answer("n");
        hands.isAt("legs.left.restPain.present").answer("y").say("30").enter().answer("ny");
        hands.isAt("legs.right.claudication.present").answer("y");
        hands.say("80").enter().say("180").enter().answer("wcs").enter().answer("y");
        hands.isAt("legs.left.claudication.present").press("F4");

        hands.isAt("armPressures.right").say("136").enter().say("140").enter();
        hands.isAt("legs.right.pressures.dorsalisPedis")
                .say("110")
                .enter()
                .say("104")
                .enter()
                .enter();
        hands.isAt("legs.left.pressures.dorsalisPedis")
                .say("62")
                .enter()
                .say("58")
                .enter()
                .say("28")
                .enter();
        hands.isAt("legs.right.pulses.femoral").answer("ppww").answer("pwaa");

        hands.isAt("imaging").answer("n").isAt("procedures").answer("n");
        hands.isAt("history.diabetes").answer("ynfnnynyn");
        hands.isAt("medicines")
                .say("clop 75 mg")
                .enter()
                .say("Glucophage 1000 mg")
                .enter();
        hands.say("atorvastatin 40 mg").enter().say("apixaban 5 mg").enter().enter();
        hands.isAt("allergies").say("penicillin severe").enter();

        coordinator.rest();
        hands.press("F2");
        assertThat(page.locator(".lq-form-says")).containsText("Ask ");
        assertThat(page.locator(".lq-form-says")).containsText("Question 1 of");
        coordinator.picture(Path.of("target/pictures/form-by-keyboard.png"), 1440);
        coordinator.picture(Path.of("target/pictures/form-by-keyboard-1024.png"), 1024);
        hands.press("Control+Enter");
        page.waitForURL("**/referrals");

        var said = "A whole referral from the telephone: " + hands.keys + " keys beside names and numbers";
        System.out.println(said);
        Files.writeString(Files.createDirectories(Path.of("target")).resolve("keystrokes.txt"), said + "\n");
        assertThat(hands.keys).isLessThan(MOST);
        assertStored();
    }

    private void assertStored() {
        var stored = staff.as(
                "coordinator",
                () -> referrals.queue().stream()
                        .filter(line -> line.patient().contains("Thornbury"))
                        .map(line -> referrals.get(line.id()))
                        .findFirst()
                        .orElseThrow());
        assertThat(stored.state()).isEqualTo(ReferralState.QUEUED);
        var draft = Draft.of(stored.document());
        var found = new TreeMap<String, String>();
        draft.differencesFrom(Draft.empty())
                .forEach(path -> found.put(path, draft.get(path).orElseThrow().toString()));
        found.remove("reference");
        found.remove("received");
        assertThat(found).containsExactlyInAnyOrderEntriesOf(new TreeMap<>(TOLD));
    }

    /** What was told, as the public format writes it. */
    private static final Map<String, String> TOLD = Map.ofEntries(
            entry("patient.family", "\"Thornbury\""),
            entry("patient.given", "\"Agnes\""),
            entry("patient.born", "\"1949-03-14\""),
            entry("patient.sex", "\"female\""),
            entry("patient.phone", "\"0555 01 4477\""),
            entry("referrer.name", "\"Dr Maud Ferrier\""),
            entry("referrer.organisation", "\"Millbeck Surgery\""),
            entry("referrer.address", "\"4 Mill Lane\\nMillbeck\""),
            entry("referrer.phone", "\"0555 01 2200\""),
            entry("referrer.fax", "\"0555 01 2201\""),
            entry("referrer.email", "\"surgery@millbeck.example\""),
            entry("referrer.prefers", "\"fax\""),
            entry("asked.priority", "\"urgent\""),
            entry("asked.expedite", "false"),
            entry("legs.left.acute.present", "false"),
            entry("legs.right.acute.present", "false"),
            entry("legs.left.wound.ulcer", "\"shallow\""),
            entry("legs.left.wound.gangrene", "\"none\""),
            entry("legs.left.wound.site", "\"toe\""),
            entry("legs.left.wound.exposes", "\"nothing\""),
            entry("legs.left.wound.sinceDays", "21"),
            entry("legs.left.wound.spreading", "false"),
            entry("legs.right.wound.ulcer", "\"none\""),
            entry("legs.right.wound.gangrene", "\"none\""),
            entry("legs.left.infection.localSigns", "1"),
            entry("legs.left.infection.deep", "false"),
            entry("legs.left.restPain.present", "true"),
            entry("legs.left.restPain.sinceDays", "30"),
            entry("legs.left.restPain.needsOpioid", "false"),
            entry("legs.left.restPain.easedByHanging", "true"),
            entry("legs.right.restPain.present", "false"),
            entry("legs.left.claudication.present", "true"),
            entry("legs.left.claudication.distanceMetres", "80"),
            entry("legs.left.claudication.sinceDays", "180"),
            entry("legs.left.claudication.course", "\"worse\""),
            entry("legs.left.claudication.site", "\"calf\""),
            entry("legs.left.claudication.relief", "\"standing\""),
            entry("legs.left.claudication.limitsLife", "true"),
            entry("legs.right.claudication.present", "true"),
            entry("legs.right.claudication.distanceMetres", "80"),
            entry("legs.right.claudication.sinceDays", "180"),
            entry("legs.right.claudication.course", "\"worse\""),
            entry("legs.right.claudication.site", "\"calf\""),
            entry("legs.right.claudication.relief", "\"standing\""),
            entry("legs.right.claudication.limitsLife", "true"),
            entry("armPressures.left", "140"),
            entry("armPressures.right", "136"),
            entry("legs.left.pressures.dorsalisPedis", "62"),
            entry("legs.left.pressures.posteriorTibial", "58"),
            entry("legs.left.pressures.toe", "28"),
            entry("legs.right.pressures.dorsalisPedis", "110"),
            entry("legs.right.pressures.posteriorTibial", "104"),
            entry("legs.left.pulses.femoral", "\"present\""),
            entry("legs.left.pulses.popliteal", "\"weak\""),
            entry("legs.left.pulses.dorsalisPedis", "\"absent\""),
            entry("legs.left.pulses.posteriorTibial", "\"absent\""),
            entry("legs.right.pulses.femoral", "\"present\""),
            entry("legs.right.pulses.popliteal", "\"present\""),
            entry("legs.right.pulses.dorsalisPedis", "\"weak\""),
            entry("legs.right.pulses.posteriorTibial", "\"weak\""),
            entry("imaging", "[]"),
            entry("procedures", "[]"),
            entry("history.diabetes", "true"),
            entry("history.dialysis", "false"),
            entry("history.smoking", "\"former\""),
            entry("history.heartFailure", "false"),
            entry("history.stroke", "false"),
            entry("history.atrialFibrillation", "true"),
            entry("history.bleedingDisorder", "false"),
            entry("history.walksIndependently", "true"),
            entry("history.careHome", "false"),
            entry("medicines[0].name", "\"clopidogrel\""),
            entry("medicines[0].dose", "\"75 mg\""),
            entry("medicines[1].name", "\"metformin\""),
            entry("medicines[1].dose", "\"1000 mg\""),
            entry("medicines[2].name", "\"atorvastatin\""),
            entry("medicines[2].dose", "\"40 mg\""),
            entry("medicines[3].name", "\"apixaban\""),
            entry("medicines[3].dose", "\"5 mg\""),
            entry("allergies[0].to", "\"penicillin\""),
            entry("allergies[0].reaction", "\"severe\""));

    @Test
    void whereMoreThanOneFitsTheDirectoryOffersAndNothingIsTakenUnasked(Visitor coordinator) {
        begin(coordinator);
        var name = field(coordinator, "referrer.name");
        name.focus();
        coordinator.page().keyboard().type("fer");
        var offered = coordinator.page().locator("lq-suggest [role=option]");
        assertThat(offered).hasCount(2);
        assertThat(offered.first()).hasAttribute("aria-selected", "false");
        coordinator.picture(Path.of("target/pictures/form-directory.png"), 1440);
        coordinator.rest();
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.page().keyboard().press("ArrowDown");
        coordinator.page().keyboard().press("ArrowDown");
        assertThat(offered.last()).hasAttribute("aria-selected", "true");
        coordinator.page().keyboard().press("Escape");
        assertThat(coordinator.page().locator("lq-suggest")).isHidden();
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        assertThat(name).hasValue("fer");
        assertThat(field(coordinator, "referrer.organisation")).hasValue("");
    }

    @Test
    void whatWasEnteredIsTakenBackAndMadeAgain(Visitor coordinator) {
        begin(coordinator);
        var page = coordinator.page();
        var keys = page.keyboard();
        field(coordinator, "referrer.name").focus();
        keys.type("ferrier");
        keys.press("Enter");
        coordinator.rest();
        assertThat(field(coordinator, "referrer.phone")).hasValue("0555 01 2200");
        page.locator("[data-line='medicines']").focus();
        keys.type("none");
        keys.press("Enter");
        coordinator.rest();
        assertThat(undo(coordinator)).hasText("Undo: medicines answered");

        keys.press("Control+z");
        coordinator.rest();
        assertThat(page.locator("#field-medicines label[data-code='unknown'] input"))
                .isChecked();
        assertThat(undo(coordinator)).hasText("Undo: referring doctor from the directory");
        undo(coordinator).click();
        coordinator.rest();
        assertThat(field(coordinator, "referrer.phone")).hasValue("");
        // What was typed before an offer was taken is a step of its own.
        assertThat(undo(coordinator)).hasText("Undo: name of the referring doctor");
        assertThat(field(coordinator, "referrer.name")).hasValue("ferrier");

        keys.press("Control+y");
        coordinator.rest();
        assertThat(field(coordinator, "referrer.phone")).hasValue("0555 01 2200");
        var redo = page.locator(".lq-form-steps vaadin-button", new Page.LocatorOptions().setHasText("Redo"));
        assertThat(redo).hasText("Redo: medicines answered");
        redo.click();
        coordinator.rest();
        assertThat(page.locator("#field-medicines label[data-code='none'] input"))
                .isChecked();
    }

    @Test
    void theBrowserTakesBackLettersFirstAndTheFormTheField(Visitor coordinator) {
        begin(coordinator);
        var keys = coordinator.page().keyboard();
        var family = field(coordinator, "patient.family");
        family.focus();
        keys.type("Marsh");
        keys.press("Enter");
        keys.type("Ida");
        keys.press("Control+z");
        assertThat(field(coordinator, "patient.given")).not().hasValue("Ida");
        assertThat(family).hasValue("Marsh");
        coordinator.page().waitForTimeout(LineField.SETTLED_AFTER_MS + 100);
        coordinator.rest();
        assertThat(undo(coordinator)).hasText("Undo: family name");
        keys.press("Control+z");
        coordinator.rest();
        assertThat(family).hasValue("");
        assertThat(family).isFocused();
    }

    @Test
    void whatWasTypedJustBeforeAReloadIsThere(Visitor coordinator) {
        begin(coordinator);
        var place = coordinator.place();
        field(coordinator, "patient.family").pressSequentially("Underhill");
        coordinator.open(place);
        assertThat(field(coordinator, "patient.family")).hasValue("Underhill");
        coordinator.page().waitForTimeout(1500);
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-save-line")).containsText("Saved ");
    }

    @Test
    void whatWasTypedJustBeforeSigningOutIsThere(Visitor coordinator) {
        begin(coordinator);
        var place = coordinator.place();
        field(coordinator, "patient.family").pressSequentially("Netherby");
        coordinator.button("Sign out").click();
        coordinator.page().waitForURL("**/sign-in*");
        assertThat(staff.as(
                        "coordinator",
                        () -> referrals.worklist().stream()
                                .anyMatch(line -> line.patient().contains("Netherby"))))
                .isTrue();
        assertThat(coordinator.page().evaluate("() => sessionStorage.length")).isEqualTo(0);
        coordinator.signIn("coordinator").open(place);
        assertThat(field(coordinator, "patient.family")).hasValue("Netherby");
    }

    @Test
    void whatWasTypedWithoutAConnectionIsThereAfterIt(Visitor coordinator) {
        begin(coordinator);
        var place = coordinator.place();
        var context = coordinator.page().context();
        context.setOffline(true);
        field(coordinator, "patient.family").pressSequentially("Oakhanger");
        var medicine = coordinator.page().locator("[data-line='medicines']");
        medicine.pressSequentially("warfarin 3 mg");
        medicine.press("Enter");
        medicine.pressSequentially("ramip");
        coordinator.page().waitForTimeout(2000);
        context.setOffline(false);
        coordinator.open(place);
        assertThat(field(coordinator, "patient.family")).hasValue("Oakhanger");
        assertThat(field(coordinator, "medicines[0].name")).hasValue("warfarin");
        assertThat(field(coordinator, "medicines[0].dose")).hasValue("3 mg");
        assertThat(medicine).hasValue("ramip");
    }

    @Test
    void whatSomebodyElseHasTypedMeanwhileIsNotOverwrittenByWhatWasLeftOver(Visitor coordinator) {
        begin(coordinator);
        var place = coordinator.place();
        var id = Long.parseLong(place.replaceAll("\\D", ""));
        var context = coordinator.page().context();
        context.setOffline(true);
        field(coordinator, "patient.family").pressSequentially("Oakhanger");
        coordinator.page().navigate("about:blank");
        staff.as("physician", () -> {
            var now = referrals.get(id);
            var draft = Draft.of(now.document());
            draft.set("patient.family", "Oakhangar");
            return referrals.save(id, now.version(), draft.toJson());
        });
        context.setOffline(false);
        coordinator.open(place);
        assertThat(field(coordinator, "patient.family")).hasValue("Oakhangar");
        assertThat(coordinator.page().locator(".lq-mend").last()).containsText("family name: “Oakhanger”");
    }

    private static void begin(Visitor visitor) {
        visitor.signIn("coordinator").open("referrals");
        visitor.page()
                .locator("vaadin-button", new Page.LocatorOptions().setHasText("New referral"))
                .click();
        visitor.page().waitForURL("**/edit");
        visitor.page().waitForSelector("lq-form lq-answer");
        visitor.rest();
    }

    private static Locator field(Visitor visitor, String path) {
        return visitor.page().locator("[data-path='" + path + "']");
    }

    private static Locator undo(Visitor visitor) {
        return visitor.page().locator(".lq-form-steps vaadin-button").first();
    }
}
