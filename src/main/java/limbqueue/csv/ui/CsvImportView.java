package limbqueue.csv.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.DetachEvent;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.progressbar.ProgressBar;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.upload.Upload;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.UploadHandler;
import jakarta.annotation.security.RolesAllowed;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.csv.CellProblem;
import limbqueue.csv.CsvFile;
import limbqueue.csv.CsvImport;
import limbqueue.csv.CsvImports;
import limbqueue.csv.DateOrder;
import limbqueue.csv.DryRun;
import limbqueue.csv.Mapping;
import limbqueue.csv.RefusedFileException;
import limbqueue.document.FormatField;
import limbqueue.shell.CsvLink;

/** A table from elsewhere, from the file to the referrals: what its columns are, what is wrong in it, and how far it has come. */
@Route("intake/csv/:id?")
@PageTitle("Import a table · LimbQueue")
@RolesAllowed(Role.IS_COORDINATOR)
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/csv.css")
class CsvImportView extends Div implements BeforeEnterObserver {

    private static final int POLL_MILLIS = 500;
    private static final int SHOWN_PROBLEMS = 200;
    private static final int EXAMPLES = 3;
    private static final int LONGEST_EXAMPLE = 40;
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM yyyy", Locale.ENGLISH);

    private final CsvImports imports;
    private final AuditTrail auditTrail;
    private final Section report = new Section();
    private final Map<String, ComboBox<FormatField>> fields = new LinkedHashMap<>();
    private final RadioButtonGroup<DateOrder> order = new RadioButtonGroup<>();
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
        var head = new Div(new H1(title), new Anchor("intake/csv", "Import another"));
        head.addClassName("lq-list-head");
        add(head);
    }

    private void showStart() {
        head("Import a table");
        var how = new Paragraph("Each row of a CSV file becomes a referral to complete. Commas, semicolons or tabs, any alphabet;"
                + " the first line names the columns. You see what would happen before anything does. At most "
                + CsvFile.LARGEST / (1024 * 1024) + " MB.");
        how.addClassName("lq-notice");
        var refused = new Div();
        refused.getElement().setAttribute("role", "alert");
        var upload = new Upload(UploadHandler.inMemory((metadata, bytes) -> {
            try {
                var loaded = imports.load(metadata.fileName(), bytes);
                UI.getCurrent().navigate("intake/csv/" + loaded.id());
            } catch (RefusedFileException no) {
                refuse(refused, no.getMessage());
            }
        }));
        upload.setMaxFiles(1);
        upload.setMaxFileSize(CsvFile.LARGEST);
        upload.addFileRejectedListener(rejected -> refuse(
                refused,
                "This file is not taken: it has more than " + CsvFile.LARGEST / (1024 * 1024)
                        + " MB. Divide it into several files, each with the header."));
        upload.setUploadButton(new Button("Choose a file"));
        upload.setDropLabel(new Span("or drop it here"));
        add(how, refused, upload, latest());
    }

    private static void refuse(Div place, String words) {
        place.removeAll();
        var line = new Paragraph(words);
        line.addClassName("lq-form-error");
        place.add(line);
    }

    private Component latest() {
        var latest = imports.latest();
        var list = new UnorderedList();
        list.addClassName("lq-csv-latest");
        for (var one : latest) {
            var name = new Anchor("intake/csv/" + one.id(), one.name());
            name.getElement().setAttribute("dir", "auto");
            list.add(new ListItem(name, new Span(", " + standing(one))));
        }
        var section = new Section(new H2("Latest files"), list);
        section.setVisible(!latest.isEmpty());
        return section;
    }

    private String standing(CsvImport one) {
        return switch (one.state()) {
            case LOADED -> rows(one.rows()) + ", not imported yet";
            case RUNNING ->
                imports.isRunning(one.id())
                        ? "running, " + one.seen() + " of " + rows(one.rows())
                        : "broken off after " + one.seen() + " of " + rows(one.rows());
            case CANCELLED -> "stopped after " + one.seen() + " of " + rows(one.rows());
            case DONE -> rows(one.rows()) + ", " + one.entered() + " imported";
        };
    }

    private static String rows(int count) {
        return count == 1 ? "1 row" : String.format(Locale.ENGLISH, "%,d rows", count);
    }

    private void show(CsvImport one) {
        head(one.name());
        var file = imports.file(one.id());
        var facts = new Paragraph(rows(one.rows()) + ", " + file.columns().size() + " columns, separated by "
                + file.separatorWord() + ", written in " + file.alphabet() + ".");
        facts.addClassName("lq-csv-facts");
        add(facts);
        switch (one.state()) {
            case LOADED -> showColumns(one, file);
            case RUNNING -> {
                if (imports.isRunning(one.id())) {
                    showProgress(one);
                } else {
                    add(result(one, "Broken off: " + counts(one)), goOn(one));
                }
            }
            case CANCELLED -> add(result(one, "Stopped: " + counts(one)), goOn(one));
            case DONE -> add(result(one, "Done: " + counts(one)));
        }
    }

    private void showColumns(CsvImport one, CsvFile file) {
        var mapping = imports.mapping(one.id());
        fields.clear();
        report.removeAll();
        report.addClassName("lq-csv-report");
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-csv-columns");
        var body = new NativeTableBody();
        for (var i = 0; i < file.columns().size(); i++) {
            body.add(column(file, i, Optional.ofNullable(mapping.fields().get(file.columns().get(i)))));
        }
        table.add(new NativeTableHeader(headings("Column", "Examples", "Is this field of the referral")), body);
        order.setLabel("Dates are written as");
        order.setItems(DateOrder.values());
        order.setItemLabelGenerator(choice -> choice.words() + example(file, mapping, choice));
        order.setValue(mapping.dateOrder());
        order.addValueChangeListener(_ -> report.removeAll());
        var told = imports.dateOrder(one.id(), mapping);
        var doubt = new Paragraph(
                told.isPresent() ? "" : "The dates in this table can be read in two ways. Ask where it came from.");
        doubt.addClassName("lq-strong");
        doubt.setVisible(told.isEmpty());
        var attempt = new Button("Try it", _ -> tryOut(one));
        attempt.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        var card = new Div(table);
        card.addClassName("lq-pair-scrolls");
        add(card, order, doubt, attempt, report);
    }

    private NativeTableRow column(CsvFile file, int number, Optional<String> path) {
        var name = file.columns().get(number);
        var field = new ComboBox<FormatField>();
        field.setItems(FormatField.all());
        field.setItemLabelGenerator(FormatField::title);
        field.setPlaceholder("left out");
        field.setClearButtonVisible(true);
        field.setAriaLabel("Field of the column " + name);
        path.flatMap(FormatField::at).ifPresent(field::setValue);
        field.addValueChangeListener(_ -> report.removeAll());
        fields.put(name, field);
        var examples = file.rows().stream()
                .filter(row -> row.wrong().isEmpty())
                .map(row -> row.cells().get(number).strip())
                .filter(cell -> !cell.isEmpty())
                .distinct()
                .limit(EXAMPLES)
                .map(CsvImportView::shortened)
                .collect(Collectors.joining(" · "));
        var heading = new NativeTableHeaderCell(name);
        heading.getElement().setAttribute("scope", "row").setAttribute("dir", "auto");
        var cell = new NativeTableCell(examples);
        cell.getElement().setAttribute("dir", "auto");
        var row = new NativeTableRow();
        row.add(heading, cell, new NativeTableCell(field));
        return row;
    }

    private static String shortened(String cell) {
        return cell.codePointCount(0, cell.length()) <= LONGEST_EXAMPLE
                ? cell
                : cell.substring(0, cell.offsetByCodePoints(0, LONGEST_EXAMPLE)) + " …";
    }

    /** How the first date would be read. */
    private static String example(CsvFile file, Mapping mapping, DateOrder choice) {
        for (var i = 0; i < file.columns().size(); i++) {
            var field = Optional.ofNullable(mapping.fields().get(file.columns().get(i))).flatMap(FormatField::at);
            if (field.isPresent() && field.get().kind() == FormatField.Kind.DATE) {
                for (var row : file.rows()) {
                    var cell = row.wrong().isEmpty() ? row.cells().get(i).strip() : "";
                    if (!cell.isEmpty()) {
                        return choice.read(cell).map(DATE::format).map(date -> ": " + cell + " is " + date).orElse(
                                ": " + shortened(cell) + " is no date");
                    }
                }
            }
        }
        return "";
    }

    private Mapping chosen() {
        var chosen = new LinkedHashMap<String, String>();
        fields.forEach((column, field) -> {
            if (field.getValue() != null) {
                chosen.put(column, field.getValue().path());
            }
        });
        return new Mapping(chosen, order.getValue());
    }

    private void tryOut(CsvImport one) {
        report.removeAll();
        var mapping = chosen();
        var twice = mapping.fields().values().stream()
                .filter(path -> mapping.fields().values().stream().filter(path::equals).count() > 1)
                .findFirst()
                .flatMap(FormatField::at);
        if (mapping.fields().isEmpty() || twice.isPresent()) {
            var words = new Paragraph(
                    twice.map(field -> "Two columns are said to be " + field.title() + ". Leave one of them out.")
                            .orElse("No column is named. Say of at least one which field it is."));
            words.addClassName("lq-form-error");
            words.getElement().setAttribute("role", "alert");
            report.add(words);
            return;
        }
        var dry = imports.dryRun(one.id(), mapping);
        var sum = new Paragraph(sum(dry));
        sum.addClassName("lq-strong");
        sum.getElement().setAttribute("role", "status");
        report.add(new H2("What would happen"), sum);
        if (!dry.problems().isEmpty()) {
            report.add(problems(dry, () -> imports.dryRun(one.id(), mapping)));
        }
        if (dry.fresh() > 0) {
            var start = new Button(
                    dry.fresh() == 1 ? "Import 1 row" : String.format(Locale.ENGLISH, "Import %,d rows", dry.fresh()), _ -> {
                imports.start(one.id(), mapping);
                show(imports.find(one.id()).orElseThrow());
            });
            start.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
            report.add(start);
        }
    }

    private static String sum(DryRun dry) {
        var mend = dry.problems().stream()
                .filter(problem -> !problem.column().isEmpty())
                .map(CellProblem::line)
                .distinct()
                .count();
        return rows(dry.fresh()) + " would become " + (dry.fresh() == 1 ? "a referral" : "referrals") + " to complete"
                + (mend == 0 ? "" : ", " + mend + " of them with something to mend")
                + (dry.known() == 0 ? "" : "; " + rows(dry.known()) + " passed over, in already or twice in the file")
                + (dry.refused() == 0 ? "" : "; " + rows(dry.refused()) + " cannot be read and would be left out")
                + ".";
    }

    private Component problems(DryRun dry, java.util.function.Supplier<DryRun> again) {
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-csv-problems");
        var body = new NativeTableBody();
        for (var problem : dry.problems().subList(0, Math.min(SHOWN_PROBLEMS, dry.problems().size()))) {
            var row = new NativeTableRow();
            for (var cell : List.of(
                    String.valueOf(problem.line()), problem.column(), problem.what(), problem.todo())) {
                var place = new NativeTableCell(cell);
                place.getElement().setAttribute("dir", "auto");
                row.add(place);
            }
            body.add(row);
        }
        table.add(new NativeTableHeader(headings("Row", "Column", "What is wrong", "What to do")), body);
        var link = new CsvLink(
                auditTrail,
                "problems",
                List.of("Row", "Column", "Cell", "What is wrong", "What to do"),
                () -> again.get().problems().stream()
                        .map(problem -> List.of(
                                String.valueOf(problem.line()),
                                problem.column(),
                                problem.cell(),
                                problem.what(),
                                problem.todo()))
                        .toList());
        var count = new Span(
                dry.problems().size() > SHOWN_PROBLEMS
                        ? "The first " + SHOWN_PROBLEMS + " of " + dry.problems().size() + " problems."
                        : dry.problems().size() == 1 ? "1 problem." : dry.problems().size() + " problems.");
        var head = new Div(count, link);
        head.addClassName("lq-pair-actions");
        var block = new Div(head, table);
        block.addClassName("lq-pair-scrolls");
        return block;
    }

    private static NativeTableRow headings(String... names) {
        var row = new NativeTableRow();
        for (var name : names) {
            var cell = new NativeTableHeaderCell(name);
            cell.getElement().setAttribute("scope", "col");
            row.add(cell);
        }
        return row;
    }

    private final ProgressBar bar = new ProgressBar();
    private final Span progress = new Span();

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
        progress.setText(one.seen() + " of " + rows(one.rows()) + ": " + counts(one));
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

    private static String counts(CsvImport one) {
        return one.entered() + " imported"
                + (one.known() == 0 ? "" : ", " + one.known() + " in already")
                + (one.refused() == 0 ? "" : ", " + one.refused() + " left out");
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
            show(imports.find(one.id()).orElseThrow());
        });
        on.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        return on;
    }
}
