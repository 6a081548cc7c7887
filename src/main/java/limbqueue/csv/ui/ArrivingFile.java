package limbqueue.csv.ui;

import com.vaadin.flow.server.streams.UploadEvent;
import com.vaadin.flow.server.streams.UploadHandler;
import java.io.IOException;
import limbqueue.csv.CsvFile;

/**
 * Reads what arrives up to the largest file, whatever a browser was told to hold back.
 *
 * @param taking is given its name and its bytes, within the page
 */
record ArrivingFile(Taking taking) implements UploadHandler {

    interface Taking {
        void take(String name, byte[] bytes);
    }

    @Override
    public void handleUploadRequest(UploadEvent event) throws IOException {
        var name = event.getFileName();
        byte[] bytes;
        try (var content = event.getInputStream()) {
            bytes = content.readNBytes(CsvFile.LARGEST + 1);
        }
        var _ = event.getUI().access(() -> taking.take(name, bytes));
    }

    @Override
    public long getFileSizeMax() {
        return CsvFile.LARGEST + 1L;
    }

    @Override
    public long getRequestSizeMax() {
        return CsvFile.LARGEST + 65_536L;
    }
}
