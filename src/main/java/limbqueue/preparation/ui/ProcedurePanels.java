package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.component.timepicker.TimePicker;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.preparation.CaseOutcome;
import limbqueue.preparation.PlanLines;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.ProcedureBooking;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.CountedWords;
import limbqueue.shell.Pieces;

/** When and where the procedure is, what is planned for it, and what became of it. */
final class ProcedurePanels {

    private final Preparation preparation;
    private final CaseSteps steps;

    ProcedurePanels(Preparation preparation, CaseSteps steps) {
        this.preparation = preparation;
        this.steps = steps;
    }

    Component booking(PreparationCase prepared) {
        var panel = Pieces.panel("lq-booking", "Procedure");
        panel.add(prepared.booking()
                .map(booking ->
                        Pieces.paragraph("lq-booked", Words.procedure(booking.starts()) + ", " + booking.room()))
                .orElseGet(() -> Pieces.paragraph("lq-quiet", "Not booked.")));
        prepared.booking()
                .ifPresent(booking -> panel.add(Pieces.paragraph(
                        "lq-quiet", "Booked by " + booking.author() + ", " + Words.moment(booking.at()))));
        if (!prepared.inRoom() && prepared.record().isEmpty()) {
            panel.add(Pieces.small(
                    prepared.booking().isPresent() ? "Book anew" : "Book",
                    "Book the procedure",
                    () -> bookingDialog(prepared).open()));
        }
        return panel;
    }

    private AskingDialog bookingDialog(PreparationCase prepared) {
        var before = prepared.booking();
        var day = Pieces.date(
                "Day",
                before.map(booking -> booking.starts().toLocalDate())
                        .orElseGet(() -> preparation.today().plusDays(7)));
        var time = new TimePicker(
                "Time", before.map(booking -> booking.starts().toLocalTime()).orElse(LocalTime.of(8, 0)));
        time.setLocale(Locale.UK);
        time.setAutoOpen(false);
        time.setStep(Duration.ofMinutes(15));
        time.setWidthFull();
        var room = new TextField("Room");
        room.setValue(before.map(ProcedureBooking::room).orElse(""));
        room.setWidthFull();
        return new AskingDialog(
                "Book the procedure",
                List.of(day, time, room),
                "Book",
                () -> day.isEmpty() || time.isEmpty()
                        ? Optional.of("Choose day and time.")
                        : steps.refusal(
                                prepared.id(),
                                preparation.book(
                                        prepared.id(),
                                        before.map(ProcedureBooking::version).orElse(0),
                                        LocalDateTime.of(day.getValue(), time.getValue()),
                                        room.getValue()),
                                "Booked for " + Words.date(day.getValue()) + "."));
    }

    Component plan(PreparationCase prepared) {
        var panel = Pieces.panel("lq-plan", "Plan, as proposed");
        var plan = prepared.proposed().proposal().procedurePlan();
        if (plan.isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "None: advice only is proposed."));
            return panel;
        }
        if (plan.get().access().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "No access is proposed before the arteries are imaged."));
        }
        PlanLines.access(plan.get()).forEach(line -> panel.add(Pieces.paragraph("lq-line", line)));
        var room = new UnorderedList();
        plan.get()
                .room()
                .forEach(item -> room.add(
                        new ListItem(Pieces.text(item.mustBeInRoom() ? "lq-strong" : "lq-line", item.item()))));
        panel.add(room);
        preparation
                .expectedMinutes(prepared)
                .ifPresent(minutes -> panel.add(Pieces.paragraph("lq-quiet", PlanLines.minutes(minutes))));
        panel.add(Pieces.paragraph("lq-quiet", "Reasons and cautions stand on the page of the referral."));
        return panel;
    }

    Component outcome(PreparationCase prepared) {
        var panel = Pieces.panel("lq-outcome", "What became of it");
        if (prepared.record().isPresent()) {
            var record = prepared.record().get();
            panel.add(Pieces.paragraph(
                    "lq-line",
                    CountedWords.of(record.minutes(), "minute") + ", " + record.access() + ", "
                            + record.outcome().words() + "."));
            if (!record.note().isEmpty()) {
                panel.add(Pieces.paragraph("lq-line", "“" + record.note() + "”"));
            }
            panel.add(Pieces.paragraph("lq-quiet", record.author() + ", " + Words.moment(record.at())));
            return panel;
        }
        panel.add(Pieces.primary("Record the case", () -> recording(prepared).open()));
        return panel;
    }

    private AskingDialog recording(PreparationCase prepared) {
        var minutes = new IntegerField("Minutes in the room, from coming in to leaving");
        var access = new TextField("Access used");
        var outcome = new RadioButtonGroup<CaseOutcome>("How it ended");
        outcome.setItems(CaseOutcome.values());
        outcome.setItemLabelGenerator(CaseOutcome::words);
        outcome.setValue(CaseOutcome.AS_PLANNED);
        var note = new TextArea("What went wrong, if anything did");
        minutes.setWidthFull();
        access.setWidthFull();
        note.setWidthFull();
        var id = prepared.id();
        return new AskingDialog(
                "Record the case",
                List.of(minutes, access, outcome, note),
                "Record",
                () -> minutes.getOptionalValue()
                        .map(value -> steps.refusal(
                                id,
                                preparation.record(id, value, access.getValue(), outcome.getValue(), note.getValue()),
                                "The case is recorded."))
                        .orElse(Optional.of("Say how many minutes it took.")));
    }
}
