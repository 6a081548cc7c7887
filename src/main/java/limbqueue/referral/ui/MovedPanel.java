package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.router.RouterLink;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import limbqueue.referral.Moved;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ReferralState;
import limbqueue.triage.ReferralDocument.Patient;

/** Above the queue: referrals that moved while they wait, each with the difference, until somebody says that it is seen. */
@StyleSheet("context://ui/moved.css")
class MovedPanel extends Section {

    /** @param cases the referrals that moved */
    MovedPanel(List<Moved> moved, List<ProposedCase> cases, Consumer<Moved> seen) {
        addClassName("lq-moved");
        add(new H2("Moved since you last saw them (" + moved.size() + ")"));
        var list = new UnorderedList();
        for (var one : moved) {
            cases.stream()
                    .filter(proposed -> proposed.referral().id() == one.referralId())
                    .findFirst()
                    .ifPresent(proposed -> list.add(line(one, proposed, seen)));
        }
        add(list);
    }

    private static ListItem line(Moved moved, ProposedCase proposed, Consumer<Moved> seen) {
        var name = name(proposed.document().patient());
        var link = new RouterLink();
        link.addClassName("lq-moved-who");
        link.setRoute(ReferralView.class, JustDecided.parameters(moved.referralId()));
        link.add(Markup.text("lq-moved-name", name.isBlank() ? "Name not known" : name));
        link.add(Markup.text("lq-soft", proposed.referral().reference()));
        var what = Markup.div("lq-moved-what", difference(moved));
        if (proposed.referral().state() == ReferralState.INFORMATION_NEEDED) {
            what.add(Markup.text("lq-soft", "Information is being asked for."));
        }
        var button = new NativeButton("Seen", _ -> seen.accept(moved));
        button.addClassName("lq-button");
        button.getElement()
                .setAttribute(
                        "aria-label",
                        "Seen: " + (name.isBlank() ? proposed.referral().reference() : name));
        return new ListItem(link, what, button);
    }

    /** What moved, since when and why. */
    static Component[] difference(Moved moved) {
        return new Component[] {
            Markup.text("lq-moved-difference", String.join(" ", MoveWords.difference(moved.before(), moved.after()))),
            Markup.text("lq-soft", "Since " + TierWords.moment(moved.since()) + ": " + MoveWords.why(moved) + ".")
        };
    }

    private static String name(Patient patient) {
        return String.join(
                ", ",
                Stream.of(patient.family(), patient.given())
                        .flatMap(Optional::stream)
                        .filter(part -> !part.isBlank())
                        .toList());
    }
}
