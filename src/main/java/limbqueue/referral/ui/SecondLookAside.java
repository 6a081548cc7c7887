package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.component.textfield.TextField;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.referral.SecondLook;
import limbqueue.referral.SecondLookOutcome;
import limbqueue.referral.SecondLooks;
import limbqueue.shell.ReferralAside;
import org.springframework.core.annotation.Order;

/** On the page of a referral whose tier one physician would lower: what a second one is asked, and what that one said. */
@org.springframework.stereotype.Component
@Order(3)
class SecondLookAside implements ReferralAside {

    private static final int NOTICE_MILLIS = 8000;

    private final SecondLooks looks;
    private final CurrentPerson person;

    SecondLookAside(SecondLooks looks, CurrentPerson person) {
        this.looks = looks;
        this.person = person;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        return looks.of(referral).map(look -> new Panel(look, person.get(), again));
    }

    @StyleSheet("context://ui/sameday.css")
    private final class Panel extends Section {

        Panel(SecondLook look, Person me, Runnable again) {
            addClassNames("lq-panel", "lq-second-look");
            var heading = new H2(
                    look.answer().isPresent()
                            ? "The second physician did not agree: it stands as proposed"
                            : "Waits for a second physician: it stands as proposed");
            heading.addClassName("lq-panel-title");
            add(
                    heading,
                    Markup.paragraph(
                            "lq-second-look-what",
                            look.author() + ", " + TierWords.moment(look.at()) + ", would lower it from "
                                    + TierWords.inSentence(look.proposedTier()) + " to "
                                    + TierWords.inSentence(look.tier()) + ". Against it: "
                                    + String.join("; ", look.against()) + "."),
                    Markup.text("lq-quote", "“" + look.reason() + "”"));
            look.answer()
                    .ifPresentOrElse(
                            answer -> add(Markup.paragraph(
                                    "lq-second-look-answer",
                                    answer.author() + ", " + TierWords.moment(answer.at()) + ": “" + answer.words()
                                            + "”")),
                            () -> ask(look, me, again));
        }

        private void ask(SecondLook look, Person me, Runnable again) {
            if (me.role() != Role.PHYSICIAN) {
                return;
            }
            if (me.id() == look.account()) {
                add(Markup.paragraph("lq-soft", "Another physician has to look before it counts."));
                return;
            }
            var agree = new Button(
                    "Agree to " + TierWords.inSentence(look.tier()),
                    _ -> tell(looks.agree(look.referralId(), look.id()), again));
            agree.addThemeVariants(ButtonVariant.PRIMARY);
            var why = new TextField("Why not");
            why.setMaxLength(500);
            why.addClassName("lq-second-look-why");
            var disagree = new Button("Do not agree", _ -> {
                if (why.getValue().isBlank()) {
                    why.setErrorMessage("Say why not, so that the first physician can decide anew.");
                    why.setInvalid(true);
                    why.focus();
                    return;
                }
                tell(looks.disagree(look.referralId(), look.id(), why.getValue()), again);
            });
            add(Markup.div("lq-second-look-acts", agree, why, disagree));
        }
    }

    private static void tell(SecondLookOutcome outcome, Runnable again) {
        if (outcome instanceof SecondLookOutcome.Refused(var why)) {
            Notification.show(why, NOTICE_MILLIS, Notification.Position.TOP_CENTER);
        }
        again.run();
    }
}
