package limbqueue.timetable.ui;

import com.vaadin.flow.component.checkbox.CheckboxGroup;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.component.timepicker.TimePicker;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.SessionKind;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Pieces;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;

/** Asks for a session, or for one every week. */
final class EnterSessionDialog {

    private final Sessions sessions;
    private final Consumer<String> done;
    private final Select<SessionKind> kind = new Select<>();
    private final DatePicker day;
    private final TimePicker start = time("Starts", LocalTime.of(8, 0));
    private final TimePicker end = time("Ends", LocalTime.of(12, 0));
    private final TextField place = text("Place");
    private final TextField operator = text("Operator");
    private final CheckboxGroup<Capability> capabilities = new CheckboxGroup<>("What it has");
    private final IntegerField held = HoldTimeDialog.minutes(1440);
    private final IntegerField release = HoldTimeDialog.releaseDays();
    private final DatePicker until = Pieces.date("Every week until; empty for once");

    /**
     * @param day which is offered
     * @param done called with what was done
     */
    EnterSessionDialog(Sessions sessions, LocalDate day, Consumer<String> done) {
        this.sessions = sessions;
        this.done = done;
        this.day = Pieces.date("Day", day);
        kind.setLabel("Kind");
        kind.setItems(SessionKind.values());
        kind.setItemLabelGenerator(one -> SessionWords.first(one.words()));
        kind.setValue(SessionKind.CLINIC);
        kind.setWidthFull();
        capabilities.setItems(Capability.values());
        capabilities.setItemLabelGenerator(one -> SessionWords.first(one.words()));
        held.setHelperText("For urgent cases; empty: as chosen for such a day");
        release.setValue(HeldTime.USUAL_RELEASE_DAYS);
        until.setRequiredIndicatorVisible(false);
        place.setMaxLength(80);
        operator.setMaxLength(80);
    }

    void open() {
        new AskingDialog(
                        "Enter a session",
                        List.of(
                                kind,
                                day,
                                Pieces.div("lq-pair", start, end),
                                place,
                                operator,
                                capabilities,
                                Pieces.div("lq-pair", held, release),
                                until),
                        "Enter",
                        this::enter)
                .open();
    }

    private Optional<String> enter() {
        if (day.isEmpty() || day.isInvalid() || start.isEmpty() || end.isEmpty()) {
            return Optional.of("Fill in the day and both times, as 5/3/2026 and 08:30.");
        }
        if (held.isInvalid() || release.isEmpty() || release.isInvalid()) {
            return Optional.of(
                    "Write the minutes that are held as a whole number or leave them empty, and the days from 0 to %d."
                            .formatted(HeldTime.MOST_RELEASE_DAYS));
        }
        if (until.isInvalid()) {
            return Optional.of("The last day is no date. Write it as 5/3/2026, or leave it empty.");
        }
        var outcome = sessions.enter(
                new EnteredSession(
                        kind.getValue(),
                        day.getValue(),
                        start.getValue(),
                        end.getValue(),
                        place.getValue(),
                        operator.getValue(),
                        capabilities.getValue(),
                        held.getOptionalValue().map(minutes -> new HeldTime(minutes, release.getValue()))),
                until.getOptionalValue());
        if (!(outcome instanceof TimetableOutcome.Done)) {
            return Optional.of(SessionWords.said(outcome, ""));
        }
        var first = SessionWords.day(day.getValue());
        done.accept(SessionWords.said(
                outcome,
                until.getOptionalValue()
                        .map(last ->
                                "Entered for every week from %s until %s.".formatted(first, SessionWords.day(last)))
                        .orElse("Entered for " + first + ".")));
        return Optional.empty();
    }

    private static TimePicker time(String label, LocalTime value) {
        var time = new TimePicker(label, value);
        time.setLocale(Locale.UK);
        time.setAutoOpen(false);
        time.setStep(Duration.ofMinutes(15));
        time.setWidthFull();
        return time;
    }

    private static TextField text(String label) {
        var field = new TextField(label);
        field.setRequiredIndicatorVisible(true);
        field.setWidthFull();
        return field;
    }
}
