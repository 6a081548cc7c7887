package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.preparation.CaseItem;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.Standing;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Pieces;

/** The work-up, item by item, and what was done so far. */
final class WorkUpPanel {

    /** After how many days what was asked for is asked for again, unless somebody says otherwise. */
    private static final int CHASE_AFTER_DAYS = 3;

    private final Preparation preparation;
    private final CaseSteps steps;
    private final ResultsDialog typing;

    WorkUpPanel(Preparation preparation, CaseSteps steps, ResultsDialog typing) {
        this.preparation = preparation;
        this.steps = steps;
        this.typing = typing;
    }

    Component of(PreparationCase prepared) {
        var panel = Pieces.panel("lq-items", "Work-up");
        if (prepared.items().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "None proposed."));
        }
        prepared.items().forEach(item -> panel.add(item(prepared, item)));
        return panel;
    }

    private Component item(PreparationCase prepared, CaseItem item) {
        var what = new H3(item.what());
        var state = Pieces.text("lq-item-state", state(item));
        var about = Pieces.div("lq-item-about", what, state);
        item.at()
                .ifPresent(at -> state.setText(state.getText() + " (" + item.author() + ", " + Words.moment(at) + ")"));
        if (!item.why().isEmpty()) {
            var why = new NativeDetails("Why");
            why.addClassName("lq-why");
            why.setContent(new Div(
                    new Paragraph(item.why()), Pieces.paragraph("lq-quiet", "Proposed. Source: " + item.source())));
            about.add(why);
        }
        var row = Pieces.div("lq-item", mark(item), about, actions(prepared, item));
        row.setClassName("lq-item-red", item.red());
        return row;
    }

    /** Whether the item is open, in a shape and a word. */
    private static Component mark(CaseItem item) {
        var word = !item.proposed()
                ? "no longer proposed"
                : item.red() ? "open" : item.settled() ? "done" : item.aboutStents() ? "see stents" : "when it suits";
        return Pieces.text(
                "lq-item-mark " + (item.red() ? "lq-mark-open" : item.settled() ? "lq-mark-done" : "lq-mark-later"),
                word);
    }

    private static String state(CaseItem item) {
        var held = item.validUntil().map(day -> "held, counts until " + Words.date(day));
        if (item.aboutStents()) {
            return "the gate looks at the stent itself";
        }
        if (!item.needed() && item.proposed() && item.standing() instanceof Standing.Wanted) {
            return held.orElse("held");
        }
        var standing = Words.of(item.standing());
        return item.needed() && held.isPresent() ? standing + "; what is " + held.get() + " only" : standing;
    }

    private Component actions(PreparationCase prepared, CaseItem item) {
        var buttons = Pieces.div("lq-row-actions");
        if (prepared.record().isPresent() || !item.proposed() || item.aboutStents()) {
            return buttons;
        }
        var about = item.what();
        ResultFields.of(item.code(), preparation.today())
                .ifPresent(fields -> buttons.add(Pieces.small(
                        "Type in",
                        "Type in: " + about,
                        () -> typing.of(prepared, Optional.of(item), about).open())));
        if (item.settled() && item.version() > 0) {
            buttons.add(Pieces.small(
                    "Open again", "Open again: " + about, () -> follow(prepared, item, new Standing.Wanted())));
        } else if (item.needed()) {
            buttons.add(
                    Pieces.small(
                            "Asked",
                            "Asked: " + about,
                            () -> asking(prepared, item).open()),
                    Pieces.small(
                            "Booked",
                            "Booked: " + about,
                            () -> bookingOf(prepared, item).open()),
                    Pieces.small(
                            "In", "In: " + about, () -> follow(prepared, item, new Standing.In(preparation.today()))),
                    Pieces.small(
                            "Not needed",
                            "Not needed: " + about,
                            () -> notNeeded(prepared, item).open()));
        }
        return buttons;
    }

    private AskingDialog asking(PreparationCase prepared, CaseItem item) {
        var today = preparation.today();
        var of = new TextField("Asked of");
        of.setWidthFull();
        of.setValue(
                item.standing() instanceof Standing.Asked(var before, var on, var chase)
                        ? before
                        : prepared.proposed().document().referrer().name().orElse(""));
        var on = Pieces.date("On", today);
        var chase = Pieces.date("Chase it on", today.plusDays(CHASE_AFTER_DAYS));
        return new AskingDialog(
                "Asked: " + item.what(),
                List.of(of, on, chase),
                "Save",
                () -> on.isEmpty() || chase.isEmpty()
                        ? Optional.of("Choose both days.")
                        : steps.refusal(
                                prepared.id(),
                                preparation.track(
                                        prepared.id(),
                                        item.code(),
                                        item.version(),
                                        new Standing.Asked(of.getValue().strip(), on.getValue(), chase.getValue())),
                                "Asked: " + item.what() + "."));
    }

    private AskingDialog bookingOf(PreparationCase prepared, CaseItem item) {
        var where = new TextField("Where");
        where.setWidthFull();
        var on = Pieces.date("For", preparation.today().plusDays(1));
        return new AskingDialog(
                "Booked: " + item.what(),
                List.of(where, on),
                "Save",
                () -> on.isEmpty()
                        ? Optional.of("Choose the day.")
                        : steps.refusal(
                                prepared.id(),
                                preparation.track(
                                        prepared.id(),
                                        item.code(),
                                        item.version(),
                                        new Standing.Booked(
                                                on.getValue(), where.getValue().strip())),
                                "Booked: " + item.what() + "."));
    }

    private AskingDialog notNeeded(PreparationCase prepared, CaseItem item) {
        var reason = new TextArea("Why it is not needed");
        reason.setWidthFull();
        return new AskingDialog(
                "Not needed: " + item.what(),
                List.of(reason, Pieces.paragraph("lq-quiet", "Your name stands beside it.")),
                "Save",
                () -> steps.refusal(
                        prepared.id(),
                        preparation.track(
                                prepared.id(),
                                item.code(),
                                item.version(),
                                new Standing.NotNeeded(reason.getValue().strip())),
                        "Not needed: " + item.what() + "."));
    }

    private void follow(PreparationCase prepared, CaseItem item, Standing standing) {
        steps.done(
                prepared.id(),
                preparation.track(prepared.id(), item.code(), item.version(), standing),
                item.what() + ": " + Words.of(standing) + ".");
    }

    Component history(PreparationCase prepared) {
        var taken = preparation.steps(prepared.id());
        var list = new OrderedList();
        var names = prepared.items().stream().collect(Collectors.toMap(CaseItem::code, CaseItem::what));
        taken.forEach(step ->
                list.add(new ListItem(names.getOrDefault(step.code(), step.code()) + ": " + Words.state(step.state())
                        + (step.details().isEmpty() ? "" : " (" + step.details() + ")") + ". " + step.author() + ", "
                        + Words.moment(step.at()))));
        preparation
                .overrides(prepared.id())
                .forEach(override -> list.add(new ListItem("Gate overridden: “" + override.reason() + "” "
                        + override.author() + ", " + Words.moment(override.at()))));
        var details = new NativeDetails(
                "What was done, newest first (" + list.getChildren().count() + ")");
        details.setContent(list);
        details.addClassName("lq-history");
        return details;
    }
}
