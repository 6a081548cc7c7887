package limbqueue.print;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.multipdf.PDFMergerUtility;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;

/** Several files of pages as one, to print them in one go. */
public final class JoinedPdf {

    private JoinedPdf() {}

    /**
     * The pages of all, in order. Each file begins on a new sheet where both sides are printed on: after an odd number of
     * pages comes an empty one.
     *
     * @throws UncheckedIOException if one of them is no PDF
     */
    public static byte[] of(List<byte[]> files) {
        try (var whole = new PDDocument()) {
            var merger = new PDFMergerUtility();
            for (var file : files) {
                try (var document = Loader.loadPDF(file)) {
                    merger.appendDocument(whole, document);
                    if (document.getNumberOfPages() % 2 == 1) {
                        whole.addPage(new PDPage(document.getPage(0).getMediaBox()));
                    }
                }
            }
            var out = new ByteArrayOutputStream();
            whole.save(out);
            return out.toByteArray();
        } catch (IOException unreadable) {
            throw new UncheckedIOException("pages could not be joined", unreadable);
        }
    }
}
