package limbqueue.shell;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.Focusable;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/** A few fields and one deed. It stays open until the deed is done, and says why it is not. */
public final class AskingDialog extends Dialog {

    private final Div refusal = new Div();
    private final Supplier<Optional<String>> act;

    /**
     * @param fields what is asked, in order
     * @param deed the words on the button
     * @param act does it; what it returns is why it could not be done
     */
    public AskingDialog(String title, List<? extends Component> fields, String deed, Supplier<Optional<String>> act) {
        this.act = act;
        setHeaderTitle(title);
        setWidth("440px");
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        var all = new Div();
        all.addClassName("lq-stack");
        fields.forEach(all::add);
        all.add(refusal);
        add(all);
        getFooter().add(new Button("Cancel", _ -> close()), Pieces.primary(deed, this::tryIt));
        fields.stream()
                .filter(Focusable.class::isInstance)
                .findFirst()
                .ifPresent(first -> ((Focusable<?>) first).focus());
    }

    private void tryIt() {
        var why = act.get();
        if (why.isEmpty()) {
            close();
            return;
        }
        refusal.setText(why.get());
        refusal.setVisible(true);
    }
}
