package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The physician's queue and decision in a browser. All people in it are invented. */
@InBrowser
class PhysicianIT {

    private static final Path PICTURES = Path.of("target/pictures");

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
    void theQueueShowsTheMostUrgentFirstWhateverWasAsked(Visitor physician) {
        queued("Marl", claudication());
        var insisting = claudication();
        insisting.set("asked.priority", "stat");
        insisting.set("asked.expedite", true);
        insisting.set("asked.expediteGrounds", "personal");
        insisting.set("received", today().toString());
        queued("Wren", insisting);
        queued("Harrow", restPain());
        queued("Fenn", suddenIschaemia());

        openQueue(physician);

        assertThat(names(physician)).containsExactly("Fenn, Ada", "Harrow, Ada", "Marl, Ada", "Wren, Ada");
        assertThat(physician.page().locator(".lq-same-day").innerText())
                .contains("Same day", "Fenn, Ada", "01632 960311", "01632 960211", "Send to hospital now");
        assertThat(physician.page().locator(".lq-queue-entry", hasText("Wren")).innerText())
                .contains("asked: stat; faster, grounds: personal");
        assertThat(physician.page().locator(".lq-tier-group h2").allInnerTexts())
                .containsExactly("Within 14 days (1)", "Within 18 weeks (2)");
        assertThat(physician.page().locator("main").innerText()).contains(TriageResult.NOTICE);
        assertAccessible(physician);
        picture(physician, "queue");
    }

    @Test
    void theQueueIsWalkedThroughByKeyboard(Visitor physician) {
        var first = queued("Harrow", restPain());
        var second = queued("Marl", claudication());
        openQueue(physician);

        physician.page().keyboard().press("j");
        physician.page().keyboard().press("ArrowDown");
        assertThat(focused(physician)).contains("Marl");
        physician.page().keyboard().press("k");
        assertThat(focused(physician)).contains("Harrow");
        physician.page().keyboard().press("j");
        physician.page().keyboard().press("Enter");
        physician.page().waitForURL("**/referrals/" + second.id());

        assertThat(first.id()).isNotEqualTo(second.id());
    }

    @Test
    void reportedLesionsAreClassifiedWithWhatIsStillPossible(Visitor physician) {
        var draft = restPain();
        draft.set("lesions[0].segment", "externalIliac");
        draft.set("lesions[0].side", "left");
        draft.set("lesions[0].stenosisPercent", 60);
        draft.set("lesions[1].segment", "superficialFemoral");
        draft.set("lesions[1].side", "left");
        draft.set("lesions[1].stenosisPercent", 100);
        draft.set("lesions[1].lengthMm", 90);
        draft.set("lesions[1].calcification", "none");
        draft.set("lesions[1].ostial", false);
        var referral = queued("Harrow", draft);
        physician.signIn("physician").open("referrals/" + referral.id());
        physician.rest();

        var grades = physician.page().locator(".lq-legs-main");
        assertThat(grades.locator("tr", new Locator.LocatorOptions().setHasText("aorto"))
                        .innerText())
                .contains("none reported", "type C", "could be A to C");
        assertThat(grades.locator("tr", new Locator.LocatorOptions().setHasText("femoro"))
                        .innerText())
                .contains("type B")
                .doesNotContain("could be");
        assertThat(grades.locator("tr", new Locator.LocatorOptions().setHasText("GLASS"))
                        .innerText())
                .contains("from secondary copies", "stage 1 (2", "could be 1 to 3");
        assertThat(physician.page().locator(".lq-unknown").innerText())
                .contains("How many millimetres long is the diseased part of the left external iliac artery?")
                .doesNotContain("diseased part of the left superficial femoral artery");
        grades.locator("summary", new Locator.LocatorOptions().setHasText("anatomy"))
                .click();
        assertThat(grades.innerText()).contains("a single occlusion of middle length", "secondary copies");
        assertAccessible(physician);
        picture(physician, "anatomy");
    }

