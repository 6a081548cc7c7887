package limbqueue.policy.ui;

import com.vaadin.flow.component.HasValidation;
import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.data.value.HasValueChangeMode;
import com.vaadin.flow.data.value.ValueChangeMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.policy.PolicyNumber;
import limbqueue.policy.TypedPolicy;
import limbqueue.practice.PolicyVersion;
import limbqueue.shell.Pieces;
import limbqueue.triage.Policy;
import limbqueue.triage.Policy.Metformin;
import org.jspecify.annotations.Nullable;

/** Every choice of a policy in a field of its own, with unit, range, and what it is otherwise beside it. */
class PolicyFields extends Div {

    /** Typed letters are told after this pause. */
    private static final int PAUSE_MILLIS = 300;

    private final Map<PolicyNumber, TextField> numbers = new EnumMap<>(PolicyNumber.class);
    private final RadioButtonGroup<Metformin> metformin =
            new RadioButtonGroup<>("Metformin about contrast into an artery");
    private final Checkbox redFlag = new Checkbox("The tier was lowered against a red flag");
    private final Checkbox limbThreat = new Checkbox("The tier was lowered below a limb-threatening grade");
    private final TextField name = new TextField("Name of the policy");
    private final DatePicker validFrom;
    private final TextArea reason = new TextArea("Why the policy changes");
    private final Runnable changed;
    private boolean showing;

    /** @param changed told after each change by the person */
    PolicyFields(PolicyVersion inForce, LocalDate today, Runnable changed) {
        this.changed = changed;
        this.validFrom = Pieces.date("Counts from", today);
        addClassName("lq-policy-fields");
        for (var number : PolicyNumber.values()) {
            numbers.put(number, number(number, inForce.policy()));
        }
        metformin.setItems(Metformin.values());
        metformin.setItemLabelGenerator(PolicyWords::of);
        metformin.setHelperText("Comes with: the drug label. In force: "
                + (inForce.policy().metformin() == Metformin.DRUG_LABEL ? "the drug label." : "the contrast manual."));
        redFlag.setHelperText(looked(inForce.secondLook().loweredAgainstRedFlag()));
        limbThreat.setHelperText(looked(inForce.secondLook().loweredBelowLimbThreat()));
        name.setHelperText("Letters, digits, dots and hyphens; printed with every result.");
        name.setMaxLength(60);
        name.setWidthFull();
        reason.setMaxLength(500);
        reason.setWidthFull();
        reason.setMinRows(2);
        reason.setRequiredIndicatorVisible(true);
        validFrom.setHelperText("Today or later. What was proposed before stays as it was.");
        validFrom.setMin(today);
        validFrom.setManualValidation(true);
        for (var text : new HasValueChangeMode[] {name, reason}) {
            text.setValueChangeMode(ValueChangeMode.LAZY);
            text.setValueChangeTimeout(PAUSE_MILLIS);
        }
        name.addValueChangeListener(_ -> told());
        reason.addValueChangeListener(_ -> told());
        metformin.addValueChangeListener(_ -> told());
        redFlag.addValueChangeListener(_ -> told());
        limbThreat.addValueChangeListener(_ -> told());
        validFrom.addValueChangeListener(_ -> told());

        var tiers = group("Days from receipt to the target date");
        tiers.add(Pieces.paragraph("lq-quiet", "Same day is always today, and advice only has no date."));
        var results = group("How long a result may be used");
        numbers.forEach((number, field) -> (number.ofTier() ? tiers : results).add(field));
        var choices = group("Other choices");
        choices.add(
                metformin,
                Pieces.text("lq-strong", "A second physician looks at a decision when"),
                redFlag,
                limbThreat,
                Pieces.paragraph(
                        "lq-quiet", "What is proposed stands until that one agrees. Common practice, no source."));
        var publishing = group("How it is published");
        publishing.add(name, validFrom, reason);
        add(tiers, results, choices, publishing);
    }

    private TextField number(PolicyNumber number, Policy inForce) {
        var range = number.range();
        var field = new TextField(number.label() + " (" + range.unit() + ")");
        field.setHelperText(range.least() + " to " + range.most() + ". Comes with " + number.of(Policy.standard())
                + ", in force " + number.of(inForce) + ".");
        field.getElement().setAttribute("inputmode", "numeric");
        field.setWidthFull();
        field.setManualValidation(true);
        field.setValueChangeMode(ValueChangeMode.LAZY);
        field.setValueChangeTimeout(PAUSE_MILLIS);
        field.addValueChangeListener(_ -> told());
        return field;
    }

    private static String looked(boolean inForce) {
        return "Comes with: yes. In force: " + (inForce ? "yes." : "no.");
    }

    private static Div group(String title) {
        return Pieces.div("lq-policy-group", new H3(title));
    }

    private void told() {
        if (!showing) {
            changed.run();
        }
    }

    void show(TypedPolicy typed) {
        showing = true;
        numbers.forEach((number, field) -> field.setValue(typed.get(number.path())));
        metformin.setValue(
                typed.get(TypedPolicy.METFORMIN).equals(Metformin.CONTRAST_MANUAL.name())
                        ? Metformin.CONTRAST_MANUAL
                        : Metformin.DRUG_LABEL);
        redFlag.setValue(Boolean.parseBoolean(typed.get(TypedPolicy.SECOND_LOOK_RED_FLAG)));
        limbThreat.setValue(Boolean.parseBoolean(typed.get(TypedPolicy.SECOND_LOOK_LIMB_THREAT)));
        name.setValue(typed.get(TypedPolicy.NAME));
        validFrom.setValue(date(typed.get(TypedPolicy.VALID_FROM)).orElse(null));
        reason.setValue(typed.get(TypedPolicy.REASON));
        showing = false;
    }

    TypedPolicy typed() {
        var fields = new LinkedHashMap<String, String>();
        numbers.forEach((number, field) -> fields.put(number.path(), field.getValue()));
        fields.put(TypedPolicy.METFORMIN, metformin.getValue().name());
        fields.put(TypedPolicy.SECOND_LOOK_RED_FLAG, redFlag.getValue().toString());
        fields.put(TypedPolicy.SECOND_LOOK_LIMB_THREAT, limbThreat.getValue().toString());
        fields.put(TypedPolicy.NAME, name.getValue());
        fields.put(
                TypedPolicy.VALID_FROM,
                validFrom.getOptionalValue().map(LocalDate::toString).orElse(""));
        fields.put(TypedPolicy.REASON, reason.getValue());
        return new TypedPolicy(fields);
    }

    /** Tells each field what is wrong with it, and those that are right that they are. */
    void tell(Map<String, String> problems) {
        numbers.forEach((number, field) -> tell(field, problems.get(number.path())));
        tell(name, problems.get(TypedPolicy.NAME));
        tell(validFrom, problems.get(TypedPolicy.VALID_FROM));
        tell(reason, problems.get(TypedPolicy.REASON));
    }

    private static void tell(HasValidation field, @Nullable String problem) {
        field.setInvalid(problem != null);
        field.setErrorMessage(problem == null ? "" : problem);
    }

    private static Optional<LocalDate> date(String typed) {
        try {
            return Optional.of(LocalDate.parse(typed));
        } catch (DateTimeException none) {
            return Optional.empty();
        }
    }
}
