package limbqueue.csv;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * A file with a header and rows, however it was written.
 *
 * @param alphabet how its characters were told, in words
 * @param separator what stands between cells
 * @param columns the names in the header; one that comes twice has a number behind it
 */
public record CsvFile(String alphabet, char separator, List<String> columns, List<Row> rows) {

    /** Files beyond this are refused, in bytes. */
    public static final int LARGEST = 20 * 1024 * 1024;

    /** Cells beyond this are refused, in characters: the longest letter that a referral keeps. */
    static final int LONGEST_CELL = 200_000;

    private static final int MOST_COLUMNS = 500;
    private static final Charset WINDOWS = Charset.forName("windows-1252");

    /**
     * A row of the file.
     *
     * @param line its number as a spreadsheet counts, the header being 1
     * @param cells as many as there are columns; none if the row cannot be read
     * @param wrong why the row cannot be read
     */
    public record Row(int line, List<String> cells, Optional<Wrong> wrong) {}

    /**
     * What is wrong with a row as a whole.
     *
     * @param what in words
     * @param todo what to do about it
     */
    public record Wrong(String what, String todo) {}

    private record Text(String alphabet, String text) {}

    public CsvFile {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }

    /**
     * Reads a file, telling its alphabet and separator from its bytes.
     *
     * @throws RefusedFileException if it is no such file at all
     */
    public static CsvFile read(byte[] bytes) throws RefusedFileException {
        if (bytes.length == 0) {
            throw new RefusedFileException("The file is empty. Export it again, with its header.");
        }
        if (bytes.length > LARGEST) {
            throw new RefusedFileException("The file has " + bytes.length / (1024 * 1024) + " MB, and at most "
                    + LARGEST / (1024 * 1024) + " MB are taken. Divide it into several files, each with the header.");
        }
        refuseOtherFormats(bytes);
        var text = decoded(bytes);
        var separator = separator(text.text());
        return read(text, separator);
    }

    private static void refuseOtherFormats(byte[] bytes) throws RefusedFileException {
        if (startsWith(bytes, 'P', 'K', 3, 4) || startsWith(bytes, 0xD0, 0xCF, 0x11, 0xE0)) {
            throw new RefusedFileException(
                    "This is a file of a spreadsheet program, not CSV. Open it there and save it as CSV.");
        }
        if (startsWith(bytes, '%', 'P', 'D', 'F')) {
            throw new RefusedFileException("This is a PDF, not CSV. Ask for the table itself, saved as CSV.");
        }
    }

    private static boolean startsWith(byte[] bytes, int... beginning) {
        if (bytes.length < beginning.length) {
            return false;
        }
        for (var i = 0; i < beginning.length; i++) {
            if ((bytes[i] & 0xFF) != beginning[i]) {
                return false;
            }
        }
        return true;
    }

