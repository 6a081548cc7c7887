package limbqueue.testbed;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;

/** Where words stand on a page of a finished PDF. Millimetres from the upper left corner. */
public final class PrintedPage {

    private static final double POINT = 25.4 / 72;

    /** What is farther apart than this is not one line. */
    private static final double GAP = 6;

    private PrintedPage() {}

    /**
     * Words that stand on one line.
     *
     * @param top of its capitals
     * @param bottom of its descenders
     */
    public record Line(String text, double left, double top, double right, double bottom) {}

    /** @param number of the page, from 1 */
    public static List<Line> lines(byte[] pdf, int number) {
        try (var document = Loader.loadPDF(pdf)) {
            return lines(document, number);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    /** @param number of the page, from 1 */
    public static List<Line> lines(PDDocument document, int number) throws IOException {
        var glyphs = new ArrayList<Line>();
        var stripper = new PDFTextStripper() {
            @Override
            protected void processTextPosition(TextPosition text) {
                glyphs.add(glyph(text));
            }
        };
        stripper.setStartPage(number);
        stripper.setEndPage(number);
        stripper.getText(document);
        return joined(glyphs);
    }

    private static Line glyph(TextPosition text) {
        var size = text.getFontSizeInPt();
        var font = text.getFont().getFontDescriptor();
        var baseline = text.getYDirAdj();
        return new Line(
                text.getUnicode(),
                text.getXDirAdj() * POINT,
                (baseline - font.getCapHeight() / 1000 * size) * POINT,
                (text.getXDirAdj() + text.getWidthDirAdj()) * POINT,
                (baseline - font.getDescent() / 1000 * size) * POINT);
    }

    private static List<Line> joined(List<Line> glyphs) {
        var lines = new ArrayList<Line>();
        glyphs.stream()
                .sorted(Comparator.comparingLong((Line glyph) -> Math.round(glyph.bottom() * 10))
                        .thenComparingDouble(Line::left))
                .forEach(glyph -> {
                    var last = lines.isEmpty() ? null : lines.getLast();
                    if (last != null
                            && Math.abs(last.bottom() - glyph.bottom()) < 0.1
                            && Math.abs(glyph.left() - last.right()) < GAP) {
                        lines.set(
                                lines.size() - 1,
                                new Line(
                                        last.text() + glyph.text(),
                                        last.left(),
                                        Math.min(last.top(), glyph.top()),
                                        glyph.right(),
                                        last.bottom()));
                    } else {
                        lines.add(glyph);
                    }
                });
        return lines.stream()
                .map(line -> new Line(line.text().strip(), line.left(), line.top(), line.right(), line.bottom()))
                .toList();
    }
}
