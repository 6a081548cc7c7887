package limbqueue.samepatient.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.Role;
import limbqueue.samepatient.Alike;
import limbqueue.samepatient.Pair;
import limbqueue.samepatient.SamePatient;
import limbqueue.samepatient.Verdict;

/** Pairs of referrals that may be of one person, the likeliest first, until somebody has said of each what it is. */
@Route("same-patient")
@PageTitle("Same patient? · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/samepatient.css")
class SamePatientView extends Div implements BeforeEnterObserver {

    private final SamePatient samePatient;
    private final Span count = new Span();
    private final OrderedList list = new OrderedList();
    private final Div said = new Div();
    private int left;

    SamePatientView(SamePatient samePatient) {
        this.samePatient = samePatient;
        addClassNames("lq-list-view", "lq-same-patient");
        count.addClassName("lq-quiet");
        count.getElement().setAttribute("role", "status");
        var head = new Div(new H1("Same patient?"), count);
        head.addClassName("lq-list-head");
        var how = new Paragraph(
                "Referrals with an identifier, a telephone number, a birth date or a name nearly in common."
                        + " Likeness is a guess: only you can tell whether it is one person.");
        how.addClassName("lq-notice");
        said.addClassName("lq-said");
        said.getElement().setAttribute("role", "status");
        list.addClassName("lq-alike-pairs");
        add(head, how, said, list);
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        said.removeAll();
        show();
    }

    private void show() {
        var pairs = samePatient.pairs();
        list.removeAll();
        pairs.forEach(pair -> list.add(item(pair)));
        list.setVisible(!pairs.isEmpty());
        left = pairs.size();
        count();
    }

    private void count() {
        count.setText(
                left == 0 ? "No pair left to look at" : left == 1 ? "1 pair to look at" : left + " pairs to look at");
    }

    private ListItem item(Pair pair) {
        var likeness = new H2(Words.likely(pair.likeness()));
        var reasons = new Span(String.join(", ", pair.likeness().reasons()));
        var why = new Div(likeness, reasons);
        why.addClassName("lq-pair-why");
        var two = new Div(person(pair.one()), person(pair.other()));
        two.addClassName("lq-pair-two");
        var names = Words.name(pair.one().person()) + " and "
                + Words.name(pair.other().person());
        var compare = new Anchor(
                "same-patient/" + pair.one().id() + "/" + pair.other().id(), "Compare and merge");
        compare.getElement().setAttribute("aria-label", "Compare and merge " + names);
        var item = new ListItem();
        var apart = new Button("Two people: keep apart", _ -> say(pair, item));
        apart.setAriaLabel("Two people: keep apart " + names);
        var actions = new Div(compare, apart);
        actions.addClassName("lq-pair-actions");
        item.add(why, two, actions);
        return item;
    }

    private static Component person(Alike alike) {
        var name = new Anchor("referrals/" + alike.id(), Words.person(alike.person()));
        name.getElement().setAttribute("dir", "auto");
        var facts = new Span(alike.reference() + ", " + Words.of(alike.state()) + ", received "
                + Words.date(alike.received())
                + (alike.person().phone().isEmpty() ? "" : ", " + alike.person().phone()));
        facts.addClassName("lq-quiet");
        var lines = new Div(name, facts);
        lines.addClassName("lq-two-lines");
        return lines;
    }

    private void say(Pair pair, ListItem item) {
        samePatient.say(pair.one().id(), pair.other().id(), Verdict.TWO_PEOPLE);
        list.remove(item);
        left--;
        count();
        said.removeAll();
        var undo = new Button("Undo", _ -> {
            samePatient.say(pair.one().id(), pair.other().id(), Verdict.TAKEN_BACK);
            said.removeAll();
            show();
        });
        said.add(
                new Span("Kept apart: " + pair.one().reference() + " and "
                        + pair.other().reference() + ". They are not asked about again."),
                undo);
        undo.focus();
    }
}
