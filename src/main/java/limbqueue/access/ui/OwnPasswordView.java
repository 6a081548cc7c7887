package limbqueue.access.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.component.textfield.PasswordField;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.OwnPassword;
import limbqueue.access.Role;

/** Where a person replaces their own password. */
@Route("password")
@PageTitle("Your password · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
class OwnPasswordView extends Section {

    private final OwnPassword ownPassword;
    private final PasswordField present = new PasswordField("Present password");
    private final PasswordField wanted = new PasswordField("New password");
    private final PasswordField again = new PasswordField("New password, again");

    OwnPasswordView(OwnPassword ownPassword, CurrentPerson currentPerson) {
        this.ownPassword = ownPassword;
        addClassNames("lq-page", "lq-narrow");
        add(new H1("Your password"));
        if (currentPerson.mustChangePassword()) {
            add(new Paragraph("Your password was made for you. Choose one that only you know, and go on."));
        }
        present.setAutocomplete(com.vaadin.flow.component.textfield.Autocomplete.CURRENT_PASSWORD);
        wanted.setAutocomplete(com.vaadin.flow.component.textfield.Autocomplete.NEW_PASSWORD);
        again.setAutocomplete(com.vaadin.flow.component.textfield.Autocomplete.NEW_PASSWORD);
        wanted.setHelperText(
                "At least " + OwnPassword.SHORTEST + " characters; several words are easiest to remember.");
        for (var field : new PasswordField[] {present, wanted, again}) {
            field.setWidthFull();
            field.setRequiredIndicatorVisible(true);
            // Each message is set by hand, so that it names what is wrong.
            field.setManualValidation(true);
        }
        var change = new Button("Change password", click -> change());
        change.addThemeVariants(ButtonVariant.PRIMARY);
        change.addClickShortcut(com.vaadin.flow.component.Key.ENTER);
        add(present, wanted, again, change);
    }

    private void change() {
        tell(present, "");
        tell(again, "");
        var objection = ownPassword.objection(wanted.getValue());
        tell(wanted, objection.orElse(""));
        if (objection.isPresent()) {
            return;
        }
        if (!wanted.getValue().equals(again.getValue())) {
            tell(again, "This differs from the new password above.");
            return;
        }
        try {
            if (!ownPassword.change(present.getValue(), wanted.getValue())) {
                tell(present, "This is not your present password.");
                return;
            }
        } catch (NotPossibleException notNow) {
            tell(present, String.valueOf(notNow.getMessage()));
            return;
        }
        Notification.show("Your password is changed.");
        UI.getCurrent().navigate("");
    }

    private static void tell(PasswordField field, String problem) {
        field.setInvalid(!problem.isEmpty());
        field.setErrorMessage(problem);
    }
}
