package limbqueue.chasing.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.NumberField;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import limbqueue.chasing.ToldFact;
import limbqueue.triage.Side;

/** What a patient may tell of a leg on the telephone. What is left empty stays as it was. */
final class SymptomFields {

    /** A choice and the word that the public format has for it. */
    private record Choice(String words, String value) {}

    private final RadioButtonGroup<Side> leg = new RadioButtonGroup<>("Which leg");
    private final Map<String, Checkbox> answers = new LinkedHashMap<>();
    private final Map<String, IntegerField> numbers = new LinkedHashMap<>();
    private final Map<String, Select<Choice>> choices = new LinkedHashMap<>();
    private final NumberField temperature = new NumberField("Temperature, °C");
    private final DatePicker onset = new DatePicker("Since which day");
    private final List<Component> fields = new ArrayList<>();

    SymptomFields(LocalDate today) {
        leg.setItems(Side.LEFT, Side.RIGHT);
        leg.setItemLabelGenerator(side -> side == Side.LEFT ? "Left" : "Right");
        leg.setRequiredIndicatorVisible(true);
        fields.add(leg);
        heading("Suddenly worse, within two weeks");
        answer("acute.present", "Suddenly painful, pale, cold, numb or weak");
        onset.setLocale(Locale.UK);
        onset.setAutoOpen(false);
        onset.setMax(today);
        onset.setWidthFull();
        fields.add(onset);
        answer("acute.pain", "Pain");
        answer("acute.pale", "Pale");
        answer("acute.cold", "Cold");
        choice(
                "acute.sensory",
                "Numbness",
                new Choice("None", "none"),
                new Choice("Of the toes", "toes"),
                new Choice("Beyond the toes", "beyondToes"),
                new Choice("Complete", "complete"));
        choice(
                "acute.motor",
                "Weakness",
                new Choice("None", "none"),
                new Choice("Mild", "mild"),
                new Choice("Cannot move it", "paralysis"));
        heading("Pain at rest");
        answer("restPain.present", "Pain at rest or at night");
        number("restPain.sinceDays", "Pain at rest for how many days");
        heading("Wound");
        choice(
                "wound.ulcer",
                "Ulcer",
                new Choice("Shallow", "shallow"),
                new Choice("Deep", "deep"),
                new Choice("Extensive", "extensive"));
        choice("wound.gangrene", "Black tissue", new Choice("Of the toes", "digits"), new Choice("More", "extensive"));
        number("wound.sinceDays", "Wound for how many days");
        answer("wound.spreading", "The wound spreads");
        heading("Infection");
        number("infection.localSigns", "How many of swelling, redness, tenderness, warmth, pus (0 to 5)");
        number("infection.rednessMm", "Redness around the wound, mm");
        temperature.setWidthFull();
        fields.add(temperature);
        heading("Walking");
        choice(
                "claudication.course",
                "Pain when walking",
                new Choice("Worse", "worse"),
                new Choice("Suddenly worse", "sudden"));
        number("claudication.distanceMetres", "Metres without pain");
    }

    private void heading(String words) {
        fields.add(new H3(words));
    }

    private void answer(String path, String label) {
        var field = new Checkbox(label);
        answers.put(path, field);
        fields.add(field);
    }

    private void number(String path, String label) {
        var field = new IntegerField(label);
        field.setMin(0);
        field.setWidthFull();
        numbers.put(path, field);
        fields.add(field);
    }

    private void choice(String path, String label, Choice... of) {
        var field = new Select<Choice>();
        field.setLabel(label);
        field.setItems(of);
        field.setItemLabelGenerator(choice -> choice == null ? "" : choice.words());
        field.setEmptySelectionAllowed(true);
        field.setEmptySelectionCaption("Not told");
        field.setWidthFull();
        choices.put(path, field);
        fields.add(field);
    }

    List<Component> fields() {
        return fields;
    }

    /** Whether something cannot be read: the browser keeps it in its field and hands over nothing. */
    boolean wrong() {
        return temperature.isInvalid()
                || onset.isInvalid()
                || numbers.values().stream().anyMatch(IntegerField::isInvalid);
    }

    boolean whichLeg() {
        return leg.getOptionalValue().isPresent();
    }

    /** What was told; empty if nothing was. A leg must be chosen. */
    List<ToldFact> told() {
        var side = "legs." + leg.getValue().name().toLowerCase(Locale.ROOT) + ".";
        var told = new ArrayList<ToldFact>();
        answers.forEach((path, field) -> {
            if (field.getValue()) {
                told.add(new ToldFact(side + path, true));
            }
        });
        numbers.forEach((path, field) ->
                field.getOptionalValue().ifPresent(number -> told.add(new ToldFact(side + path, number))));
        choices.forEach((path, field) ->
                field.getOptionalValue().ifPresent(choice -> told.add(new ToldFact(side + path, choice.value()))));
        temperature
                .getOptionalValue()
                .ifPresent(degrees ->
                        told.add(new ToldFact(side + "infection.temperatureC", BigDecimal.valueOf(degrees))));
        onset.getOptionalValue().ifPresent(day -> told.add(new ToldFact(side + "acute.onset", day.toString())));
        // A sign of it says that it is there.
        if (told.stream().anyMatch(fact -> fact.path().startsWith(side + "acute."))) {
            told.addFirst(new ToldFact(side + "acute.present", true));
        }
        if (told.stream().anyMatch(fact -> fact.path().startsWith(side + "restPain."))) {
            told.addFirst(new ToldFact(side + "restPain.present", true));
        }
        if (told.stream().anyMatch(fact -> fact.path().startsWith(side + "claudication."))) {
            told.addFirst(new ToldFact(side + "claudication.present", true));
        }
        return told;
    }
}
