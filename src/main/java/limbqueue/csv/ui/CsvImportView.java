package limbqueue.csv.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.DetachEvent;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.progressbar.ProgressBar;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.csv.CsvImport;
import limbqueue.csv.CsvImports;
import limbqueue.shell.CountedWords;

/** A table from elsewhere, from the file to the referrals: what its columns are, what is wrong in it, and how far it has come. */
@Route("intake/csv/:id?")
@PageTitle("Import a table · LimbQueue")
@RolesAllowed(Role.IS_COORDINATOR)
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/csv.css")
class CsvImportView extends Div implements BeforeEnterObserver {

    private static final String START = "Import a table";
    private static final int POLL_MILLIS = 500;

    private final CsvImports imports;
    private final AuditTrail auditTrail;
    private final ProgressBar bar = new ProgressBar();
    private final Span progress = new Span();
    private Optional<Long> following = Optional.empty();

    CsvImportView(CsvImports imports, AuditTrail auditTrail) {
        this.imports = imports;
        this.auditTrail = auditTrail;
        addClassNames("lq-list-view", "lq-csv-import");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var id = event.getRouteParameters().get("id");
        if (id.isEmpty()) {
            showStart();
            return;
        }
        var found = event.getRouteParameters().getLong("id").flatMap(imports::find);
        if (found.isEmpty()) {
            event.rerouteToError(NotFoundException.class, "There is no such file.");
            return;
        }
        show(found.get());
    }

    @Override
    protected void onAttach(AttachEvent attachEvent) {
        super.onAttach(attachEvent);
        var polls = attachEvent.getUI().addPollListener(_ -> follow());
        addDetachListener(detached -> {
            polls.remove();
            detached.unregisterListener();
        });
    }

    @Override
    protected void onDetach(DetachEvent detachEvent) {
        super.onDetach(detachEvent);
        detachEvent.getUI().setPollInterval(-1);
    }

    private void head(String title) {
        removeAll();
        following = Optional.empty();
        var head = new Div(new H1(title));
        head.addClassName("lq-list-head");
        add(head);
        if (!title.equals(START)) {
            head.add(new Anchor("intake/csv", "Import another"));
        }
    }

    private void showStart() {
        head(START);
        new ChooseFile(imports).parts().forEach(this::add);
    }

    private void show(long id) {
        show(imports.find(id).orElseThrow());
    }

    private void show(CsvImport one) {
        head(one.name());
        var file = imports.file(one.id());
        var facts = new Paragraph(ImportWords.rows(one.rows()) + ", "
                + CountedWords.of(file.columns().size(), "column")
                + ", separated by "
                + file.separatorWord() + ", written in " + file.alphabet() + ".");
        facts.addClassName("lq-csv-facts");
        add(facts);
        switch (one.state()) {
            case LOADED ->
                new ColumnsForm(imports, auditTrail, one, file, () -> show(one.id()))
                        .parts()
                        .forEach(this::add);
            case RUNNING -> {
                if (imports.isRunning(one.id())) {
                    showProgress(one);
                } else {
                    add(result(one, "Broken off: " + ImportWords.counts(one)), goOn(one));
                }
            }
            case CANCELLED -> add(result(one, "Stopped: " + ImportWords.counts(one)), goOn(one));
            case DONE -> add(result(one, "Done: " + ImportWords.counts(one)));
        }
    }

    private void showProgress(CsvImport one) {
        following = Optional.of(one.id());
        bar.setMax(Math.max(1, one.rows()));
        bar.getElement().setAttribute("aria-label", "Rows imported");
        tell(one);
        var stop = new Button("Stop", _ -> imports.cancel(one.id()));
        var block = new Div(bar, progress, stop);
        block.addClassName("lq-csv-progress");
        add(block);
        UI.getCurrent().setPollInterval(POLL_MILLIS);
    }

    private void tell(CsvImport one) {
        bar.setValue(Math.min(one.seen(), Math.max(1, one.rows())));
        progress.setText(one.seen() + " of " + ImportWords.rows(one.rows()) + ": " + ImportWords.counts(one));
    }

    private void follow() {
        following.flatMap(imports::find).ifPresent(one -> {
            if (one.state() == CsvImport.State.RUNNING && imports.isRunning(one.id())) {
                tell(one);
            } else {
                UI.getCurrent().setPollInterval(-1);
                show(one);
            }
        });
    }

    private static Component result(CsvImport one, String words) {
        var line = new Paragraph(words + ".");
        line.addClassName("lq-strong");
        line.getElement().setAttribute("role", "status");
        var list = new Anchor("referrals", "The list of referrals");
        var alike = new Anchor("same-patient", "Same patient?");
        var links = new Div(list, alike);
        links.addClassName("lq-pair-actions");
        links.setVisible(one.entered() + one.known() > 0);
        return new Div(line, links);
    }

    private Component goOn(CsvImport one) {
        var on = new Button("Go on", _ -> {
            imports.start(one.id(), imports.mapping(one.id()));
            show(one.id());
        });
        on.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        return on;
    }
}
