package limbqueue;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.FilePayload;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.file.MadeFiles;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * An hour of the office: twenty referrals come by telephone, as a pasted letter, as PDF, as Word document and in a table, and
 * a colleague at another desk sees each of them without touching anything. All people and places are invented.
 */
@InBrowser
class CoordinatorsHourIT {

    private static final LocatorAssertions.HasTextOptions WITHIN_A_SECOND =
            new LocatorAssertions.HasTextOptions().setTimeout(1_000);

    private static final List<String> TOLD = List.of("Ashdown", "Birkett", "Coldwell", "Dunmore");
    private static final List<String> PASTED = List.of("Eskdale", "Farleigh", "Gorseland", "Hexworth");
    private static final List<String> AS_PDF = List.of("Ilmington", "Jessop", "Kelstern");
    private static final List<String> AS_WORD = List.of("Lowdham", "Merriott", "Nettlecombe");
    private static final List<String> IN_A_TABLE =
            List.of("Oakhanger", "Pendlebury", "Quarles", "Rookhope", "Stainmore", "Thirlby");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;

    @BeforeEach
    void somebodyAsks() {
        staff = new Staff(actingAs);
    }

    @Test
    void twentyReferralsComeByFiveRoutesAndNoneIsLost(Visitor coordinator, Visitor colleague) {
        colleague.signIn("coordinator").open("work");
        coordinator.signIn("coordinator").open("referrals");
        var withThePhysician = 0;
        for (var name : TOLD) {
            telephone(coordinator, name);
            assertThat(list(colleague, "With the physician"))
                    .hasText("With the physician " + ++withThePhysician, WITHIN_A_SECOND);
        }
        for (var name : PASTED) {
            coordinator.open("intake/letter");
            coordinator.page().locator("vaadin-text-area textarea").fill(letter(name));
            coordinator.button("Read the letter").click();
            acceptAndSubmit(coordinator);
            assertThat(list(colleague, "With the physician"))
                    .hasText("With the physician " + ++withThePhysician, WITHIN_A_SECOND);
        }
        for (var name : AS_PDF) {
            choose(coordinator, name + ".pdf", MadeFiles.pdf(letter(name).split("\n")));
            acceptAndSubmit(coordinator);
            assertThat(list(colleague, "With the physician"))
                    .hasText("With the physician " + ++withThePhysician, WITHIN_A_SECOND);
        }
        for (var name : AS_WORD) {
            choose(coordinator, name + ".docx", MadeFiles.docx(letter(name).split("\n")));
            acceptAndSubmit(coordinator);
            assertThat(list(colleague, "With the physician"))
                    .hasText("With the physician " + ++withThePhysician, WITHIN_A_SECOND);
        }
        importTable(coordinator);
        assertThat(list(colleague, "To complete")).hasText("To complete 6");
        assertThat(list(colleague, "With the physician")).hasText("With the physician 14");
        assertThat(colleague.accessibilityViolations()).isEmpty();
        colleague.picture(Path.of("target/pictures/hour-1440.png"), 1440);
        colleague.picture(Path.of("target/pictures/hour-1024.png"), 1024);

        assertEverythingIsThere();
    }

    private static void telephone(Visitor coordinator, String name) {
        var page = coordinator.page();
        var keys = page.keyboard();
        keys.press("Alt+n");
        page.waitForURL("**/edit");
        page.waitForFunction("() => document.activeElement?.dataset?.path === 'patient.family'");
        for (var said : List.of(name, "Ines", "14.03.1949")) {
            keys.type(said);
            keys.press("Enter");
        }
        keys.press("f");
        page.locator("[data-path='legs.left.restPain.present']").focus();
        keys.press("y");
        page.locator("[data-path='legs.left.abi']").focus();
        keys.type("0.41");
        keys.press("Enter");
        coordinator.rest();
        keys.press("Control+Enter");
        page.waitForURL("**/referrals");
        coordinator.rest();
    }

