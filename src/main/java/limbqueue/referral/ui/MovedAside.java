package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Section;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.referral.Moves;
import limbqueue.shell.ReferralAside;

/** On top of the page of a referral that moved while it waits: the difference, and the word that it is seen. */
@org.springframework.stereotype.Component
class MovedAside implements ReferralAside {

    private final Moves moves;
    private final CurrentPerson person;

    MovedAside(Moves moves, CurrentPerson person) {
        this.moves = moves;
        this.person = person;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        return moves.of(referral).map(moved -> {
            var block = new Block();
            block.add(
                    new H2("Moved since it was last seen"), Markup.div("lq-moved-what", MovedPanel.difference(moved)));
            if (person.get().role() == Role.PHYSICIAN) {
                var button = new NativeButton("Seen", _ -> {
                    moves.seen(moved);
                    again.run();
                });
                button.addClassName("lq-button");
                button.getElement().setAttribute("aria-label", "Seen: what moved of this referral");
                block.add(button);
            }
            return block;
        });
    }

    @StyleSheet("context://ui/moved.css")
    private static final class Block extends Section {

        Block() {
            addClassNames("lq-moved", "lq-moved-aside");
        }
    }
}