    @Test
    void theProcedurePlanSaysTheWaysInAndWhatMustBeInTheRoom(Visitor physician) {
        var draft = restPain();
        draft.set("lesions[0].segment", "externalIliac");
        draft.set("lesions[0].side", "left");
        draft.set("lesions[0].stenosisPercent", 100);
        draft.set("lesions[0].lengthMm", 60);
        draft.set("lesions[0].calcification", "moderate");
        draft.set("lesions[0].diameterMm", 7);
        draft.set("history.spinalHardware", true);
        var referral = queued("Harrow", draft);
        physician.signIn("physician").open("referrals/" + referral.id());
        physician.rest();

        var plan = physician.page().locator(".lq-plan");
        assertThat(plan.locator("ol li .lq-plan-text").allInnerTexts())
                .containsExactly("right groin", "left upper arm");
        assertThat(plan.locator(".lq-needed .lq-plan-text").allInnerTexts())
                .containsExactly(
                        "covered stent, sized to the vessel: left external iliac artery, 7 to 8 mm wide",
                        "tamponade balloon, sized to the vessel");
        assertThat(plan.innerText())
                .contains("Left leg", "nine of ten cases within", "superficial femoral artery")
                .contains("several obliques", "light sedation only");
        plan.locator("summary", new Locator.LocatorOptions().setHasText("How sure"))
                .click();
        assertThat(plan.innerText()).contains("Common practice");
        plan.locator("summary", new Locator.LocatorOptions().setHasText("Sheaths"))
                .click();
        assertThat(plan.innerText())
                .contains("6 Fr, 90 cm, from the wrist", "a covered stent may not fit", "right anterior oblique");
        assertThat(physician.page().locator("main").innerText()).contains(TriageResult.NOTICE);
        assertAccessible(physician);
        picture(physician, "plan");
    }

    @Test
    void anEmptyQueueSaysSo(Visitor physician) {
        openQueue(physician);

        assertThat(physician.page().locator("main").innerText()).contains("The queue is empty.");
        picture(physician, "queue-empty");
    }

    @Test
    void anApprovalOpensTheNextReferralAndSaysWhatWasApproved(Visitor physician) {
        var first = queued("Harrow", restPain());
        var next = queued("Marl", claudication());
        physician.signIn("physician").open("referrals/" + first.id());
        assertThat(bar(physician).innerText()).contains("within 14 days, by ", "Rutherford right 0, left 4");
        assertThat(physician.page().locator("main").innerText()).contains(TriageResult.NOTICE);
        assertAccessible(physician);
        picture(physician, "referral");

        physician.button("Approve").click();
        physician.page().waitForURL("**/referrals/" + next.id() + "?decided=" + first.id());

        assertThat(physician.rest().page().locator(".lq-just-decided").innerText())
                .contains("Harrow, Ada", "Approved: within 14 days");
        assertThat(physician.heading("Marl, Ada").isVisible()).isTrue();
        assertThat(decision(first).kind()).isEqualTo(DecisionKind.APPROVED);
        physician.open("referrals/" + first.id());
        assertThat(physician.page().locator(".lq-decision-banner").innerText())
                .contains("Approved: within 14 days", "Dr Imogen Tarrant");
        assertThat(bar(physician).count()).isZero();

        physician.button("Recompute").click();
        assertThat(physician.rest().page().locator(".lq-decision-banner").innerText())
                .contains("Recomputed with the rule book and policy of its day: the same.", "policy standard-1");
        assertAccessible(physician);
        picture(physician, "recomputed");
    }