    private static String letter(String family) {
        return """
                Millbeck Surgery
                4 March 2026

                Dear colleague,

                Re: Mrs Ines %s, born 14 March 1949

                Thank you for seeing this lady. She has had rest pain in the left foot for three weeks. The left ABI is 0.41.
                There is no ulcer and no gangrene. She takes apixaban 5 mg twice daily. Her father lost a leg to diabetes.

                Yours sincerely,
                Dr Maud Ferrier
                """.formatted(family);
    }

    private static void choose(Visitor coordinator, String name, byte[] content) {
        coordinator.open("intake/letter");
        coordinator
                .page()
                .locator("vaadin-upload input[type=file]")
                .setInputFiles(new FilePayload(name, "application/octet-stream", content));
    }

    private static void acceptAndSubmit(Visitor coordinator) {
        coordinator.page().waitForSelector(".lq-read-letter-words");
        coordinator.rest();
        coordinator.button("Accept all").click();
        coordinator.rest();
        coordinator.button("Make the referral").click();
        coordinator.page().waitForURL("**/edit");
        coordinator.page().waitForSelector("lq-form lq-answer");
        coordinator.rest();
        coordinator.page().keyboard().press("Control+Enter");
        coordinator.page().waitForURL("**/referrals");
        coordinator.rest();
    }

    private static void importTable(Visitor coordinator) {
        var table = new StringBuilder("Surname;First name;DOB;ABI left\n");
        IN_A_TABLE.forEach(name -> table.append(name).append(";Ines;14.03.1949;0,41\n"));
        coordinator.open("intake/csv");
        coordinator
                .page()
                .locator("vaadin-upload input[type=file]")
                .setInputFiles(new FilePayload(
                        "waiting list.csv", "text/csv", table.toString().getBytes(StandardCharsets.ISO_8859_1)));
        coordinator.page().waitForURL("**/intake/csv/*");
        coordinator.rest();
        for (var step : List.of("Try it", "Import 6 rows")) {
            coordinator.button(step).click();
            coordinator.rest();
        }
        assertThat(coordinator.page().locator("main"))
                .containsText("Done: 6 imported", new LocatorAssertions.ContainsTextOptions().setTimeout(60_000));
    }

    private static Locator list(Visitor visitor, String name) {
        return visitor.page().locator(".lq-chip", new Page.LocatorOptions().setHasText(name));
    }

    private void assertEverythingIsThere() {
        var documents = staff.as(
                "coordinator",
                () -> referrals.worklist().stream()
                        .map(line -> Draft.of(referrals.get(line.id()).document()))
                        .toList());
        var names = new TreeSet<String>();
        for (var document : documents) {
            names.add(text(document, "patient.family"));
            assertThat(text(document, "patient.given")).isEqualTo("Ines");
            assertThat(text(document, "patient.born")).isEqualTo("1949-03-14");
            assertThat(text(document, "legs.left.abi")).isEqualTo("0.41");
            assertThat(document.get("history.diabetes")).isEmpty();
            if (document.get("letterText").isPresent()) {
                assertThat(text(document, "legs.left.restPain.sinceDays")).isEqualTo("21");
                assertThat(text(document, "legs.left.wound.gangrene")).isEqualTo("none");
                assertThat(text(document, "medicines[0].name")).isEqualTo("apixaban");
                assertThat(text(document, "medicines[0].dose")).isEqualTo("5 mg twice daily");
            }
        }
        var expected = new TreeSet<String>();
        List.of(TOLD, PASTED, AS_PDF, AS_WORD, IN_A_TABLE).forEach(expected::addAll);
        assertThat(names).isEqualTo(expected).hasSize(20);
        assertThat(documents).hasSize(20);
    }

    private static String text(Draft document, String path) {
        return document.get(path)
                .map(value -> value.isString() ? value.stringValue() : value.toString())
                .orElse("");
    }
}
