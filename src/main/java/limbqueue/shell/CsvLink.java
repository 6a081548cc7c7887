package limbqueue.shell;

import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Supplier;
import limbqueue.access.AuditTrail;

/**
 * A link that hands out the list it stands at, for a spreadsheet. The rows are read when it is followed, from a service that
 * asks for the role; who took which list, and how many lines of it, is kept in the audit trail.
 */
public final class CsvLink extends Anchor {

    /**
     * @param list what the list is called, in lower case, as {@code referrals}; also the name of the file
     * @param rows one list of cells a row, as many as {@code header} has
     */
    public CsvLink(AuditTrail auditTrail, String list, List<String> header, Supplier<List<List<String>>> rows) {
        super(
                DownloadHandler.fromInputStream(_ -> {
                    var all = rows.get();
                    auditTrail.record("took as CSV", list + ", " + (all.size() == 1 ? "1 row" : all.size() + " rows"));
                    var bytes = CsvText.of(header, all).getBytes(StandardCharsets.UTF_8);
                    return new DownloadResponse(
                            new ByteArrayInputStream(bytes),
                            list.replace(' ', '-') + ".csv",
                            "text/csv; charset=utf-8",
                            bytes.length);
                }),
                "CSV");
        addClassName("lq-csv");
        setTitle("Take this list as a table for a spreadsheet");
        getElement().setAttribute("aria-label", "Take the list of " + list + " as CSV");
    }
}
