package limbqueue.rulebook;

import static limbqueue.print.PdfPages.escape;

import java.util.stream.Collectors;
import limbqueue.print.PdfPages;
import limbqueue.rulebook.RuleSheet.Chapter;
import limbqueue.rulebook.RuleSheet.Cited;
import limbqueue.rulebook.RuleSheet.Entry;
import limbqueue.rulebook.RuleSheet.Value;
import limbqueue.triage.TriageResult;

/** Sets a rule book on A4 pages, each with its id, its date and its number. */
final class RulePages {

    private static final String STYLE = PdfPages.style("/limbqueue/rulebook/rulebook.css");

    private RulePages() {}

    static byte[] print(RuleSheet sheet, String practice) {
        return PdfPages.set("""
                <!DOCTYPE html>
                <html lang="en-GB">
                <head>
                <title>Rule book</title>
                <meta name="subject" content="Rule book %1$s"/>
                <meta name="author" content="%2$s"/>
                <style>%3$s
                @page { @bottom-left { content: 'LimbQueue rule book %1$s, %4$s. A proposal: a licensed clinician decides.'; font-size: 7.5pt; color: #42505c; width: 80%%; } }
                </style>
                </head>
                <body>
                <h1>Rule book</h1>
                <p class="of">%2$s &#160;·&#160; version %1$s &#160;·&#160; %4$s</p>
                <p class="notice">%5$s</p>
                <p>The days of each tier and how long results hold are the practice's policy, %6$s, and not part of this book. How
                often a rule speaks is counted in the latest proposals of %7$d referrals.</p>
                <p>Confirmed: read in public text. Secondary: read in a copy or a summary. Memory: known to the trade, not seen.
                Common practice: no published source.</p>
                %8$s
                </body>
                </html>
                """.formatted(
                        escape(sheet.book()),
                        escape(practice),
                        STYLE,
                        escape(sheet.date()),
                        escape(TriageResult.NOTICE),
                        escape(sheet.policy()),
                        sheet.referrals(),
                        sheet.chapters().stream().map(RulePages::html).collect(Collectors.joining("\n"))));
    }

    private static String html(Chapter chapter) {
        return "<h2>" + escape(chapter.heading()) + "</h2>"
                + chapter.entries().stream().map(RulePages::html).collect(Collectors.joining("\n"));
    }

    private static String html(Entry entry) {
        return "<div class=\"rule\"><p class=\"says\">" + escape(entry.says()) + "</p><p class=\"id\">"
                + escape(entry.id()) + " &#160;·&#160; speaks in " + entry.speaksIn() + "</p>"
                + entry.cited().stream().map(RulePages::html).collect(Collectors.joining())
                + entry.numbers().stream().map(RulePages::html).collect(Collectors.joining())
                + "</div>";
    }

    private static String html(Cited cited) {
        return "<p class=\"cited\">" + escape(cited.source() + " - " + cited.locator()) + " (" + escape(cited.seen())
                + ")</p>";
    }

    private static String html(Value number) {
        return "<p class=\"number\">"
                + escape(number.name() + " " + number.value() + ", " + number.inForce() + "; " + number.source() + ", "
                        + number.locator() + " (" + number.seen() + ")")
                + "</p>";
    }
}
