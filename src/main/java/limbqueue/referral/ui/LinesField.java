package limbqueue.referral.ui;

import com.vaadin.flow.component.AbstractSinglePropertyField;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.data.value.ValueChangeMode;

/** Several lines of text. */
@Tag("textarea")
final class LinesField extends AbstractSinglePropertyField<LinesField, String> {

    LinesField(int rows) {
        super("value", "", false);
        setSynchronizedEvent("input");
        ValueChangeMode.applyChangeTimeout(
                ValueChangeMode.LAZY, LineField.SETTLED_AFTER_MS, getSynchronizationRegistration());
        getElement().setAttribute("rows", String.valueOf(rows));
    }
}
