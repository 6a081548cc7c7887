package limbqueue.shell;

import java.util.List;
import java.util.stream.Collectors;

/** A table as text with commas, as a spreadsheet opens it. */
final class CsvText {

    /** With this mark in front, spreadsheets read UTF-8 and not the alphabet of the machine. */
    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private CsvText() {}

    static String of(List<String> header, List<List<String>> rows) {
        var text = new StringBuilder().append(BYTE_ORDER_MARK);
        line(text, header);
        rows.forEach(row -> line(text, row));
        return text.toString();
    }

    private static void line(StringBuilder text, List<String> cells) {
        text.append(cells.stream().map(CsvText::cell).collect(Collectors.joining(",")))
                .append("\r\n");
    }

    /**
     * One cell in quotes where it needs them. Words that a spreadsheet would take for a formula and run get an apostrophe in
     * front; a plain number keeps its sign.
     */
    static String cell(String words) {
        var harmless = looksLikeFormula(words) ? "'" + words : words;
        return harmless.chars().anyMatch(c -> c == ',' || c == ';' || c == '"' || c == '\n' || c == '\r' || c == '\t')
                ? '"' + harmless.replace("\"", "\"\"") + '"'
                : harmless;
    }

    private static boolean looksLikeFormula(String words) {
        var seen = words.stripLeading();
        // A tab or a line break in front hides the sign from the eye and from some programs only.
        var first = seen.isEmpty() ? ' ' : seen.charAt(0);
        return "=+-@\uFF1D\uFF0B\uFF0D\uFF20".indexOf(first) >= 0 && !seen.matches("[+-]?\\d+([.,]\\d+)?");
    }
}
