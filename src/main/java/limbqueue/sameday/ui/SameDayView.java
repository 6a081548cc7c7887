package limbqueue.sameday.ui;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Objects;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.practice.LeadPhysicians;
import limbqueue.sameday.SameDayChoice;
import limbqueue.sameday.SameDayChoiceVersion;
import limbqueue.sameday.SameDayChoices;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;

/** What the practice has chosen for same-day cases: to read, and for some to change. */
@Route("same-day")
@PageTitle("Same-day cases · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/work.css")
class SameDayView extends Div {

    private final SameDayChoices choices;
    private final LeadPhysicians lead;
    private final boolean chooses;
    private final Div message = new Div();
    private final Div refusal = new Div();
    private final Div content = new Div();

    SameDayView(SameDayChoices choices, LeadPhysicians lead, CurrentPerson person) {
        this.choices = choices;
        this.lead = lead;
        this.chooses = person.get().role() != Role.COORDINATOR;
        addClassNames("lq-page", "lq-days");
        message.getElement().setAttribute("role", "status");
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        var head = new Div(new H1("Same-day cases"));
        head.addClassName("lq-page-head");
        head.add(
                switch (person.get().role()) {
                    case MANAGER -> new Anchor("practice", "The practice");
                    case PHYSICIAN -> new Anchor("queue", "The queue");
                    case COORDINATOR -> new Anchor("work", "All work");
                });
        add(head, message, content);
        show();
    }

    private void show() {
        var versions = choices.versions();
        content.removeAll();
        content.add(Pieces.div("lq-columns", choice(versions.getFirst()), history(versions)));
    }

    private Section choice(SameDayChoiceVersion now) {
        var choice = now.choice();
        var minutes = new IntegerField("Ask more people when nobody has taken a case after, minutes");
        minutes.setValue(choice.minutes());
        minutes.setMin(1);
        minutes.setMax(240);
        minutes.setWidthFull();
        minutes.setReadOnly(!chooses);
        var hospital = text("Hospital to which such patients go", choice.hospital(), 120);
        var hospitalPhone = text("Telephone of its vascular team", choice.hospitalPhone(), 60);
        var leadPhone = text(
                "Telephone of " + lead.named().map(Person::displayName).orElse("the lead physician"),
                choice.leadPhone(),
                60);
        var panel = Pieces.panel(
                "lq-stack",
                "In force",
                Pieces.paragraph(
                        "lq-quiet",
                        "A same-day case rings in every open browser of physicians and coordinators until somebody takes it."
                                + " If nobody does, it is asked of the lead physician and the managers too. How many minutes"
                                + " that takes is the practice's choice, no source; local protocol prevails."),
                minutes,
                hospital,
                hospitalPhone,
                leadPhone);
        if (!chooses) {
            panel.add(Pieces.paragraph("lq-quiet", "A physician or the manager changes it."));
            return panel;
        }
        var reason = text("Why it changes", "", 500);
        reason.setRequiredIndicatorVisible(true);
        refusal.setVisible(false);
        panel.add(reason, refusal, new Div(Pieces.primary("Save", () -> {
            if (minutes.isEmpty() || minutes.isInvalid()) {
                refuse("Minutes are a whole number from 1 to 240.");
                return;
            }
            choose(
                    now,
                    new SameDayChoice(
                            minutes.getValue(),
                            hospital.getValue().strip(),
                            hospitalPhone.getValue().strip(),
                            leadPhone.getValue().strip()),
                    reason.getValue());
        })));
        return panel;
    }

    private TextField text(String label, String value, int longest) {
        var field = new TextField(label);
        field.setValue(value);
        field.setMaxLength(longest);
        field.setWidthFull();
        field.setReadOnly(!chooses);
        return field;
    }

    private void choose(SameDayChoiceVersion before, SameDayChoice choice, String reason) {
        try {
            choices.choose(before.version(), choice, reason);
            message.setText("Saved. It holds from now on, also for cases that ring already.");
            show();
        } catch (NotPossibleException no) {
            refuse(Objects.requireNonNullElse(no.getMessage(), "This cannot be saved."));
        }
    }

    private void refuse(String why) {
        refusal.setText(why);
        refusal.setVisible(true);
    }

    private static Section history(List<SameDayChoiceVersion> versions) {
        var list = new OrderedList();
        list.addClassName("lq-calls");
        versions.forEach(version -> list.add(new ListItem(
                Pieces.text(
                        "lq-strong",
                        "Version " + version.version() + ": after "
                                + version.choice().minutes()
                                + (version.choice().minutes() == 1 ? " minute" : " minutes")),
                Pieces.text("lq-call-words", version.reason()),
                Pieces.text("lq-quiet", version.who() + ", " + DayWords.moment(version.at())))));
        return Pieces.panel("lq-history-of-days", "As it was chosen, newest first", list);
    }
}
