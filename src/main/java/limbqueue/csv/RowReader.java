package limbqueue.csv;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.document.FormatField;
import limbqueue.search.Folded;

/**
 * Makes a document of a row. What cannot be read is kept as it was written, for somebody to mend in the form, and told by row
 * and column.
 */
final class RowReader {

    private static final Set<String> YES = Set.of("yes", "y", "true", "1", "x", "ja", "oui", "si");
    private static final Set<String> NO = Set.of("no", "n", "false", "0", "nein", "non");
    private static final Set<String> UNKNOWN = Set.of("unknown", "not known", "n k", "nk", "u", "na", "n a", "null");
    private static final Map<String, String> SHORT = Map.of("m", "male", "f", "female", "o", "other", "w", "female");
    private static final Pattern NUMBER = Pattern.compile("([+-]?\\d{1,12})(?:[.,](\\d{1,6}))?");
    private static final Pattern CAMEL = Pattern.compile("(?<=[a-z])(?=[A-Z0-9])");
    private static final int LONGEST_SHOWN = 60;

    private final List<String> columns;
    private final Mapping mapping;
    private final LocalDate today;
    private final Map<String, String> columnOf = new HashMap<>();

    /** @param problems what is wrong in it; the document has everything else */
    record ReadRow(Draft document, List<CellProblem> problems) {}

    RowReader(CsvFile file, Mapping mapping, LocalDate today) {
        this.columns = file.columns();
        this.mapping = mapping;
        this.today = today;
        mapping.fields().forEach((column, path) -> columnOf.put(path, column));
    }

    /** The document of a row that can be read. */
    ReadRow read(CsvFile.Row row) {
        var draft = Draft.empty();
        var problems = new ArrayList<CellProblem>();
        var cellOf = new HashMap<String, String>();
        for (var i = 0; i < columns.size(); i++) {
            var path = mapping.fields().get(columns.get(i));
            var cell = row.cells().get(i).strip();
            var field = path == null ? Optional.<FormatField>empty() : FormatField.at(path);
            if (field.isEmpty() || cell.isEmpty() || path == null) {
                continue;
            }
            cellOf.put(columns.get(i), cell);
            if (field.get().kind() != FormatField.Kind.TEXT
                    && (UNKNOWN.contains(Folded.text(cell)) && !field.get().answers().contains(cell)
                            || Folded.text(cell).isEmpty())) {
                continue;
            }
            var value = value(field.get(), cell);
            draft.set(path, value.isPresent() ? value.get() : cell);
            if (value.isEmpty()) {
                problems.add(problem(row, columns.get(i), cell, field.get()));
            }
        }
        var told = new ArrayList<>(problems.stream().map(CellProblem::column).toList());
        for (var problem : draft.read(today).problems()) {
            var column = columnOf.getOrDefault(problem.path(), "");
            if (!told.contains(column) || column.isEmpty()) {
                problems.add(new CellProblem(
                        row.line(),
                        column,
                        shortened(cellOf.getOrDefault(column, "")),
                        problem.text(),
                        "It is kept as written. Mend it here and load the file again, or mend it in the form."));
            }
        }
        return new ReadRow(draft, problems);
    }

    private Optional<Object> value(FormatField field, String cell) {
        return switch (field.kind()) {
            case TEXT -> Optional.of(cell);
            case DATE -> mapping.dateOrder().read(cell).map(LocalDate::toString);
            case NUMBER -> number(cell).map(number -> number);
            case WHOLE_NUMBER ->
                number(cell).filter(number -> number.stripTrailingZeros().scale() <= 0).map(BigDecimal::toBigInteger);
            case YES_NO -> {
                var word = Folded.text(cell);
                yield YES.contains(word) ? Optional.of(true) : NO.contains(word) ? Optional.of(false) : Optional.empty();
            }
            case CHOICE -> choice(field, cell).map(answer -> answer);
        };
    }

    private static Optional<BigDecimal> number(String cell) {
        var number = NUMBER.matcher(cell);
        return number.matches()
                ? Optional.of(new BigDecimal(number.group(1) + (number.group(2) == null ? "" : "." + number.group(2))))
                : Optional.empty();
    }

    /** An answer in the words of the format, with or without capitals and spaces. */
    private static Optional<String> choice(FormatField field, String cell) {
        var word = Folded.text(cell);
        return field.answers().stream()
                .filter(answer -> Folded.text(answer).equals(word.replace(" ", ""))
                        || Folded.text(CAMEL.matcher(answer).replaceAll(" ")).equals(word)
                        || answer.equals(SHORT.get(word)) && field.path().endsWith("sex"))
                .findFirst();
    }

    private CellProblem problem(CsvFile.Row row, String column, String cell, FormatField field) {
        var what = switch (field.kind()) {
            case DATE ->
                "is no date in the order " + mapping.dateOrder().words() + ", with a year of four digits";
            case NUMBER -> "is no number" + field.unit().map(unit -> " of " + unit).orElse("");
            case WHOLE_NUMBER -> "is no whole number" + field.unit().map(unit -> " of " + unit).orElse("");
            case YES_NO -> "is neither yes nor no";
            case CHOICE -> "is none of " + String.join(", ", field.answers());
            case TEXT -> "cannot be read";
        };
        return new CellProblem(
                row.line(),
                column,
                shortened(cell),
                "“" + shortened(cell) + "” " + what + ".",
                "It is kept as written. Mend it here and load the file again, or mend it in the form.");
    }

    private static String shortened(String cell) {
        return cell.codePointCount(0, cell.length()) <= LONGEST_SHOWN
                ? cell
                : cell.substring(0, cell.offsetByCodePoints(0, LONGEST_SHOWN)) + " …";
    }

    /** Names a row by its cells under their columns, in hexadecimal digits: equal rows have equal names. */
    String digest(CsvFile.Row row) {
        var text = new StringBuilder();
        for (var i = 0; i < columns.size(); i++) {
            text.append(columns.get(i)).append('\u0001').append(row.cells().get(i)).append('\u0002');
        }
        return digest(text.toString());
    }

    static String digest(String text) {
        try {
            return HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException missing) {
            throw new IllegalStateException("every Java has SHA-256", missing);
        }
    }
}
