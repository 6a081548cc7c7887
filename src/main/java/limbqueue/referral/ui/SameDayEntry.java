package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.RouterLink;
import java.util.Optional;
import limbqueue.referral.Moved;
import limbqueue.referral.ReferralLine;

/** A patient who must go to hospital today: who, why, whom to call, and the button that sends. */
class SameDayEntry extends ListItem {

    SameDayEntry(ReferralLine line, ReferralPage page, Optional<Moved> moved, Runnable send) {
        addClassName("lq-same-day-entry");
        var link = new RouterLink();
        link.addClassNames("lq-queue-entry", "lq-same-day-link");
        link.setRoute(ReferralView.class, JustDecided.parameters(line.id()));
        var grade = new Span(GradeWords.inShort(page.proposal()));
        grade.addClassName("lq-queue-grade");
        link.add(
                QueueEntry.patient(line, page.today()),
                grade,
                QueueEntry.why(line, page, moved),
                Markup.text(
                        "lq-queue-waiting",
                        TimeWords.waited(page.proposal().urgency().waitingSince(), page.today())));
        var button = new Button("Send to hospital now", click -> send.run());
        button.addThemeVariants(ButtonVariant.PRIMARY);
        button.addClassNames("lq-send", "lq-send-first");
        button.setAriaLabel("Send to hospital now: " + page.patient());
        add(link, DecisionDialog.phones(page), button);
    }
}
