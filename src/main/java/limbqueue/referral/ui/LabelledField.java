package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Text;

/** A field of the form without a side: its label, and its place beside it. */
final class LabelledField extends Div {

    LabelledField(FormField field, Component place) {
        addClassName("lq-field");
        setClassName(
                "lq-field-wide",
                field.kind() instanceof Entries || (field.kind() instanceof Text(var lines) && lines > 1));
        setClassName("lq-field-list", field.kind() instanceof Entries);
        add(label(field), place);
    }

    /** The label with its hint. Assistive technology hears the name of the control instead. */
    static Div label(FormField field) {
        var label = new Div(new Span(field.label()));
        label.addClassName("lq-label");
        label.getElement().setAttribute("aria-hidden", "true");
        if (!field.hint().isEmpty()) {
            var hint = new Span(field.hint());
            hint.addClassName("lq-hint");
            label.add(hint);
        }
        return label;
    }
}
