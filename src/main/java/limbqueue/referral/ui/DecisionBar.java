package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.Div;
import java.util.Comparator;
import java.util.function.Consumer;
import limbqueue.referral.Decision;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** What a physician can decide, always in sight. For a same-day case sending comes first, and approving is not offered. */
class DecisionBar extends Div {

    DecisionBar(ReferralPage page, Policy policy, KeptWords kept, Consumer<Decision> decide) {
        addClassName("lq-decision-bar");
        getElement().setAttribute("role", "region");
        getElement().setAttribute("aria-label", "Decision");
        var sameDay = page.proposal().urgency().tier() == Tier.SAME_DAY;
        var send = new Button(
                "Send to hospital now",
                click -> DecisionDialog.sendToHospital(page, kept, decide).open());
        send.addClassName("lq-send");
        Keys.SEND.on(send);
        var change = new Button("Change", click -> new ChangeDialog(page, policy, kept, decide).open());
        Keys.CHANGE.on(change);
        var ask = new Button(
                "Ask for information",
                click -> DecisionDialog.askForInformation(page, kept, decide).open());
        Keys.ASK.on(ask);
        var giveBack = new Button(
                "Return to referrer",
                click -> DecisionDialog.returnToReferrer(page, kept, decide).open());
        Keys.RETURN.on(giveBack);
        if (sameDay) {
            send.addThemeVariants(ButtonVariant.PRIMARY);
            send.addClassName("lq-send-first");
            add(
                    send,
                    summary(
                            Markup.text("lq-caption", "Same day: not a place in the queue"),
                            "Send the patient now, or change the proposal with a reason."),
                    Markup.div("lq-decision-others", change, ask, giveBack));
            return;
        }
        var approve = new Button("Approve", click -> decide.accept(new Decision.Approve()));
        Keys.APPROVE.on(approve);
        approve.addThemeVariants(ButtonVariant.PRIMARY);
        approve.setDisableOnClick(true);
        approve.addClassName("lq-approve");
        var urgency = page.proposal().urgency();
        var lead = Markup.div("lq-facts", Markup.text("lq-caption", "You approve"));
        urgency.possible().stream()
                .min(Comparator.naturalOrder())
                .filter(possible -> possible.moreUrgentThan(urgency.tier()))
                .ifPresent(possible ->
                        lead.add(Markup.notKnown("what is not known still allows " + TierWords.inSentence(possible))));
        add(
                approve,
                summary(lead, DecisionWords.proposal(page.proposal())),
                Markup.div("lq-decision-others", change, ask, giveBack, send));
    }

    private static Div summary(Component lead, String what) {
        return Markup.div("lq-decision-summary", lead, Markup.text("lq-decision-what", what));
    }
}
