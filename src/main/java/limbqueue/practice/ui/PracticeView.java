package limbqueue.practice.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import limbqueue.access.Role;
import limbqueue.practice.Practice;
import limbqueue.practice.PracticeSaveOutcome;
import limbqueue.practice.PracticeSettings;
import limbqueue.print.EnvelopeWindow;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** The letterhead, to be edited, and the policy in force, to be read. */
@Route("practice")
@PageTitle("Practice · LimbQueue")
@Menu(title = "Practice", order = 70)
@RolesAllowed(Role.IS_MANAGER)
class PracticeView extends Section {

    private final PracticeSettings settings;
    private final TextField name = new TextField("Name of the practice");
    private final TextArea address = new TextArea("Address, one line each");
    private final TextField phone = new TextField("Phone");
    private final TextField fax = new TextField("Fax");
    private final TextField email = new TextField("E-mail");
    private final TextField urgentPhone = new TextField("Phone for urgent worsening");
    private final TextField signatory = new TextField("Letters are signed by");
    private final Select<EnvelopeWindow> window = new Select<>();
    private final Div conflict = new Div();
    private int version;

    PracticeView(PracticeSettings settings) {
        this.settings = settings;
        addClassName("lq-page");
        var elsewhere = new Div(
                new Anchor("policy", "Lead physician and versions of the policy"),
                new Anchor("reminders", "Days of reminders and calls"),
                new Anchor("same-day", "Same-day cases"),
                new Anchor("letters/words", "Words of letters"));
        elsewhere.addClassName("lq-row-actions");
        var head = new Div(new H1("Practice"), elsewhere);
        head.addClassName("lq-page-head");
        var columns = new Div(letterhead(), policy(settings.policy()));
        columns.addClassName("lq-columns");
        add(head, columns);
        show(settings.practice());
    }

    private Section letterhead() {
        conflict.addClassName("lq-form-error");
        conflict.getElement().setAttribute("role", "alert");
        conflict.setVisible(false);

        limit(name, 120);
        name.setManualValidation(true);
        name.setRequiredIndicatorVisible(true);
        limit(phone, 60);
        limit(fax, 60);
        limit(email, 120);
        limit(urgentPhone, 60);
        limit(signatory, 120);
        address.setWidthFull();
        address.setMinRows(3);
        address.setManualValidation(true);
        window.setLabel("Envelopes with a window");
        window.setItems(EnvelopeWindow.values());
        window.setItemLabelGenerator(EnvelopeWindow::words);
        window.setHelperText(
                "Says on which paper letters are printed, where the address stands, and where marks show to fold"
                        + " them. It counts for letters written from now on.");
        window.setWidthFull();
        urgentPhone.setHelperText("Printed in every letter: where to call when a patient gets worse.");
        var numbers = new Div(phone, fax);
        numbers.addClassName("lq-pair");

        var save = new Button("Save", click -> save());
        save.addThemeVariants(ButtonVariant.PRIMARY);
        var section = new Section(
                new H2("Letterhead"),
                conflict,
                name,
                address,
                numbers,
                email,
                urgentPhone,
                signatory,
                window,
                new Div(save));
        section.addClassNames("lq-card", "lq-stack");
        return section;
    }

    private static void limit(TextField field, int characters) {
        field.setMaxLength(characters);
        field.setWidthFull();
    }

    private void show(Practice practice) {
        name.setValue(practice.name());
        address.setValue(String.join("\n", practice.addressLines()));
        phone.setValue(practice.phone());
        fax.setValue(practice.fax());
        email.setValue(practice.email());
        urgentPhone.setValue(practice.urgentPhone());
        signatory.setValue(practice.signatory());
        window.setValue(practice.window());
        version = practice.version();
    }

