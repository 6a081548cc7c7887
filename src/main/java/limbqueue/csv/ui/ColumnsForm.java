package limbqueue.csv.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.csv.CsvFile;
import limbqueue.csv.CsvImport;
import limbqueue.csv.CsvImports;
import limbqueue.csv.DateOrder;
import limbqueue.csv.Mapping;
import limbqueue.document.FormatField;

/** What each column of a table is, and what would happen if it were imported so. */
final class ColumnsForm {

    private static final int EXAMPLES = 3;
    private static final int LONGEST_EXAMPLE = 40;
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM yyyy", Locale.ENGLISH);

    private final CsvImports imports;
    private final AuditTrail auditTrail;
    private final CsvImport one;
    private final CsvFile file;
    private final Runnable started;
    private final Section report = new Section();
    private final Map<String, ComboBox<FormatField>> fields = new LinkedHashMap<>();
    private final RadioButtonGroup<DateOrder> order = new RadioButtonGroup<>();

    /** @param started is done once the import runs */
    ColumnsForm(CsvImports imports, AuditTrail auditTrail, CsvImport one, CsvFile file, Runnable started) {
        this.imports = imports;
        this.auditTrail = auditTrail;
        this.one = one;
        this.file = file;
        this.started = started;
    }

    /** In their order. */
    List<Component> parts() {
        var mapping = imports.mapping(one.id());
        report.addClassName("lq-csv-report");
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-csv-columns");
        var body = new NativeTableBody();
        for (var i = 0; i < file.columns().size(); i++) {
            body.add(column(
                    i, Optional.ofNullable(mapping.fields().get(file.columns().get(i)))));
        }
        table.add(
                new NativeTableHeader(DryRunReport.headings("Column", "Examples", "Is this field of the referral")),
                body);
        order.setLabel("Dates are written as");
        order.setItems(DateOrder.values());
        order.setItemLabelGenerator(choice -> choice.words() + example(mapping, choice));
        var told = imports.dateOrder(one.id(), mapping);
        // A birth date read the wrong way round is another person: where the dates do not tell, somebody must.
        order.setValue(told.orElse(null));
        order.addValueChangeListener(_ -> report.removeAll());
        var doubt = new Paragraph(
                told.isPresent()
                        ? ""
                        : "The dates in this table can be read in two ways. Ask where it came from, and say which.");
        doubt.addClassName("lq-strong");
        doubt.setVisible(told.isEmpty());
        var attempt = new Button("Try it", _ -> tryOut());
        attempt.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        var card = new Div(table);
        card.addClassName("lq-pair-scrolls");
        return List.of(card, order, doubt, attempt, report);
    }

    private NativeTableRow column(int number, Optional<String> path) {
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
                .map(ColumnsForm::shortened)
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
    private String example(Mapping mapping, DateOrder choice) {
        for (var i = 0; i < file.columns().size(); i++) {
            var field = Optional.ofNullable(mapping.fields().get(file.columns().get(i)))
                    .flatMap(FormatField::at);
            if (field.isPresent() && field.get().kind() == FormatField.Kind.DATE) {
                for (var row : file.rows()) {
                    var cell = row.wrong().isEmpty() ? row.cells().get(i).strip() : "";
                    if (!cell.isEmpty()) {
                        return choice.read(cell)
                                .map(DATE::format)
                                .map(date -> ": " + cell + " is " + date)
                                .orElse(": " + shortened(cell) + " is no date");
                    }
                }
            }
        }
        return "";
    }

    private Mapping chosen(DateOrder dates) {
        var chosen = new LinkedHashMap<String, String>();
        fields.forEach((column, field) -> {
            if (field.getValue() != null) {
                chosen.put(column, field.getValue().path());
            }
        });
        return new Mapping(chosen, dates);
    }

    private void tryOut() {
        report.removeAll();
        var dates = order.getValue();
        if (dates == null) {
            var words = new Paragraph("Say first how dates are written in this table.");
            words.addClassName("lq-form-error");
            words.getElement().setAttribute("role", "alert");
            report.add(words);
            return;
        }
        var mapping = chosen(dates);
        var twice = mapping.fields().values().stream()
                .filter(path ->
                        mapping.fields().values().stream().filter(path::equals).count() > 1)
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
        var sum = new Paragraph(DryRunReport.sum(dry));
        sum.addClassName("lq-strong");
        sum.getElement().setAttribute("role", "status");
        report.add(new H2("What would happen"), sum);
        if (!dry.problems().isEmpty()) {
            report.add(new DryRunReport(auditTrail).problems(dry, () -> imports.dryRun(one.id(), mapping)));
        }
        if (dry.fresh() > 0) {
            var start = new Button(
                    dry.fresh() == 1 ? "Import 1 row" : String.format(Locale.ENGLISH, "Import %,d rows", dry.fresh()),
                    _ -> {
                        imports.start(one.id(), mapping);
                        started.run();
                    });
            start.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
            report.add(start);
        }
    }
}
