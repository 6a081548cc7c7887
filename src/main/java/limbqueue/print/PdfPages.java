package limbqueue.print;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.Objects;
import java.util.logging.Level;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;

/** Sets XHTML as PDF, tagged for screen readers, with its font inside. */
public final class PdfPages {

    static final String PRODUCER = "LimbQueue";

    /** The renderer's own default, so that nothing on the page, not even a page number, asks for a font that is not there. */
    private static final String FAMILY = "serif";

    static {
        // Below this it tells how it works, a dozen lines a page.
        XRLog.listRegisteredLoggers().forEach(name -> XRLog.setLevel(name, Level.WARNING));
    }

    private PdfPages() {}

    /**
     * The pages as PDF.
     *
     * @param html XHTML with its style in it, and pictures as {@code svg} elements whose words are in the family
     *     {@code serif}; whatever it refers to elsewhere is left out
     */
    public static byte[] set(String html) {
        var out = new ByteArrayOutputStream();
        var builder = new PdfRendererBuilder();
        builder.usePdfUaAccessibility(true);
        builder.withProducer(PRODUCER);
        builder.useFont(
                Typeface::open,
                FAMILY,
                400,
                FontStyle.NORMAL,
                true,
                EnumSet.of(FSFontUseCase.DOCUMENT, FSFontUseCase.SVG));
        builder.useUnicodeLineBreaker(new LineEnds());
        builder.useSVGDrawer(new BatikSVGDrawer());
        // A page is made of its own words alone: whatever address were typed into it, none is fetched.
        builder.useUriResolver((base, address) -> null);
        builder.withHtmlContent(html, null);
        builder.toStream(out);
        try {
            builder.run();
        } catch (IOException failed) {
            throw new UncheckedIOException("pages could not be set as PDF", failed);
        }
        return out.toByteArray();
    }

    /** The number of pages of what {@link #set} made. */
    public static int count(byte[] pdf) {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        } catch (IOException unreadable) {
            throw new UncheckedIOException("pages just set as PDF cannot be read", unreadable);
        }
    }

    /** {@code text} as XHTML that says the same and is never taken for markup. */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }

    /**
     * The style in this file of the class path.
     *
     * @throws NullPointerException if it is missing from the jar
     */
    public static String style(String path) {
        try (var css = resource(path)) {
            return new String(css.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException unreadable) {
            throw new UncheckedIOException("a style cannot be read: " + path, unreadable);
        }
    }

    private static InputStream resource(String path) {
        return Objects.requireNonNull(PdfPages.class.getResourceAsStream(path), path + " is missing from the jar");
    }
}
