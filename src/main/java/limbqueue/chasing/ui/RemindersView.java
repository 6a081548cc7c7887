package limbqueue.chasing.ui;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.chasing.ChasingDays;
import limbqueue.chasing.ChasingDaysVersion;
import limbqueue.chasing.ChasingSettings;
import limbqueue.practice.PracticeSettings;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;
import limbqueue.triage.Tier;

/** How many days others have to answer, and how often patients who wait are called: to read, and for some to set. */
@Route("reminders")
@PageTitle("Reminders · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/work.css")
class RemindersView extends Div {

    private static final List<Tier> CALLED =
            List.of(Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_6_WEEKS, Tier.WITHIN_18_WEEKS);

    private final ChasingSettings settings;
    private final PracticeSettings practice;
    private final boolean sets;
    private final Div message = new Div();
    private final Div refusal = new Div();
    private final Div content = new Div();

    RemindersView(ChasingSettings settings, PracticeSettings practice, CurrentPerson person) {
        this.settings = settings;
        this.practice = practice;
        this.sets = person.get().role() != Role.COORDINATOR;
        addClassNames("lq-page", "lq-days");
        message.getElement().setAttribute("role", "status");
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        var head = new Div(new H1("Days of reminders and calls"));
        head.addClassName("lq-page-head");
        head.add(
                person.get().role() == Role.MANAGER
                        ? new Anchor("practice", "The practice")
                        : new Anchor("work", "All work"));
        add(head, message, content);
        show();
    }

    private void show() {
        var versions = settings.versions();
        var columns = Pieces.div("lq-columns", days(versions.getFirst()), history(versions));
        content.removeAll();
        content.add(columns);
    }

    private Section days(ChasingDaysVersion now) {
        var days = now.days();
        var first = number("An answer to a request is due after, days", days.firstReply());
        var second = number("After a second letter, days", days.secondReply());
        var third = number("After a third letter, days", days.thirdReply());
        var late =
                number("A referral is about to be late from so many days before its target date", days.lateWarning());
        late.setMin(0);
        var calls = new EnumMap<Tier, IntegerField>(Tier.class);
        for (var tier : CALLED) {
            var field = number(
                    ChasingWords.tier(tier, practice.policy()) + ": call every so many days",
                    days.callEvery(tier).orElse(0));
            if (days.callEvery(tier).isEmpty()) {
                field.clear();
            }
            field.setHelperText("Empty: no calls.");
            calls.put(tier, field);
        }
        var panel = Pieces.panel("lq-stack", "In force", first, second, third, late);
        panel.add(new Paragraph(
                "Calls to patients who wait with rest pain, tissue loss or another sign that the leg is threatened. Common"
                        + " practice, no source; local protocol prevails."));
        calls.values().forEach(panel::add);
        if (sets) {
            var reason = new TextField("Why the days change");
            reason.setWidthFull();
            reason.setRequiredIndicatorVisible(true);
            reason.setMaxLength(500);
            refusal.setVisible(false);
            panel.add(
                    reason,
                    refusal,
                    new Div(Pieces.primary(
                            "Set these days", () -> set(now, List.of(first, second, third, late), calls, reason))));
        } else {
            panel.add(Pieces.paragraph("lq-quiet", "A physician or the manager sets them."));
        }
        return panel;
    }

    private IntegerField number(String label, int value) {
        var field = new IntegerField(label);
        field.setValue(value);
        field.setMin(1);
        field.setMax(90);
        field.setWidthFull();
        field.setReadOnly(!sets);
        return field;
    }

    private void set(
            ChasingDaysVersion before, List<IntegerField> fields, Map<Tier, IntegerField> calls, TextField reason) {
        if (fields.stream().anyMatch(field -> field.isEmpty() || field.isInvalid())
                || calls.values().stream().anyMatch(IntegerField::isInvalid)) {
            refuse("Days are whole numbers up to 90. Mend the field that is marked or empty.");
            return;
        }
        var every = new EnumMap<Tier, Integer>(Tier.class);
        calls.forEach((tier, field) -> field.getOptionalValue().ifPresent(days -> every.put(tier, days)));
        try {
            var days = new ChasingDays(
                    fields.get(0).getValue(),
                    fields.get(1).getValue(),
                    fields.get(2).getValue(),
                    every,
                    fields.get(3).getValue());
            settings.set(before.version(), days, reason.getValue());
            message.setText("The days are set. They count from now on; what was asked before keeps its day.");
            show();
        } catch (NotPossibleException | IllegalArgumentException no) {
            refuse(no.getMessage());
        }
    }

    private void refuse(String why) {
        refusal.setText(why);
        refusal.setVisible(true);
    }

    private static Section history(List<ChasingDaysVersion> versions) {
        var list = new OrderedList();
        list.addClassName("lq-calls");
        versions.forEach(version -> list.add(new ListItem(
                Pieces.text(
                        "lq-strong",
                        "Version " + version.version() + ": " + version.days().firstReply() + ", "
                                + version.days().secondReply() + " and "
                                + version.days().thirdReply()
                                + " days for an answer"),
                Pieces.text("lq-call-words", version.reason()),
                Pieces.text("lq-quiet", version.who() + ", " + DayWords.moment(version.at())))));
        return Pieces.panel("lq-history-of-days", "As they were set, newest first", list);
    }
}
