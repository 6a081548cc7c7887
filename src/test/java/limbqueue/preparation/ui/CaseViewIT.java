package limbqueue.preparation.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.preparation.CaseItem;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.ProcedureBooking;
import limbqueue.preparation.Standing;
import limbqueue.preparation.StentStock;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A case prepared in a browser, from the first telephone call to the record. All people and lots in it are invented. */
@InBrowser
class CaseViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Preparation preparation;

    @Autowired
    private StentStock stock;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Test
    void aCaseIsDrawnPlannedStoppedAtTheGateConfirmedPassedPrintedAndRecorded(Visitor coordinator) throws IOException {
        var id = entered("Thornbury", Draft.of(Arriving.REST_PAIN)).id();
        addStent("LB-2041", 8, 58);
        addStent("LB-1177", 7, 38);
        coordinator.signIn("coordinator").open("referrals/" + id + "/edit");
        enterIliacOcclusionOnThePicture(coordinator);
        coordinator.button("Put before the physician").click();
        coordinator.rest();
        approve(office(() -> referrals.get(id)));
        coordinator.open("preparation");
        assertThat(coordinator.page().locator("vaadin-grid")).containsText("Ask for: ");
        assertAccessible(coordinator);
        row(coordinator, "Thornbury").click();
        coordinator.page().waitForURL("**/referrals/" + id + "/preparation");
        coordinator.rest();
        assertThat(coordinator.page().locator("main")).containsText(TriageResult.NOTICE);

        ask(coordinator, "Creatinine and eGFR", "Millbeck Surgery");
        assertThat(item(coordinator, "Creatinine and eGFR")).containsText("asked of Millbeck Surgery");
        typeCreatinine(coordinator, "90", "mg/dL");
        assertThat(dialog(coordinator)).containsText("90 umol/L is likely, which is 1.02 mg/dL");
        choose(coordinator, "Unit of Creatinine", "µmol/L");
        press(coordinator, "Save");
        assertThat(said(coordinator)).containsText("Creatinine and eGFR is typed in. The decision stands.");
        assertThat(item(coordinator, "Creatinine and eGFR")).containsText("done");

        book(coordinator, today().plusDays(7), "Room 2");
        assertThat(coordinator.page().locator(".lq-booking")).containsText("Room 2");
        everythingIn(id);
        coordinator.open("referrals/" + id + "/preparation");
        coordinator.button("Send to the room").click();
        coordinator.rest();
        assertThat(said(coordinator))
                .containsText("The case is not ready: The diameter of the left external iliac artery");
        assertThat(coordinator.page().locator(".lq-gate-state")).hasText("Not ready: 1 reason");
        assertAccessible(coordinator);

        coordinator
                .page()
                .getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions()
                                .setName("Type in what imaging shows of the left external iliac artery"))
                .click();
        dialog(coordinator).getByLabel("Diameter of the vessel, mm").fill("8");
        assertAccessible(coordinator);
        press(coordinator, "Save");
        assertThat(coordinator.page().locator(".lq-gate"))
                .containsText("No covered stent is confirmed in the room for the left external iliac artery");
        assertThat(coordinator.page().locator(".lq-needs")).not().containsText("LB-1177");
        picture(coordinator, "case-gate");
        coordinator
                .page()
                .getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions().setName("8 x 58 mm, 7 Fr, lot LB-2041 is in the room"))
                .click();
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-gate-state")).hasText("Ready for the room");
        assertThat(coordinator.page().locator(".lq-needs")).containsText("Seen there by Wren Halloway");

        assertThat(caseSheet(coordinator))
                .contains("Thornbury, Hesper", "Ready for the room", "lot LB-2041", "Room 2", TriageResult.NOTICE);
        coordinator.button("Send to the room").click();
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-gate-state")).containsText("In the room since");

        coordinator.button("Record the case").click();
        dialog(coordinator)
                .getByLabel("Minutes in the room, from coming in to leaving")
                .fill("95");
        dialog(coordinator).getByLabel("Access used").fill("opposite groin");
        press(coordinator, "Record");
        assertThat(coordinator.page().locator(".lq-outcome"))
                .containsText("95 minutes, opposite groin, done as planned");
        picture(coordinator, "case-over");
        coordinator.open("preparation");
        assertThat(coordinator.page().locator("main")).not().containsText("Thornbury");
    }

    @Test
    void aPhysicianGoesAheadWithAReasonAndTheOverrideFallsWhenTheFactsChange(Visitor physician) {
        var id = approved("Fenwick", iliacOcclusion());
        bookFor(id, 5);
        everythingIn(id);
        physician.signIn("physician").open("referrals/" + id + "/preparation");

        override(physician).click();
        press(physician, "Go ahead");
        assertThat(dialog(physician)).containsText("Say why the case goes ahead all the same.");
        assertAccessible(physician);
        dialog(physician).getByLabel("Why the case goes ahead all the same").fill("The leg does not wait.");
        press(physician, "Go ahead");
        assertThat(physician.page().locator(".lq-gate-state")).hasText("Goes ahead by word of Dr Imogen Tarrant");
        assertThat(physician.page().locator(".lq-gate")).containsText("“The leg does not wait.”");
        assertAccessible(physician);
        picture(physician, "case-override");

        bookFor(id, 6);
        physician.open("referrals/" + id + "/preparation");
        assertThat(physician.page().locator(".lq-gate-state")).hasText("Not ready: 1 reason");
        assertThat(physician.page().locator(".lq-gate")).containsText("holds no more: it was given for other facts");
    }

    @Test
    void aResultThatChangesTheCaseIsShownToThePhysicianWithWhatChanged(Visitor coordinator, Visitor physician) {
        var id = approved("Marchbank", Draft.of(Arriving.REST_PAIN));
        coordinator.signIn("coordinator").open("referrals/" + id + "/preparation");

        typeCreatinine(coordinator, "4.1", "mg/dL");
        assertThat(said(coordinator))
                .containsText("The referral is before the physician again: New red flag, kidney risk");
        assertThat(coordinator.page().locator(".lq-gate")).containsText("No physician's approval stands.");

        physician.signIn("physician").open("referrals/" + id);
        assertThat(physician.page().locator(".lq-reopened"))
                .containsText("Before you again: results changed what was decided on");
        assertThat(physician.page().locator(".lq-reopened")).containsText("New red flag, kidney risk");
        assertThat(physician.page().locator(".lq-reopened")).containsText("Typed in by Wren Halloway");
        physician.page().locator("[data-key=b]").click();
        assertThat(physician.page().locator(".lq-timeline")).containsText("put the referral back before the physician");
        assertAccessible(physician);
        picture(physician, "reopened");
        physician.button("Approve").click();
        physician.page().waitForURL(url -> url.contains("decided="));
        physician.open("referrals/" + id);
        assertThat(physician.page().locator(".lq-reopened")).hasCount(0);
    }

    @Test
    void theWorklistIsFilteredAndSearched(Visitor coordinator) {
        var chased = approved("Oakes", Draft.of(Arriving.REST_PAIN));
        approved("Birch", Draft.of(Arriving.REST_PAIN));
        office(() -> {
            for (var item : preparation.get(chased).red()) {
                preparation.track(
                        chased,
                        item.code(),
                        item.version(),
                        new Standing.Asked("Millbeck Surgery", today().minusDays(6), today().minusDays(2)));
            }
            return true;
        });
        coordinator.signIn("coordinator").open("preparation");

        assertThat(coordinator.page().locator("vaadin-grid .lq-next-late").first())
                .containsText("2 days late");
        picture(coordinator, "preparation");
        coordinator
                .page()
                .locator(".lq-chip", new Page.LocatorOptions().setHasText("Chase now"))
                .click();
        coordinator.rest();
        assertThat(row(coordinator, "Oakes")).hasCount(1);
        assertThat(row(coordinator, "Birch")).hasCount(0);
        coordinator.page().locator(".lq-chip").first().click();
        coordinator
                .field("Find by patient, reference or words of the next step")
                .fill("birch");
        assertThat(row(coordinator, "Oakes")).hasCount(0);
        assertThat(row(coordinator, "Birch")).hasCount(1);
        assertAccessible(coordinator);
    }

    @Test
    void anItemIsBookedAndNotNeededWithAReason(Visitor coordinator) {
        var id = approved("Sorrel", Draft.of(Arriving.REST_PAIN));
        coordinator.signIn("coordinator").open("referrals/" + id + "/preparation");

        act(coordinator, "Booked: Potassium");
        press(coordinator, "Save");
        assertThat(dialog(coordinator)).containsText("Say where it is booked.");
        dialog(coordinator)
                .getByLabel("Where", new Locator.GetByLabelOptions().setExact(true))
                .fill("the laboratory");
        press(coordinator, "Save");
        assertThat(item(coordinator, "Potassium")).containsText("booked for ");
        act(coordinator, "Not needed: Potassium");
        dialog(coordinator).getByLabel("Why it is not needed").fill("Measured in hospital yesterday.");
        press(coordinator, "Save");
        assertThat(item(coordinator, "Potassium")).containsText("not needed: Measured in hospital yesterday.");
        assertThat(item(coordinator, "Potassium")).containsText("Wren Halloway");
        coordinator.page().locator(".lq-history summary").click();
        assertThat(coordinator.page().locator(".lq-history")).containsText("Potassium: booked");
        assertAccessible(coordinator);
        picture(coordinator, "case");
    }

    @Test
    void theStockIsAddedToUsedAndShownExpired(Visitor coordinator, Visitor physician) {
        coordinator.signIn("coordinator").open("stents");
        coordinator.button("Add stents").click();
        press(coordinator, "Add");
        assertThat(dialog(coordinator)).containsText("Fill in width, length");
        dialog(coordinator).getByLabel("Width, mm").fill("9");
        dialog(coordinator).getByLabel("Length, mm").fill("58");
        dialog(coordinator).getByLabel("Lot").fill("ZK-330");
        dialog(coordinator).getByLabel("Where it lies").fill("Cabinet 2, shelf 3");
        assertAccessible(coordinator);
        press(coordinator, "Add");
        assertThat(stent(coordinator, "ZK-330")).containsText("Cabinet 2, shelf 3");
        coordinator
                .page()
                .getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Use one of 9 x 58 mm, lot ZK-330"))
                .click();
        coordinator.rest();
        assertThat(stent(coordinator, "ZK-330")).containsText("used up");
        assertAccessible(coordinator);
        picture(coordinator, "stents");

        physician.signIn("physician").open("stents");
        assertThat(stent(physician, "ZK-330")).containsText("used up");
        assertThat(physician.button("Add stents")).hasCount(0);
    }

    private static Locator row(Visitor visitor, String patient) {
        // The grid keeps cells that it shows no longer.
        return visitor.page().locator(".lq-row-link >> visible=true", new Page.LocatorOptions().setHasText(patient));
    }

    private static Locator item(Visitor visitor, String what) {
        return visitor.page().locator(".lq-item", new Page.LocatorOptions().setHasText(what));
    }

    private static Locator stent(Visitor visitor, String lot) {
        return visitor.page().locator(".lq-stent-table tbody tr", new Page.LocatorOptions().setHasText(lot));
    }

    private static Locator said(Visitor visitor) {
        return visitor.page().locator(".lq-said");
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    private static Locator override(Visitor physician) {
        return physician.page().getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Override the gate"));
    }

    private static void act(Visitor visitor, String name) {
        visitor.button(name).click();
        visitor.rest();
    }

    private static void press(Visitor visitor, String words) {
        dialog(visitor)
                .getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName(words).setExact(true))
                .click();
        visitor.rest();
    }

    private static void ask(Visitor visitor, String what, String of) {
        act(visitor, "Asked: " + what);
        dialog(visitor).getByLabel("Asked of").fill(of);
        press(visitor, "Save");
    }

    private static void typeCreatinine(Visitor visitor, String value, String unit) {
        act(visitor, "Type in: Creatinine and eGFR");
        dialog(visitor)
                .getByLabel("Creatinine", new Locator.GetByLabelOptions().setExact(true))
                .fill(value);
        choose(visitor, "Unit of Creatinine", unit);
        press(visitor, "Save");
    }

    private static void choose(Visitor visitor, String label, String option) {
        dialog(visitor)
                .locator("vaadin-select", new Locator.LocatorOptions().setHasText(label))
                .click();
        visitor.page()
                .locator("vaadin-select-item", new Page.LocatorOptions().setHasText(option))
                .last()
                .click();
        visitor.rest();
    }

    private static void book(Visitor visitor, LocalDate day, String room) {
        visitor.button("Book the procedure").click();
        var field = dialog(visitor).getByLabel("Day", new Locator.GetByLabelOptions().setExact(true));
        field.fill(DateTimeFormatter.ofPattern("dd/MM/yyyy").format(day));
        field.press("Tab");
        dialog(visitor).getByLabel("Room").fill(room);
        press(visitor, "Book");
    }

    private static String caseSheet(Visitor visitor) throws IOException {
        var link = visitor.page().locator("a.lq-print").elementHandle();
        var pdf = visitor.page()
                .request()
                .get(visitor.page().evaluate("a => a.href", link).toString());
        Files.createDirectories(PICTURES);
        Files.write(PICTURES.resolve("case-sheet.pdf"), pdf.body());
        try (var document = Loader.loadPDF(pdf.body())) {
            assertThat(document.getNumberOfPages()).isEqualTo(1);
            return new PDFTextStripper().getText(document).replaceAll("[\\s\\u00a0]+", " ");
        }
    }

    private void addStent(String lot, double diameterMm, double lengthMm) {
        office(() -> stock.add(diameterMm, lengthMm, 7, today().plusYears(1), lot, "Cabinet 2", 1));
    }

    private void bookFor(long id, int days) {
        office(() -> preparation.book(
                id,
                preparation.get(id).booking().map(ProcedureBooking::version).orElse(0),
                LocalDateTime.of(today().plusDays(days), LocalTime.of(8, 30)),
                "Room 2"));
    }

    /** Says of every open item that it is in. */
    private void everythingIn(long id) {
        office(() -> {
            for (var item : preparation.get(id).items()) {
                if (item.red()) {
                    assertThat(preparation.track(id, item.code(), item.version(), new Standing.In(today())))
                            .isInstanceOf(PreparationOutcome.Done.class);
                }
            }
            assertThat(preparation.get(id).items()).noneMatch(CaseItem::red);
            return true;
        });
    }

    private static Draft iliacOcclusion() {
        var draft = Draft.of(Arriving.REST_PAIN);
        draft.set("lesions[0].segment", "externalIliac");
        draft.set("lesions[0].side", "left");
        draft.set("lesions[0].stenosisPercent", 100);
        draft.set("lesions[0].lengthMm", 45);
        draft.set("lesions[0].calcification", "severe");
        return draft;
    }

    /** The lesion of {@link #iliacOcclusion()}: the artery by mouse, its findings from the keyboard. */
    private static void enterIliacOcclusionOnThePicture(Visitor coordinator) {
        var page = coordinator.page();
        page.waitForSelector("lq-arteries [data-place]");
        coordinator.rest();
        page.locator("lq-arteries [data-place='left-externalIliac']").scrollIntoViewIfNeeded();
        var middle = (List<?>) page.evaluate("""
                () => {
                  const course = document.querySelector(`[data-halo="left-externalIliac"] path`);
                  const middle = course.getPointAtLength(course.getTotalLength() / 2);
                  const { x, y } = new DOMPoint(middle.x, middle.y).matrixTransform(course.getScreenCTM());
                  return [x, y];
                }""");
        page.mouse().click(((Number) middle.get(0)).doubleValue(), ((Number) middle.get(1)).doubleValue());
        coordinator.rest();
        page.locator("lq-arteries .lq-arteries-editor")
                .getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName("Add lesion of the left external iliac"))
                .click();
        coordinator.rest();
        assertThat(page.locator("lq-arteries").getByLabel("Stenosis, lesion 1, %"))
                .isFocused();
        page.keyboard().type("100");
        page.keyboard().press("Enter");
        page.keyboard().type("45");
        page.keyboard().press("Enter");
        // The diameter of the vessel is left out.
        page.keyboard().press("Enter");
        page.keyboard().press("s");
        coordinator.rest();
        assertThat(page.locator("lq-arteries table")).containsText("occlusion, 45\u00a0mm long, severely calcified");
        assertThat(page.locator(".lq-save-line")).containsText("Saved ");
    }

    private long approved(String family, Draft document) {
        var entered = entered(family, document);
        return approve(
                office(() -> ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral()));
    }

    private Referral entered(String family, Draft document) {
        document.set("patient.given", "Hesper");
        document.set("patient.family", family);
        return office(() -> referrals.enter(document.toJson()));
    }

    private long approve(Referral queued) {
        return as(
                        "physician",
                        () -> ((DecideOutcome.Decided)
                                        referrals.decide(queued.id(), queued.version(), new Decision.Approve()))
                                .referral())
                .id();
    }

    private LocalDate today() {
        return LocalDate.now(java.time.ZoneId.systemDefault());
    }

    private <T> T office(Callable<T> work) {
        return as("coordinator", work);
    }

    private <T> T as(String person, Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> {
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

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + ".png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }

    /** The framework's own status messages stand outside every landmark, on every page; they are not of this one. */
    private static void assertAccessible(Visitor visitor) {
        assertThat(visitor.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
    }
}
