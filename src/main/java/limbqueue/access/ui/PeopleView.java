package limbqueue.access.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.confirmdialog.ConfirmDialog;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.Account;
import limbqueue.access.NotPossibleException;
import limbqueue.access.People;
import limbqueue.access.Role;

/** The people who may sign in, for the manager. */
@Route("people")
@PageTitle("People · LimbQueue")
@Menu(title = "People", order = 60)
@RolesAllowed(Role.IS_MANAGER)
class PeopleView extends Section {

    private final People people;
    private final Grid<Account> grid = new Grid<>();

    PeopleView(People people) {
        this.people = people;
        addClassName("lq-page");

        var add = new Button("Add a person", click -> new AddPersonDialog(people, this::added).open());
        add.addThemeVariants(ButtonVariant.PRIMARY);
        var head = new Div(new H1("People"), add);
        head.addClassName("lq-page-head");

        grid.addColumn(Account::displayName).setHeader("Name").setFlexGrow(2);
        grid.addColumn(Account::signInName).setHeader("Signs in as").setFlexGrow(1);
        grid.addColumn(account -> account.role().word()).setHeader("Role").setFlexGrow(1);
        grid.addColumn(PeopleView::state).setHeader("State").setFlexGrow(2);
        grid.addComponentColumn(this::actions)
                .setHeader("Actions")
                .setFlexGrow(0)
                .setWidth("260px");
        grid.setAllRowsVisible(true);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        add(head, grid);
        refresh();
    }

    private static String state(Account account) {
        if (!account.active()) {
            return "deactivated";
        }
        return account.mustChangePassword() ? "must choose a password" : "active";
    }

    private Div actions(Account account) {
        var actions = new Div();
        actions.addClassName("lq-row-actions");
        if (account.active()) {
            actions.add(
                    action(
                            "Reset password",
                            "Reset the password of " + account.displayName(),
                            () -> confirmReset(account)),
                    action("Deactivate", "Deactivate " + account.displayName(), () -> confirmDeactivate(account)));
        } else {
            actions.add(action(
                    "Reactivate",
                    "Reactivate " + account.displayName(),
                    () -> attempt(() -> {
                        people.reactivate(account);
                        Notification.show(account.displayName() + " can sign in again.");
                    })));
        }
        return actions;
    }

    private static Button action(String text, String description, Runnable work) {
        var button = new Button(text, click -> work.run());
        button.addThemeVariants(ButtonVariant.SMALL);
        button.setAriaLabel(description);
        return button;
    }

    private void confirmReset(Account account) {
        new ConfirmDialog(
                        "Reset the password of " + account.displayName() + "?",
                        "They are signed out everywhere and get a new password, which you hand to them.",
                        "Reset password",
                        confirm -> attempt(() -> show(account, people.resetPassword(account))),
                        "Cancel",
                        cancel -> {})
                .open();
    }

    private void confirmDeactivate(Account account) {
        new ConfirmDialog(
                        "Deactivate " + account.displayName() + "?",
                        "They are signed out everywhere and can't sign in until somebody reactivates them."
                                + " What they did stays under their name.",
                        "Deactivate",
                        confirm -> attempt(() -> {
                            people.deactivate(account);
                            Notification.show(account.displayName() + " can't sign in any more.");
                        }),
                        "Cancel",
                        cancel -> {})
                .open();
    }

    private void attempt(Runnable work) {
        try {
            work.run();
        } catch (NotPossibleException notNow) {
            var told = new ConfirmDialog();
            told.setHeader("That was not done");
            told.setText(String.valueOf(notNow.getMessage()));
            told.setConfirmText("Understood");
            told.open();
        }
        refresh();
    }

    private void added(Account account, String password) {
        refresh();
        show(account, password);
    }

    private static void show(Account account, String password) {
        var shown = new Span(password);
        shown.addClassName("lq-password-once");
        var text = new Div(
                new Div("Hand this password to " + account.displayName() + ", who signs in as " + account.signInName()
                        + " and then chooses their own:"),
                shown,
                new Div("It is shown this once and kept nowhere."));
        text.addClassName("lq-stack");
        var dialog = new ConfirmDialog();
        dialog.setHeader("Password for " + account.displayName());
        dialog.setText(text);
        dialog.setConfirmText("I have noted it");
        dialog.setCloseOnEsc(false);
        dialog.open();
    }

    private void refresh() {
        grid.setItems(people.all());
    }
}
