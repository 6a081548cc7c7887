package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.checkbox.CheckboxGroup;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextField;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import limbqueue.booking.Capability;
import limbqueue.booking.Disruption;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.ReplanOutcome;
import limbqueue.timetable.Replanned;
import limbqueue.timetable.Replanning;
import limbqueue.timetable.Replanning.Expected;
import limbqueue.triage.TriageResult;

/** Asks what has happened to the booked plan. What is typed stays when it cannot be. */
final class SomethingChangedDialog extends Dialog {

    /** What can happen. */
    private enum Kind {
        EMERGENCY("An emergency needs a procedure room today"),
        OPERATOR("An operator cannot work"),
        PLACE("A room or a machine cannot be used"),
        PATIENT("A patient cannot come");

        private final String words;

        Kind(String words) {
            this.words = words;
        }
    }

    private final Replanning replanning;
    private final Consumer<Replanned> proposed;
    private final Select<Kind> kind = new Select<>();
    private final IntegerField minutes = new IntegerField("Minutes that it needs");
    private final CheckboxGroup<Capability> needs = new CheckboxGroup<>("What the room must have");
    private final ComboBox<String> operator = new ComboBox<>("Operator");
    private final ComboBox<String> place = new ComboBox<>("Room or machine");
    private final ComboBox<Expected> patient = new ComboBox<>("Patient, by the place that is given up");
    private final DatePicker from;
    private final DatePicker last;
    private final TextField why = new TextField("Why; it stands on the closed sessions");
    private final Div refusal = new Div();

    /**
     * @param today which is offered
     * @param proposed called with the new plan
     */
    SomethingChangedDialog(Replanning replanning, LocalDate today, Consumer<Replanned> proposed) {
        this.replanning = replanning;
        this.proposed = proposed;
        this.from = Pieces.date("From", today);
        this.last = Pieces.date("Last day", today);
        setHeaderTitle("Something has changed");
        setWidth("480px");
        kind.setLabel("What has happened");
        kind.setItems(Kind.values());
        kind.setItemLabelGenerator(one -> one.words);
        kind.setValue(Kind.EMERGENCY);
        kind.setWidthFull();
        kind.addValueChangeListener(_ -> showFields());
        minutes.setMin(1);
        minutes.setMax(1440);
        minutes.setRequiredIndicatorVisible(true);
        minutes.setWidthFull();
        needs.setItems(Capability.values());
        needs.setItemLabelGenerator(one -> SessionWords.first(one.words()));
        operator.setItems(replanning.operators());
        place.setItems(replanning.places());
        patient.setItems(replanning.expected());
        patient.setItemLabelGenerator(one -> "%s, %s, %s"
                .formatted(one.placed().who(), one.placed().step().words(), SessionWords.where(one.session())));
        patient.addValueChangeListener(
                changed -> Optional.ofNullable(changed.getValue()).ifPresent(chosen -> {
                    from.setValue(chosen.session().date());
                    last.setValue(chosen.session().date());
                }));
        List.of(operator, place, patient).forEach(one -> {
            one.setRequiredIndicatorVisible(true);
            one.setWidthFull();
        });
        why.setMaxLength(200);
        why.setRequiredIndicatorVisible(true);
        why.setWidthFull();
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        add(Pieces.div(
                "lq-stack",
                kind,
                minutes,
                needs,
                operator,
                place,
                patient,
                Pieces.div("lq-pair", from, last),
                why,
                refusal,
                Pieces.paragraph(
                        "lq-quiet",
                        "A plan is looked for that moves the fewest patients who have been told. It takes some seconds and"
                                + " changes nothing before you accept it."),
                new Notice(TriageResult.NOTICE)));
        getFooter().add(new Button("Cancel", _ -> close()), Pieces.primary("Plan anew", this::ask));
        showFields();
        kind.focus();
    }

    private void showFields() {
        var now = kind.getValue();
        show(minutes, now == Kind.EMERGENCY);
        show(needs, now == Kind.EMERGENCY);
        show(operator, now == Kind.OPERATOR);
        show(place, now == Kind.PLACE);
        show(patient, now == Kind.PATIENT);
        show(from, now != Kind.EMERGENCY);
        show(last, now != Kind.EMERGENCY);
        show(why, now == Kind.OPERATOR || now == Kind.PLACE);
        refusal.setVisible(false);
    }

    private static void show(Component field, boolean shown) {
        field.setVisible(shown);
    }

    private void ask() {
        var disruption = disruption();
        if (disruption.isEmpty()) {
            return;
        }
        switch (replanning.propose(disruption.get())) {
            case ReplanOutcome.Refused(var because) -> refuse(because);
            case ReplanOutcome.Proposed(var replanned) -> {
                close();
                proposed.accept(replanned);
            }
        }
    }

    private void refuse(String because) {
        refusal.setText(because);
        refusal.setVisible(true);
    }

    private Optional<Disruption> disruption() {
        return switch (kind.getValue()) {
            case EMERGENCY -> emergency();
            case OPERATOR ->
                named(operator, "Choose the operator.")
                        .flatMap(name -> time((start, end) -> new OperatorAway(name, start, end, why.getValue())));
            case PLACE ->
                named(place, "Choose the room or the machine.")
                        .flatMap(name -> time((start, end) -> new PlaceDown(name, start, end, why.getValue())));
            case PATIENT ->
                named(patient, "Choose the patient.")
                        .flatMap(one -> time(
                                (start, end) -> new PatientCancels(one.placed().reference(), start, end)));
        };
    }

    private Optional<Disruption> emergency() {
        var needed = Optional.ofNullable(minutes.getValue()).filter(one -> one > 0 && one <= 1440);
        if (needed.isEmpty()) {
            refuse("Say how many minutes it needs, from 1 to 1440.");
            minutes.focus();
        }
        return needed.map(one -> new Emergency("the emergency", one, Set.copyOf(needs.getValue())));
    }

    private <T> Optional<T> named(ComboBox<T> field, String otherwise) {
        if (field.isEmpty()) {
            refuse(otherwise);
            field.focus();
        }
        return field.getOptionalValue();
    }

    /** A disruption of some days. */
    private interface OfDays {
        Disruption of(LocalDateTime from, LocalDateTime until);
    }

    private Optional<Disruption> time(OfDays disruption) {
        if (from.isEmpty() || last.isEmpty() || from.isInvalid() || last.isInvalid()) {
            refuse("Fill in the first and the last day, as 5/3/2026.");
            return Optional.empty();
        }
        if (last.getValue().isBefore(from.getValue())) {
            refuse("The last day %s is before the first one, %s. Change one of them."
                    .formatted(SessionWords.day(last.getValue()), SessionWords.day(from.getValue())));
            return Optional.empty();
        }
        return Optional.of(disruption.of(
                from.getValue().atStartOfDay(), last.getValue().plusDays(1).atStartOfDay()));
    }
}
