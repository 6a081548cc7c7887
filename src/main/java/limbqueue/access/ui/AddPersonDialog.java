package limbqueue.access.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.textfield.TextField;
import java.util.function.BiConsumer;
import limbqueue.access.Account;
import limbqueue.access.AddOutcome;
import limbqueue.access.People;
import limbqueue.access.Role;

/** Asks who is to be added. */
final class AddPersonDialog extends Dialog {

    private final transient People people;
    private final transient BiConsumer<Account, String> added;
    private final TextField displayName = new TextField("Name, as colleagues read it");
    private final TextField signInName = new TextField("Sign-in name");
    private final RadioButtonGroup<Role> role = new RadioButtonGroup<>("Role");

    AddPersonDialog(People people, BiConsumer<Account, String> added) {
        this.people = people;
        this.added = added;
        setHeaderTitle("Add a person");
        setWidth("420px");
        role.setItems(Role.values());
        role.setItemLabelGenerator(Role::word);
        role.setManualValidation(true);
        displayName.setWidthFull();
        displayName.setManualValidation(true);
        displayName.setAutofocus(true);
        signInName.setWidthFull();
        signInName.setManualValidation(true);
        var fields = new Div(displayName, signInName, role);
        fields.addClassName("lq-stack");
        add(fields);
        var add = new Button("Add", click -> submit());
        add.addThemeVariants(ButtonVariant.PRIMARY);
        getFooter().add(new Button("Cancel", click -> close()), add);
    }

    private void submit() {
        role.setInvalid(role.getValue() == null);
        role.setErrorMessage(role.getValue() == null ? "Choose what the person may do." : "");
        displayName.setInvalid(false);
        signInName.setInvalid(false);
        if (role.getValue() == null) {
            return;
        }
        switch (people.add(signInName.getValue(), displayName.getValue(), role.getValue())) {
            case AddOutcome.Added done -> {
                close();
                added.accept(done.account(), done.password());
            }
            case AddOutcome.NameRefused refused -> tell(signInName, refused.why());
            case AddOutcome.DisplayNameRefused refused -> tell(displayName, refused.why());
        }
    }

    private static void tell(TextField field, String why) {
        field.setErrorMessage(why);
        field.setInvalid(true);
        field.focus();
    }
}
