package limbqueue.print;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.PDPageContentStream.AppendMode;

/** Short lines at the edge of the first page that show where to fold it. Screen readers pass them over. */
public final class FoldMarks {

    private static final COSName ARTIFACT = COSName.getPDFName("Artifact");
    private static final float POINTS_OF_A_MILLIMETRE = 72 / 25.4f;

    /** From 5 to 10 mm, which printers still reach: lines of 5 to 15 mm are usual (sprache-kompakt.de, Faltmarken). */
    private static final float FROM = 5 * POINTS_OF_A_MILLIMETRE;

    private static final float TO = 10 * POINTS_OF_A_MILLIMETRE;
    private static final float LINE = 0.4f;
    private static final float GREY = 0.35f;

    private FoldMarks() {}

    /**
     * The same pages with marks.
     *
     * @param folds millimetres below the upper edge
     */
    public static byte[] on(byte[] pdf, List<Double> folds) {
        try (var document = Loader.loadPDF(pdf)) {
            var page = document.getPage(0);
            var height = page.getMediaBox().getHeight();
            try (var content = new PDPageContentStream(document, page, AppendMode.APPEND, true, true)) {
                content.beginMarkedContent(ARTIFACT);
                content.setLineWidth(LINE);
                content.setStrokingColor(GREY);
                for (var fold : folds) {
                    var y = height - fold.floatValue() * POINTS_OF_A_MILLIMETRE;
                    content.moveTo(FROM, y);
                    content.lineTo(TO, y);
                    content.stroke();
                }
                content.endMarkedContent();
            }
            var out = new ByteArrayOutputStream();
            document.save(out);
            return out.toByteArray();
        } catch (IOException unreadable) {
            throw new UncheckedIOException("pages just set as PDF cannot be marked", unreadable);
        }
    }
}
