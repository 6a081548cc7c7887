package limbqueue.timetable.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import limbqueue.booking.Replan.Cause;
import limbqueue.shell.CountedWords;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Replanned;
import limbqueue.timetable.Replanned.Line;
import limbqueue.timetable.Replanning;
import limbqueue.timetable.TimetableOutcome;

/**
 * The new plan as the difference to what is booked, to accept as a whole or in part. A line that moves somebody who has been told
 * is ticked by a person and never beforehand.
 */
final class NewPlanDialog extends Dialog {

    private final Replanning replanning;
    private final Replanned replanned;
    private final Consumer<String> done;
    private final Function<Line, String> tier;
    private final Map<Line, Checkbox> ticks = new LinkedHashMap<>();
    private final Div refusal = new Div();

    /**
     * @param tier how the tier of a line is called
     * @param done called with what was done
     */
    NewPlanDialog(Replanning replanning, Replanned replanned, Function<Line, String> tier, Consumer<String> done) {
        this.replanning = replanning;
        this.replanned = replanned;
        this.done = done;
        this.tier = tier;
        setHeaderTitle("The new plan");
        setWidth("min(860px, 96vw)");
        addClassName("lq-new-plan");
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        var all = Pieces.div("lq-stack lq-new-plan-lines", new Notice(replanned.notice()));
        all.add(Pieces.paragraph("lq-strong", replanned.what()), new Paragraph(summary()));
        replanned
                .emergency()
                .ifPresent(taken -> all.add(new Paragraph("%s taken for the emergency: %s."
                        .formatted(
                                CountedWords.of(taken.minutes(), "minute is", "minutes are"),
                                SessionWords.where(taken.session())))));
        if (!replanned.closes().isEmpty()) {
            var closed = new UnorderedList();
            replanned.closes().forEach(session -> closed.add(new ListItem(SessionWords.where(session))));
            all.add(new H3("Closed for it"), closed);
        }
        lines("Moves somebody who has been told: tick each to agree to it", Line::told, all);
        lines("Changes for nobody who has been told", line -> !line.told() && line.cause() != Cause.HAD_NO_PLACE, all);
        lines("Had no place, and finds one", line -> line.cause() == Cause.HAD_NO_PLACE, all);
        without(all);
        add(all, refusal);
        getFooter()
                .add(
                        new Button("Leave everything as it is", _ -> close()),
                        Pieces.primary(deed(), () -> accept(false)));
        ticks.values().stream().findFirst().ifPresent(Checkbox::focus);
    }

    private String deed() {
        return replanned.closes().isEmpty() && replanned.emergency().isEmpty()
                ? "Accept what is ticked"
                : replanned.emergency().isPresent()
                        ? "Take the minutes, and accept what is ticked"
                        : "Close the sessions, and accept what is ticked";
    }

    private String summary() {
        var told = replanned.toldPatients();
        return "%s; %s."
                .formatted(
                        replanned.lines().isEmpty()
                                ? "No place changes"
                                : CountedWords.of(replanned.lines().size(), "place changes", "places change"),
                        told == 0
                                ? "nobody who has been told is moved"
                                : CountedWords.of(
                                                told,
                                                "patient who has been told is moved",
                                                "patients who have been told are moved")
                                        + ", the fewest that was found");
    }

    private void lines(String title, Predicate<Line> which, Div all) {
        var lines = replanned.lines().stream().filter(which).toList();
        if (lines.isEmpty()) {
            return;
        }
        var list = new UnorderedList();
        list.addClassName("lq-moves");
        lines.forEach(line -> list.add(item(line)));
        all.add(new H3(title), list);
    }

    private ListItem item(Line line) {
        var tick = new Checkbox(
                "%s, %s, %d min (%s)".formatted(line.who(), line.step().words(), line.minutes(), tier.apply(line)));
        tick.setValue(!line.told());
        ticks.put(line, tick);
        var where = line.to()
                .map(to -> "To %s, expected at %s."
                        .formatted(
                                SessionWords.where(to),
                                line.at().orElse(to.session().start()).toLocalTime()))
                .orElse("To no place.");
        var before = line.from()
                .map(from -> "From " + SessionWords.where(from)
                        + (line.told() ? ", of which the patient has been told and must be told anew." : "."))
                .orElse("Has no place yet.");
        return new ListItem(tick, new Paragraph(where + " " + before), Pieces.paragraph("lq-quiet", line.why()));
    }

    private void without(Div all) {
        if (replanned.without().isEmpty()) {
            return;
        }
        var list = new UnorderedList();
        replanned
                .without()
                .forEach(one -> list.add(
                        new ListItem((one.patient().isBlank() ? one.reference() : one.patient()) + ": " + one.why())));
        all.add(new H3("Without a whole way"), list);
    }

    private void accept(boolean othersToo) {
        var chosen = new ArrayList<Line>();
        ticks.forEach((line, tick) -> {
            if (tick.getValue()) {
                chosen.add(line);
            }
        });
        // A tick beside somebody who has been told is the yes of its own.
        var outcome = replanning.accept(replanned, chosen, List.copyOf(chosen), othersToo);
        if (outcome instanceof TimetableOutcome.AsksFirst(var questions)) {
            AskFirst.open(
                    "Others would come earlier. Accept it all the same?", questions, "Accept", () -> accept(true));
        } else if (outcome instanceof TimetableOutcome.Done) {
            close();
            done.accept(SessionWords.said(outcome, "Done."));
        } else {
            refusal.setText(SessionWords.said(outcome, ""));
            refusal.setVisible(true);
        }
    }
}
