package limbqueue.letter;

import java.util.List;
import java.util.stream.Collectors;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.print.FoldMarks;
import limbqueue.print.PdfPages;
import org.springframework.stereotype.Component;

/** Sets a letter as PDF for the window of the practice's envelopes, tagged for screen readers, with its font inside. */
@Component
public class LetterPage {

    private static final String STYLE = "/limbqueue/letter/letter.css";

    private final String style = PdfPages.style(STYLE);

    /** The letter as PDF. Pages are numbered if there are several. */
    public byte[] print(Parts parts) {
        var once = PdfPages.set(html(parts, false));
        return FoldMarks.on(
                PdfPages.count(once) > 1 ? PdfPages.set(html(parts, true)) : once,
                parts.letterhead().window().sheet().folds());
    }

    private String html(Parts parts, boolean numbered) {
        var head = parts.letterhead();
        var first = new FirstPage(head);
        return """
                <!DOCTYPE html>
                <html lang="%s">
                <head>
                <title>%s</title>
                <meta name="subject" content="%s"/>
                <meta name="author" content="%s"/>
                <style>%s%s%s</style>
                </head>
                <body>
                <div class="head"><div class="letterhead"><p class="practice">%s</p><p>%s</p><p>%s</p></div></div>
                %s
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
                PdfPages.escape(parts.language()),
                PdfPages.escape(parts.subject()),
                PdfPages.escape(String.join(". ", parts.regarding())),
                PdfPages.escape(head.name()),
                style,
                first.style(),
                numbered ? numbered(parts.language()) : "",
                PdfPages.escape(head.name()),
                joined(head.lines(), ", "),
                joined(head.contact(), " &#160;·&#160; "),
                sender(first.sender()),
                joined(parts.addressee(), "<br/>"),
                PdfPages.escape(parts.dated()),
                PdfPages.escape(parts.subject()),
                joined(parts.regarding(), "<br/>"),
                PdfPages.escape(parts.salutation()),
                html(parts.body().subList(0, parts.body().size() - 1)),
                // The last passage stays with the signature, so that no page holds a signature alone.
                html(parts.body().subList(parts.body().size() - 1, parts.body().size())),
                PdfPages.escape(parts.farewell().getFirst()),
                joined(parts.farewell().subList(1, parts.farewell().size()), "<br/>"));
    }

    private static String numbered(String language) {
        return """
                @page {
                    @bottom-right {
                        content: '%s';
                        font-size: 8pt;
                        color: #42505c;
                    }
                }
                """.formatted(Vocabulary.of(language).say("page", "' counter(page) '", "' counter(pages) '"));
    }

    private static String sender(List<String> lines) {
        return lines.isEmpty() ? "" : "<p class=\"sender\">" + joined(lines, "<br/>") + "</p>";
    }

    private static String html(List<Passage> passages) {
        return passages.stream().map(LetterPage::html).collect(Collectors.joining("\n"));
    }

    private static String html(Passage passage) {
        return switch (passage.kind()) {
            case PARAGRAPH -> "<p>" + PdfPages.escape(passage.text()) + "</p>";
            case CAUTION -> "<p class=\"caution\">" + PdfPages.escape(passage.text()) + "</p>";
            case QUOTED -> "<p class=\"quoted\">" + joined(passage.items(), "<br/>") + "</p>";
            case LIST ->
                "<p class=\"lead\">" + PdfPages.escape(passage.text()) + "</p><ul>"
                        + passage.items().stream()
                                .map(item -> "<li>" + PdfPages.escape(item) + "</li>")
                                .collect(Collectors.joining())
                        + "</ul>";
        };
    }

    private static String joined(List<String> lines, String between) {
        return lines.stream().map(PdfPages::escape).collect(Collectors.joining(between));
    }
}
