package limbqueue.csv.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.upload.Upload;
import java.util.List;
import limbqueue.csv.CsvFile;
import limbqueue.csv.CsvImport;
import limbqueue.csv.CsvImports;
import limbqueue.csv.RefusedFileException;

/** Where a table is given, and the latest ones. */
final class ChooseFile {

    private final CsvImports imports;

    ChooseFile(CsvImports imports) {
        this.imports = imports;
    }

    /** In their order. */
    List<Component> parts() {
        var how = new Paragraph(
                "Each row of a CSV file becomes a referral to complete. Commas, semicolons or tabs, any alphabet;"
                        + " the first line names the columns. You see what would happen before anything does. At most "
                        + CsvFile.LARGEST / (1024 * 1024) + " MB.");
        how.addClassName("lq-notice");
        var refused = new Div();
        refused.getElement().setAttribute("role", "alert");
        var upload = new Upload();
        upload.setUploadHandler(new ArrivingFile((name, bytes) -> {
            try {
                var loaded = imports.load(name, bytes);
                UI.getCurrent().navigate("intake/csv/" + loaded.id());
            } catch (RefusedFileException no) {
                refuse(refused, no.words());
                upload.clearFileList();
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
        return List.of(how, refused, upload, latest());
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
            case LOADED -> ImportWords.rows(one.rows()) + ", not imported yet";
            case RUNNING ->
                imports.isRunning(one.id())
                        ? "running, " + one.seen() + " of " + ImportWords.rows(one.rows())
                        : "broken off after " + one.seen() + " of " + ImportWords.rows(one.rows());
            case CANCELLED -> "stopped after " + one.seen() + " of " + ImportWords.rows(one.rows());
            case DONE -> ImportWords.rows(one.rows()) + ", " + one.entered() + " imported";
        };
    }
}