    @Test
    void aChangeNeedsAReasonAndKeepsWhatIsTypedWhenTheDialogIsClosed(Visitor physician) {
        var referral = queued("Harrow", restPain());
        physician.signIn("physician").open("referrals/" + referral.id());

        physician.button("Change").click();
        physician.rest();
        assertThat(focused(physician)).contains("radio");
        confirm(physician, "Approve with this change");
        assertThat(dialog(physician).innerText()).contains("This is the proposal as it stands");

        physician.page().getByLabel("Within 5 days, by").check();
        confirm(physician, "Approve with this change");
        assertThat(dialog(physician).innerText()).contains("Write why the proposal is changed");
        picture(physician, "change-refused");

        physician.page().getByLabel("Reason").fill("Lives alone, pain untenable.");
        physician.page().keyboard().press("Escape");
        dialog(physician).waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.DETACHED));
        physician.page().reload();
        physician.rest().button("Change").click();
        physician.rest();
        assertThat(physician.page().getByLabel("Reason").inputValue()).isEqualTo("Lives alone, pain untenable.");
        assertThat(physician.page().getByLabel("Within 5 days, by").isChecked()).isTrue();
        physician.page().getByLabel("Rutherford, left leg").click();
        physician
                .page()
                .getByRole(AriaRole.OPTION, new Page.GetByRoleOptions().setName("5, minor tissue loss"))
                .click();
        physician.rest();
        confirm(physician, "Approve with this change");
        physician.page().waitForURL("**/queue?decided=" + referral.id());

        var decision = decision(referral);
        assertThat(decision.kind()).isEqualTo(DecisionKind.CHANGED);
        assertThat(decision.tier()).isEqualTo(Tier.WITHIN_5_DAYS);
        assertThat(decision.categories()).containsEntry(Side.LEFT, Rutherford.CHRONIC_5);
        assertThat(decision.reason()).isEqualTo("Lives alone, pain untenable.");
        assertThat(physician.rest().page().locator(".lq-just-decided").innerText())
                .contains("Changed and approved: within 5 days");
    }

    @Test
    void askingForInformationStartsFromTheOpenQuestions(Visitor physician) {
        var referral = queued("Rook", Draft.empty());
        physician.signIn("physician").open("referrals/" + referral.id());

        physician.button("Ask for information").click();
        physician.rest();
        var words = physician.page().getByLabel("What must be asked");
        assertThat(words.inputValue()).startsWith("1. ").contains("\n2. ");
        words.fill(" ");
        confirm(physician, "Ask for this information");
        assertThat(dialog(physician).innerText()).contains("Write what must be asked");
        words.fill("Please measure the toe pressure.");
        confirm(physician, "Ask for this information");
        physician.page().waitForURL("**/queue?decided=" + referral.id());

        assertThat(decision(referral).reason()).isEqualTo("Please measure the toe pressure.");
        assertThat(state(referral)).isEqualTo(ReferralState.INFORMATION_NEEDED);
    }

    @Test
    void aReferralIsReturnedWithAReason(Visitor physician) {
        var referral = queued("Marl", claudication());
        physician.signIn("physician").open("referrals/" + referral.id());

        physician.button("Return to referrer").click();
        physician.rest();
        confirm(physician, "Return to referrer");
        assertThat(dialog(physician).innerText()).contains("Write the reason");
        physician.page().getByLabel("Reason").fill("Best medical therapy first.");
        confirm(physician, "Return to referrer");
        physician.page().waitForURL("**/queue?decided=" + referral.id());

        assertThat(decision(referral).kind()).isEqualTo(DecisionKind.RETURNED);
    }

    @Test
    void aSameDayCaseIsSentFromTheQueueOnceItIsSaidWhoWasTold(Visitor physician) {
        var referral = queued("Fenn", suddenIschaemia());
        openQueue(physician);

        physician.button("Send to hospital now: Fenn, Ada").click();
        physician.rest();
        confirm(physician, "Record: sent to hospital");
        assertThat(dialog(physician).innerText()).contains("Write whom you told and how");
        picture(physician, "send-to-hospital");
        physician
                .page()
                .getByLabel("Whom you told, and how")
                .fill("Vascular registrar at Marrow Point General, by phone.");
        confirm(physician, "Record: sent to hospital");
        physician.page().waitForURL("**/queue?decided=" + referral.id());

        assertThat(physician.rest().page().locator("main").innerText())
                .contains("Fenn, Ada", "Sent to hospital", "The queue is empty.");
        assertThat(state(referral)).isEqualTo(ReferralState.SENT_TO_HOSPITAL);
    }

    @Test
    void aSameDayCaseCannotBeApprovedIntoTheQueue(Visitor physician) {
        var referral = queued("Fenn", suddenIschaemia());
        physician.signIn("physician").open("referrals/" + referral.id());

        assertThat(bar(physician).innerText()).contains("Send to hospital now").doesNotContain("Approve");
    }

    @Test
    void aReferralThatChangedWhileItWasReadIsNotDecidedAndShowsWhatChanged(Visitor physician) {
        var referral = queued("Harrow", restPain());
        physician.signIn("physician").open("referrals/" + referral.id());
        physician.button("Return to referrer").click();
        physician.rest().page().getByLabel("Reason").fill("Seen last week.");

        var changed = Draft.of(referral.document());
        changed.set("legs.left.pressures.toe", 12);
        as("coordinator", () -> referrals.save(referral.id(), referral.version(), changed.toJson()));
        confirm(physician, "Return to referrer");
        physician.page().locator(".lq-changes").waitFor();

        assertThat(physician.page().locator(".lq-changes").innerText())
                .contains(
                        "changed while you were reading",
                        "Wren Halloway",
                        "left leg, toe pressure",
                        "22 mmHg",
                        "12 mmHg");
        assertThat(state(referral)).isEqualTo(ReferralState.QUEUED);
        picture(physician, "changed-while-reading");
        physician.button("Return to referrer").click();
        assertThat(physician.rest().page().getByLabel("Reason").inputValue()).isEqualTo("Seen last week.");
        confirm(physician, "Return to referrer");
        physician.page().waitForURL("**/queue?decided=" + referral.id());
        assertThat(decision(referral).document()).contains("12");
    }

    @Test
    void aCoordinatorReadsButDoesNotDecide(Visitor coordinator) {
        var referral = queued("Harrow", restPain());
        coordinator.signIn("coordinator").open("referrals/" + referral.id());

        assertThat(coordinator.heading("Harrow, Ada").isVisible()).isTrue();
        assertThat(bar(coordinator).count()).isZero();
        coordinator.open("queue");
        assertThat(coordinator.page().locator("main").innerText()).contains("not for your role");
    }

    @Test
    void aNumberThatIsNoReferralLeadsToAFriendlyPage(Visitor physician) {
        physician.signIn("physician").open("referrals/987654");

        assertThat(physician.page().locator("main").innerText())
                .contains("There is no referral with the number 987654.");
    }

    private Draft restPain() {
        var draft = legs();
        draft.set("legs.left.restPain.present", true);
        draft.set("legs.left.restPain.sinceDays", 40);
        draft.set("legs.left.pressures.dorsalisPedis", 46);
        draft.set("legs.left.pressures.posteriorTibial", 40);
        draft.set("legs.left.pressures.toe", 22);
        return draft;
    }

    private Draft claudication() {
        var draft = legs();
        draft.set("received", today().minusDays(10).toString());
        draft.set("legs.left.claudication.present", true);
        draft.set("legs.left.claudication.distanceMetres", 150);
        draft.set("legs.left.claudication.course", "stable");
        draft.set("legs.left.claudication.limitsLife", true);
        draft.set("legs.left.pressures.dorsalisPedis", 90);
        draft.set("legs.left.pressures.posteriorTibial", 88);
        draft.set("legs.left.pressures.toe", 60);
        return draft;
    }

    private Draft suddenIschaemia() {
        var draft = legs();
        draft.set("legs.left.acute.present", true);
        draft.set("legs.left.acute.onset", today().minusDays(1).toString());
        draft.set("legs.left.acute.sensory", "toes");
        draft.set("legs.left.acute.cold", true);
        draft.set("patient.phone", "01632 960311");
        draft.set("referrer.phone", "01632 960211");
        return draft;
    }

    /** Two legs without complaints. */
    private Draft legs() {
        var draft = Draft.empty();
        draft.set("received", today().minusDays(3).toString());
        draft.set("patient.born", "1951-05-03");
        draft.set("armPressures.left", 140);
        draft.set("armPressures.right", 138);
        for (var side : new String[] {"left", "right"}) {
            var leg = "legs." + side + ".";
            draft.set(leg + "claudication.present", false);
            draft.set(leg + "restPain.present", false);
            draft.set(leg + "wound.ulcer", "none");
            draft.set(leg + "wound.gangrene", "none");
            draft.set(leg + "infection.localSigns", 0);
            draft.set(leg + "infection.deep", false);
            draft.set(leg + "acute.present", false);
            draft.set(leg + "pressures.dorsalisPedis", 132);
            draft.set(leg + "pressures.posteriorTibial", 130);
            draft.set(leg + "pressures.toe", 100);
        }
        return draft;
    }

    /** Enters {@code document} for a patient of this family name and puts it before the physician. */
    private Referral queued(String family, Draft document) {
        document.set("patient.family", family);
        document.set("patient.given", "Ada");
        return as("coordinator", () -> {
            var begun = referrals.begin();
            var saved = (SaveOutcome.Saved) referrals.save(begun.id(), begun.version(), document.toJson());
            var submitted = (SubmitOutcome.Submitted)
                    referrals.submit(saved.referral().id(), saved.referral().version());
            return submitted.referral();
        });
    }

    private LocalDate today() {
        return as("coordinator", referrals::today);
    }

    private DecisionRecord decision(Referral referral) {
        return as("physician", () -> referrals.decisions(referral.id())).getFirst();
    }

    private ReferralState state(Referral referral) {
        return as("physician", () -> referrals.get(referral.id())).state();
    }

    private <T> T as(String signInName, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(signInName, () -> result.set(work.get()));
        return result.get();
    }

    /** Signs in; a physician's work begins at the queue. */
    private static void openQueue(Visitor physician) {
        physician.signIn("physician").page().waitForURL("**/queue");
        physician.rest();
    }

    private static List<String> names(Visitor visitor) {
        return visitor.page().locator(".lq-queue-name").allInnerTexts();
    }

    private static Locator bar(Visitor visitor) {
        return visitor.page().locator(".lq-decision-bar");
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    private static void confirm(Visitor visitor, String words) {
        dialog(visitor)
                .getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName(words).setExact(true))
                .click();
        visitor.rest();
    }

    private static Page.LocatorOptions hasText(String text) {
        return new Page.LocatorOptions().setHasText(text);
    }

    /** What has the focus, as markup. */
    private static String focused(Visitor visitor) {
        visitor.page().waitForTimeout(300);
        return String.valueOf(visitor.page().evaluate("document.activeElement.outerHTML"));
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
