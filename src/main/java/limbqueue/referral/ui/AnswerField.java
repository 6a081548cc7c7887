package limbqueue.referral.ui;

import com.vaadin.flow.component.AbstractSinglePropertyField;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.component.dependency.JavaScript;
import java.util.List;
import limbqueue.referral.ui.FieldKind.Choice;

/**
 * One answer out of a few, or "not known", which is the empty value. The buttons and keys are drawn in the browser, see
 * {@code frontend/lq-answer.js}.
 */
@Tag("lq-answer")
@JavaScript("context://ui/lq-answer.js")
final class AnswerField extends AbstractSinglePropertyField<AnswerField, String> {

    static final String YES = "yes";
    static final String NO = "no";
    static final List<Choice.Option> YES_OR_NO = List.of(new Choice.Option(YES, "Yes"), new Choice.Option(NO, "No"));

    AnswerField(List<Choice.Option> options) {
        super("value", "", false);
        getElement().setAttribute("role", options.size() > 6 ? "group" : "radiogroup");
        getElement().setPropertyList("options", options);
    }

    static AnswerField yesOrNo() {
        return new AnswerField(YES_OR_NO);
    }
}
