package limbqueue.referral.ui;

import com.vaadin.flow.component.AbstractSinglePropertyField;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.data.value.ValueChangeMode;

/** A line of text that keeps whatever is typed, and tells the server soon after the last key. */
@Tag("input")
final class LineField extends AbstractSinglePropertyField<LineField, String> {

    static final int SETTLED_AFTER_MS = 250;

    LineField() {
        super("value", "", false);
        setSynchronizedEvent("input");
        ValueChangeMode.applyChangeTimeout(ValueChangeMode.LAZY, SETTLED_AFTER_MS, getSynchronizationRegistration());
        getElement().setAttribute("type", "text").setAttribute("autocomplete", "off");
    }
}