    private static Text decoded(byte[] bytes) {
        if (startsWith(bytes, 0xEF, 0xBB, 0xBF)) {
            return new Text("UTF-8", new String(bytes, 3, bytes.length - 3, StandardCharsets.UTF_8));
        }
        if (startsWith(bytes, 0xFF, 0xFE)) {
            return new Text("UTF-16", new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16LE));
        }
        if (startsWith(bytes, 0xFE, 0xFF)) {
            return new Text("UTF-16", new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16BE));
        }
        if (everySecondIsZero(bytes, 1)) {
            return new Text("UTF-16", new String(bytes, StandardCharsets.UTF_16LE));
        }
        if (everySecondIsZero(bytes, 0)) {
            return new Text("UTF-16", new String(bytes, StandardCharsets.UTF_16BE));
        }
        try {
            var text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return new Text("UTF-8", text);
        } catch (CharacterCodingException notUtf8) {
            return new Text("Windows-1252 (Latin-1)", new String(bytes, WINDOWS));
        }
    }

    /** Text in Latin letters in 16 bits has a zero beside nearly every letter. */
    private static boolean everySecondIsZero(byte[] bytes, int first) {
        var looked = Math.min(bytes.length, 1000);
        var zeros = 0;
        for (var i = first; i < looked; i += 2) {
            zeros += bytes[i] == 0 ? 1 : 0;
        }
        return looked >= 8 && zeros > looked / 2 * 0.8;
    }

    /** What stands most often between cells in the header, quoted text left out. */
    private static char separator(String text) {
        var counts = new HashMap<Character, Integer>(Map.of(',', 0, ';', 0, '\t', 0));
        var quoted = false;
        for (var i = 0; i < text.length(); i++) {
            var c = text.charAt(i);
            if (c == '"') {
                quoted = !quoted;
            } else if (!quoted && (c == '\n' || c == '\r') && counts.values().stream().anyMatch(n -> n > 0)) {
                break;
            } else if (!quoted && counts.containsKey(c)) {
                counts.merge(c, 1, Integer::sum);
            }
        }
        return counts.entrySet().stream()
                .max(Map.Entry.<Character, Integer>comparingByValue()
                        .thenComparing(entry -> ",;\t".indexOf(entry.getKey()) * -1))
                .orElseThrow()
                .getKey();
    }

    private static CsvFile read(Text text, char separator) throws RefusedFileException {
        var format = CSVFormat.RFC4180
                .builder()
                .setDelimiter(separator)
                .setIgnoreEmptyLines(true)
                .setIgnoreSurroundingSpaces(true)
                .setTrailingData(true)
                .setLenientEof(true)
                .get();
        var columns = new ArrayList<String>();
        var rows = new ArrayList<Row>();
        var line = 0;
        try (var parser = format.parse(new StringReader(text.text()))) {
            var names = List.<String>of();
            for (var record : parser) {
                line++;
                if (columns.isEmpty()) {
                    names = cells(record);
                    columns.addAll(columns(names));
                } else {
                    rows.add(row(record, names, line));
                }
            }
        } catch (IOException | UncheckedIOException | IllegalStateException broken) {
            rows.add(new Row(
                    Math.max(2, line + 1),
                    List.of(),
                    Optional.of(new Wrong(
                            "From here on the file cannot be read: a quotation mark is out of place.",
                            "Put whole cells in quotation marks, and double a quotation mark within."))));
        }
        if (columns.isEmpty()) {
            throw new RefusedFileException("The file has no header. Put the names of the columns into its first line.");
        }
        return new CsvFile(text.alphabet(), separator, columns, rows);
    }

    private static List<String> columns(List<String> names) throws RefusedFileException {
        if (names.size() > MOST_COLUMNS) {
            throw new RefusedFileException("The first line has " + names.size() + " columns, and at most " + MOST_COLUMNS
                    + " are taken. Is this a table with a header?");
        }
        var columns = new ArrayList<String>();
        var times = new HashMap<String, Integer>();
        for (var i = 0; i < names.size(); i++) {
            var name = names.get(i).isBlank() ? "Column " + (i + 1) : names.get(i).replace("\u0000", "").strip();
            var time = times.merge(name, 1, Integer::sum);
            columns.add(time == 1 ? name : name + " (" + time + ")");
        }
        return columns;
    }

    private static Row row(CSVRecord record, List<String> names, int line) {
        var cells = cells(record);
        if (cells.equals(names)) {
            return new Row(
                    line,
                    List.of(),
                    Optional.of(new Wrong("The header once more.", "Nothing: the line is passed over.")));
        }
        if (cells.size() != names.size()) {
            return new Row(
                    line,
                    List.of(),
                    Optional.of(new Wrong(
                            "The row has " + cells.size() + " cells, the header " + names.size() + ".",
                            "A separator within a cell needs quotation marks around the cell; a missing one must be put in.")));
        }
        for (var i = 0; i < cells.size(); i++) {
            if (cells.get(i).length() > LONGEST_CELL) {
                return new Row(
                        line,
                        List.of(),
                        Optional.of(new Wrong(
                                "The cell under " + names.get(i) + " has " + cells.get(i).length()
                                        + " characters, and at most " + LONGEST_CELL + " are kept.",
                                "Shorten it, or look for a quotation mark that is never closed.")));
            }
            if (cells.get(i).indexOf('\u0000') >= 0) {
                return new Row(
                        line,
                        List.of(),
                        Optional.of(new Wrong(
                                "The cell under " + names.get(i) + " has characters that are no text (NUL).",
                                "The file is damaged there. Export it again.")));
            }
        }
        return new Row(line, cells, Optional.empty());
    }

    private static List<String> cells(CSVRecord record) {
        var cells = new ArrayList<String>(record.size());
        record.forEach(cells::add);
        return cells;
    }

    /** The separator in a word. */
    public String separatorWord() {
        return switch (separator) {
            case ';' -> "semicolons";
            case '\t' -> "tabs";
            default -> "commas";
        };
    }
}
