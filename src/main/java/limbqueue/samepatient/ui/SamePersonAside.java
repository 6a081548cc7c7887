package limbqueue.samepatient.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.notification.Notification;
import java.time.ZoneId;
import java.util.Optional;
import limbqueue.referral.Merged;
import limbqueue.referral.Merging;
import limbqueue.samepatient.SamePatient;
import limbqueue.shell.ReferralAside;

/** On the page of a referral: what it is part of, what is part of it, and other referrals of the same person. */
@org.springframework.stereotype.Component
class SamePersonAside implements ReferralAside {

    private static final int NOTICE_MILLIS = 8000;

    private final Merging merging;
    private final SamePatient samePatient;

    SamePersonAside(Merging merging, SamePatient samePatient) {
        this.merging = merging;
        this.samePatient = samePatient;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        var block = new Block();
        merging.wholeOf(referral)
                .ifPresent(merged -> block.add(line(
                        "This referral is part of ",
                        merged.whole(),
                        merged.wholeReference(),
                        by(merged) + ". It rests: nothing is entered or decided here.",
                        separate(merged, again))));
        merging.partsOf(referral)
                .forEach(merged -> block.add(line(
                        "Part of this referral: ",
                        merged.part(),
                        merged.partReference(),
                        by(merged) + ".",
                        separate(merged, again))));
        samePatient
                .samePerson(referral)
                .forEach(other -> block.add(line(
                        "Of the same person: ",
                        other.id(),
                        other.reference(),
                        ", " + Words.of(other.state()) + ", received " + Words.date(other.received()) + ".",
                        new Anchor("same-patient/" + referral + "/" + other.id(), "Compare"))));
        return block.getChildren().findAny().isPresent() ? Optional.of(block) : Optional.empty();
    }

    @StyleSheet("context://ui/samepatient.css")
    private static final class Block extends Section {

        Block() {
            addClassName("lq-same-person");
            getElement().setAttribute("aria-label", "Referrals of the same person");
        }
    }

    private static String by(Merged merged) {
        return ", merged by " + merged.author() + " on "
                + Words.date(merged.at().atZone(ZoneId.systemDefault()).toLocalDate());
    }

    private Component separate(Merged merged, Runnable again) {
        return new Button("Take " + merged.partReference() + " out again", _ -> {
            Notification.show(
                    Separating.words(merging.separate(merged.part())),
                    NOTICE_MILLIS,
                    Notification.Position.BOTTOM_START);
            again.run();
        });
    }

    private static Component line(String before, long id, String reference, String after, Component action) {
        var words = new Span(new Span(before), new Anchor("referrals/" + id, reference), new Span(after));
        return new Div(words, action);
    }
}
