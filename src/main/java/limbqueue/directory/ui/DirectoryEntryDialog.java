package limbqueue.directory.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.directory.CorrectOutcome;
import limbqueue.directory.Directory;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.DirectoryKind;
import limbqueue.directory.LetterLanguages.LetterLanguage;

/** Corrects one entry, or says which other entry it is the same as. */
final class DirectoryEntryDialog extends Dialog {

    private static final LetterLanguage UNSAID = new LetterLanguage("", "the language of the practice");

    private final transient Directory directory;
    private final transient DirectoryEntry entry;
    private final transient Runnable done;
    private final TextField name = new TextField("Name");
    private final TextField organisation = new TextField("Practice or hospital");
    private final TextArea address = new TextArea("Address");
    private final TextField phone = new TextField("Telephone");
    private final TextField fax = new TextField("Fax");
    private final TextField email = new TextField("E-mail");
    private final Select<String> prefers = new Select<>();
    private final Select<LetterLanguage> language = new Select<>();
    private final ComboBox<DirectoryEntry> same = new ComboBox<>("Is the same as");
    private final Div told = new Div();

    /**
     * @param others with which it can be merged
     * @param done called when something was changed
     */
    DirectoryEntryDialog(Directory directory, DirectoryEntry entry, List<DirectoryEntry> others, Runnable done) {
        this.directory = directory;
        this.entry = entry;
        this.done = done;
        setHeaderTitle(entry.kind() == DirectoryKind.REFERRER ? "Referring doctor" : "Hospital");
        setWidth("560px");
        name.setValue(entry.name());
        organisation.setValue(entry.organisation());
        address.setValue(entry.address());
        phone.setValue(entry.phone());
        fax.setValue(entry.fax());
        email.setValue(entry.email());
        prefers.setLabel("Prefers letters by");
        prefers.setItems("", "post", "fax", "email");
        prefers.setItemLabelGenerator(way -> way.isEmpty() ? "not known" : way.equals("email") ? "e-mail" : way);
        prefers.setValue(entry.prefers());
        language.setLabel("Letters are written in");
        language.setItems(
                Stream.concat(Stream.of(UNSAID), directory.languages().stream()).toList());
        language.setItemLabelGenerator(LetterLanguage::name);
        language.setValue(directory.languages().stream()
                .filter(one -> one.tag().equals(entry.language()))
                .findFirst()
                .orElse(UNSAID));
        same.setItems(others);
        same.setItemLabelGenerator(
                other -> other.organisation().isEmpty() ? other.name() : other.name() + ", " + other.organisation());
        same.setClearButtonVisible(true);
        same.setWidthFull();
        told.addClassName("lq-form-error");
        told.getElement().setAttribute("role", "alert");
        told.setVisible(false);

        name.setWidthFull();
        address.setWidthFull();
        var fields = new Div(told, name);
        fields.addClassName("lq-stack");
        if (entry.kind() == DirectoryKind.REFERRER) {
            organisation.setWidthFull();
            fields.add(organisation);
        }
        fields.add(address, pair(phone, fax));
        fields.add(entry.kind() == DirectoryKind.REFERRER ? pair(email, prefers) : email);
        if (entry.kind() == DirectoryKind.REFERRER) {
            language.setWidthFull();
            fields.add(language);
        }
        var merge = new Button("Merge into it", _ -> merge());
        var merging = new Div(same, merge);
        merging.addClassName("lq-merge");
        var how = new Span("Merged, this entry is offered no more, and what the other one lacks is taken from it.");
        how.addClassName("lq-notice");
        fields.add(merging, how);
        add(fields);

        var save = new Button("Save", _ -> save());
        save.addThemeVariants(ButtonVariant.PRIMARY);
        getFooter().add(new Button("Cancel", _ -> close()), save);
        name.focus();
    }

    /** Opened to merge the entry into this one. */
    DirectoryEntryDialog sameAs(DirectoryEntry other) {
        same.setValue(other);
        return this;
    }

    private static Div pair(Component one, Component other) {
        var pair = new Div(one, other);
        pair.addClassName("lq-pair");
        return pair;
    }

    private void save() {
        var corrected = new DirectoryEntry(
                entry.id(),
                entry.version(),
                entry.kind(),
                name.getValue(),
                organisation.getValue(),
                address.getValue(),
                phone.getValue(),
                fax.getValue(),
                email.getValue(),
                Optional.ofNullable(prefers.getValue()).orElse(""),
                Optional.ofNullable(language.getValue()).orElse(UNSAID).tag(),
                entry.lastEntered());
        switch (directory.correct(corrected)) {
            case CorrectOutcome.Corrected _ -> finish();
            case CorrectOutcome.NotRight(var why) -> tell(why);
            case CorrectOutcome.Overtaken _ ->
                tell(
                        "Somebody else has changed this entry meanwhile. Close this, and open it anew to see how it is now.");
        }
    }

    private void merge() {
        var other = Optional.ofNullable(same.getValue());
        if (other.isEmpty()) {
            tell("Choose the entry that is to be kept.");
        } else if (directory.merge(other.get().id(), entry.id())) {
            finish();
        } else {
            tell("One of the two has been merged meanwhile. Close this, and look at the list again.");
        }
    }

    private void finish() {
        close();
        done.run();
    }

    private void tell(String text) {
        told.setText(text);
        told.setVisible(true);
    }
}
