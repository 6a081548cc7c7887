package limbqueue.samepatient.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import limbqueue.document.Draft;
import limbqueue.samepatient.Alike;
import limbqueue.samepatient.SamePatient;
import limbqueue.samepatient.Verdict;
import limbqueue.shell.EntryWatch;

/** While a referral is entered: who may be the same patient. */
@org.springframework.stereotype.Component
class AlikeWatch implements EntryWatch {

    private final SamePatient samePatient;

    AlikeWatch(SamePatient samePatient) {
        this.samePatient = samePatient;
    }

    @Override
    public Watching watch(long referral) {
        return new Notice(samePatient, referral);
    }

    @StyleSheet("context://ui/samepatient.css")
    private static final class Notice extends Section implements Watching {

        private final SamePatient samePatient;
        private final long referral;
        private final Span heading = new Span("Perhaps the same patient:");
        private final UnorderedList list = new UnorderedList();
        private String looked = "";
        private String document = "";

        Notice(SamePatient samePatient, long referral) {
            this.samePatient = samePatient;
            this.referral = referral;
            addClassName("lq-alike");
            getElement().setAttribute("role", "status").setAttribute("aria-label", "Perhaps the same patient");
            heading.addClassName("lq-alike-heading");
            add(heading, list);
            setVisible(false);
        }

        @Override
        public Component component() {
            return this;
        }

        @Override
        public void typed(String document) {
            this.document = document;
            var patient = String.valueOf(Draft.of(document).get("patient"));
            if (!patient.equals(looked)) {
                looked = patient;
                show();
            }
        }

        private void show() {
            List<Alike> alike = samePatient.alike(referral, document);
            setVisible(!alike.isEmpty());
            list.removeAll();
            alike.forEach(one -> list.add(item(one)));
        }

        private ListItem item(Alike alike) {
            var who = new Anchor("referrals/" + alike.id(), Words.person(alike.person()));
            who.setTarget(AnchorTarget.BLANK);
            who.getElement().setAttribute("dir", "auto").setAttribute("title", "Opens in a new tab");
            var facts = new Span(alike.reference() + ", " + Words.of(alike.state()) + ": "
                    + String.join(", ", alike.likeness().reasons()));
            var compare = new Anchor("same-patient/" + referral + "/" + alike.id(), "Compare");
            compare.setAriaLabel("Compare with " + alike.reference());
            var apart = new Button("Two people", _ -> {
                samePatient.say(referral, alike.id(), Verdict.TWO_PEOPLE);
                show();
            });
            apart.addThemeVariants(ButtonVariant.LUMO_SMALL);
            apart.setAriaLabel("Two people: keep " + alike.reference() + " apart");
            var words = new Div(who, facts);
            words.addClassName("lq-alike-words");
            return new ListItem(words, compare, apart);
        }
    }
}
