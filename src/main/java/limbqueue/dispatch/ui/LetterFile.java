package limbqueue.dispatch.ui;

import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import java.io.ByteArrayInputStream;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;

/** The printed letter, as the browser opens it. */
final class LetterFile {

    private LetterFile() {}

    static DownloadHandler of(Letter letter, Letters letters) {
        return DownloadHandler.fromInputStream(_ -> {
                    var bytes = letters.pdf(letter.id());
                    return new DownloadResponse(
                            new ByteArrayInputStream(bytes), name(letter), "application/pdf", bytes.length);
                })
                .inline();
    }

    private static String name(Letter letter) {
        return letter.reference().replaceAll("[^A-Za-z0-9-]", "-") + "-"
                + letter.kind().fileName() + ".pdf";
    }
}
