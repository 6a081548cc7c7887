package limbqueue.letter;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.logging.Level;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.Parts.Passage;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.springframework.stereotype.Component;

/** Sets a letter on A4 pages as PDF, tagged for screen readers, with its font inside. */
@Component
class LetterPage {

    /** Covers Latin, Greek and Cyrillic; comes with PDFBox. */
    private static final String FONT = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

    /** The renderer's own default, so that nothing on the page, not even a page number, asks for a font that is not there. */
    private static final String FAMILY = "serif";

    private static final String STYLE = "/limbqueue/letter/letter.css";

    private static final String NUMBERED = """
            @page {
                @bottom-right {
                    content: 'Page ' counter(page) ' of ' counter(pages);
                    font-size: 8pt;
                    color: #42505c;
                }
            }
            """;

    private final String style;

    static {
        // Below this it tells how it works, a dozen lines a letter.
        XRLog.listRegisteredLoggers().forEach(name -> XRLog.setLevel(name, Level.WARNING));
    }

    LetterPage() {
        try (var css = resource(STYLE)) {
            style = new String(css.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException unreadable) {
            throw new UncheckedIOException("the style of the letters cannot be read: " + STYLE, unreadable);
        }
    }

    /** The letter as PDF. Pages are numbered if there are several. */
    byte[] print(Parts parts) {
        var once = set(parts, false);
        return pages(once) > 1 ? set(parts, true) : once;
    }

    private byte[] set(Parts parts, boolean numbered) {
        var out = new ByteArrayOutputStream();
        var builder = new PdfRendererBuilder();
        builder.usePdfUaAccessibility(true);
        builder.withProducer("LimbQueue");
        builder.useFont(() -> resource(FONT), FAMILY, 400, FontStyle.NORMAL, true);
        // A letter is made of its own words alone: whatever address were typed into it, none is fetched.
        builder.useUriResolver((base, address) -> null);
        builder.withHtmlContent(html(parts, numbered), null);
        builder.toStream(out);
        try {
            builder.run();
        } catch (IOException failed) {
            throw new UncheckedIOException("a letter could not be set as PDF", failed);
        }
        return out.toByteArray();
    }

    private static int pages(byte[] pdf) {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        } catch (IOException unreadable) {
            throw new UncheckedIOException("a letter just set as PDF cannot be read", unreadable);
        }
    }

    private String html(Parts parts, boolean numbered) {
        var head = parts.letterhead();
        return """
                <!DOCTYPE html>
                <html lang="%s">
                <head>
                <title>%s</title>
                <meta name="subject" content="%s"/>
                <meta name="author" content="%s"/>
                <style>%s%s</style>
                </head>
                <body>
                <div class="letterhead"><p class="practice">%s</p><p>%s</p><p>%s</p></div>
                <p class="sender">%s</p>
                <p class="addressee">%s</p>
                <p class="dated">%s</p>
                <h1>%s</h1>
                <p class="regarding">%s</p>
                <p>%s</p>
                %s
                <div class="together">%s<p>%s</p><p class="signatory">%s</p></div>
                </body>
                </html>
                """.formatted(
                escape(parts.language()),
                escape(parts.subject()),
                escape(String.join(". ", parts.regarding())),
                escape(head.name()),
                style,
                numbered ? NUMBERED : "",
                escape(head.name()),
                joined(head.lines(), ", "),
                joined(head.contact(), " &#160;·&#160; "),
                joined(sender(parts), " · "),
                joined(parts.addressee(), "<br/>"),
                escape(parts.dated()),
                escape(parts.subject()),
                joined(parts.regarding(), "<br/>"),
                escape(parts.salutation()),
                html(parts.body().subList(0, parts.body().size() - 1)),
                // The last passage stays with the signature, so that no page holds a signature alone.
                html(parts.body().subList(parts.body().size() - 1, parts.body().size())),
                escape(parts.farewell().getFirst()),
                joined(parts.farewell().subList(1, parts.farewell().size()), "<br/>"));
    }

    /** The small line above the address, for the window of the envelope. */
    private static List<String> sender(Parts parts) {
        var head = parts.letterhead();
        return Stream.concat(Stream.of(head.name()), head.lines().stream()).toList();
    }

    private static String html(List<Passage> passages) {
        return passages.stream().map(LetterPage::html).collect(Collectors.joining("\n"));
    }

    private static String html(Passage passage) {
        return switch (passage.kind()) {
            case PARAGRAPH -> "<p>" + escape(passage.text()) + "</p>";
            case CAUTION -> "<p class=\"caution\">" + escape(passage.text()) + "</p>";
            case QUOTED -> "<p class=\"quoted\">" + joined(passage.items(), "<br/>") + "</p>";
            case LIST ->
                "<p class=\"lead\">" + escape(passage.text()) + "</p><ul>"
                        + passage.items().stream()
                                .map(item -> "<li>" + escape(item) + "</li>")
                                .collect(Collectors.joining())
                        + "</ul>";
        };
    }

    private static String joined(List<String> lines, String between) {
        return lines.stream().map(LetterPage::escape).collect(Collectors.joining(between));
    }

    private static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }

    private static InputStream resource(String path) {
        return Objects.requireNonNull(LetterPage.class.getResourceAsStream(path), path + " is missing from the jar");
    }
}