    private void save() {
        var lines = address.getValue()
                .lines()
                .map(String::strip)
                .filter(line -> !line.isEmpty())
                .toList();
        tell(name.getValue().isBlank());
        address.setInvalid(lines.size() > 6);
        address.setErrorMessage(lines.size() > 6 ? "The letterhead has room for six lines." : "");
        if (name.isInvalid() || address.isInvalid()) {
            return;
        }
        switch (settings.save(typed(lines))) {
            case PracticeSaveOutcome.Saved saved -> {
                conflict.setVisible(false);
                show(saved.practice());
                Notification.show("The letterhead is saved.");
            }
            case PracticeSaveOutcome.Conflict other -> tell(other.theirs());
            case PracticeSaveOutcome.NotRight(var why) -> tell(why);
        }
    }

    private Practice typed(List<String> lines) {
        return new Practice(
                name.getValue().strip(),
                lines,
                phone.getValue().strip(),
                fax.getValue().strip(),
                email.getValue().strip(),
                urgentPhone.getValue().strip(),
                signatory.getValue().strip(),
                window.getValue(),
                version);
    }

    private void tell(boolean nameMissing) {
        name.setInvalid(nameMissing);
        name.setErrorMessage(nameMissing ? "Letters need the practice's name." : "");
    }

    private void tell(String why) {
        conflict.removeAll();
        conflict.add(new Paragraph(why));
        conflict.setVisible(true);
    }

    /** Keeps what was typed, shows what the other person saved, and lets this person decide which of the two stays. */
    private void tell(Practice theirs) {
        conflict.removeAll();
        conflict.add(
                new Paragraph("Somebody else saved the letterhead while you were typing. Theirs reads:"),
                new Paragraph(String.join(
                        " · ",
                        theirs.name(),
                        String.join(", ", theirs.addressLines()),
                        "phone " + theirs.phone(),
                        "fax " + theirs.fax(),
                        theirs.email(),
                        "urgent " + theirs.urgentPhone(),
                        "signed by " + theirs.signatory(),
                        "envelopes " + theirs.window().words())),
                new Paragraph(
                        "Yours is still in the fields below. Save again to put yours in its place, or take theirs."),
                new Button("Take theirs", click -> {
                    show(theirs);
                    conflict.setVisible(false);
                }));
        version = theirs.version();
        conflict.setVisible(true);
    }

    private static Section policy(Policy policy) {
        var tiers = table("Urgency", "Target, days after receipt");
        for (var tier : Tier.values()) {
            var days = policy.days().get(tier);
            row(tiers, tier.words(), days == null ? "no date" : days == 0 ? "the same day" : Integer.toString(days));
        }
        var validity = table("Result", "May be used for");
        row(validity, "Creatinine", policy.validity().creatinine() + " days");
        row(validity, "Creatinine, eGFR below 45", policy.validity().creatinineWhenImpaired() + " days");
        row(validity, "Haemoglobin and platelets", policy.validity().bloodCount() + " days");
        row(validity, "INR", policy.validity().inr() + (policy.validity().inr() == 1 ? " day" : " days"));
        row(validity, "Imaging", policy.validity().imagingMonths() + " months");
        row(
                validity,
                "Metformin about contrast into an artery",
                switch (policy.metformin()) {
                    case DRUG_LABEL -> "by the drug label: held, again after 48 hours";
                    case CONTRAST_MANUAL -> "by the contrast manual: held at low kidney function only";
                });
        var section = new Section(
                new H2("Policy in force: " + policy.id()),
                new Paragraph("Every proposal and decision names the policy it was made under."),
                tiers,
                validity);
        section.addClassNames("lq-card", "lq-stack");
        return section;
    }

    private static NativeTable table(String left, String right) {
        var table = new NativeTable();
        table.addClassName("lq-table");
        table.getHead().add(new NativeTableRow(heading(left), heading(right)));
        return table;
    }

    private static NativeTableHeaderCell heading(String text) {
        var cell = new NativeTableHeaderCell(text);
        cell.getElement().setAttribute("scope", "col");
        return cell;
    }

    private static void row(NativeTable table, String left, String right) {
        table.getBody().add(new NativeTableRow(new NativeTableCell(left), new NativeTableCell(right)));
    }
}
