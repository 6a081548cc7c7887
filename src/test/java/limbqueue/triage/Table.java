package limbqueue.triage;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;

/** A table of test data: cells parted by {@code |}, comments behind {@code #}. An empty table fails whoever reads it. */
final class Table {

    static final Path PUBLISHED = Path.of("src/test/resources/published");

    /** Each file is read once, however many rows are asked for one by one. */
    private static final Map<Path, List<Row>> TABLES = new ConcurrentHashMap<>();

    private Table() {}

    record Row(String place, List<String> cells) {

        String cell(int index) {
            return cells.get(index);
        }

        @Override
        public String toString() {
            return place + ": " + cells.getFirst();
        }
    }

    static List<Row> published(String source, int cells) {
        return read(PUBLISHED.resolve(source + ".csv"), cells);
    }

    static List<Row> read(Path file, int cells) {
        var rows = TABLES.computeIfAbsent(file, Table::rows);
        for (var row : rows) {
            if (row.cells().size() != cells) {
                throw new AssertionError(row.place() + " has not " + cells + " cells");
            }
        }
        return rows;
    }

    private static List<Row> rows(Path file) {
        try {
            var lines = Files.readAllLines(file);
            var rows = IntStream.range(0, lines.size())
                    .filter(i -> !lines.get(i).isBlank() && !lines.get(i).startsWith("#"))
                    .mapToObj(i -> new Row(
                            file.getFileName() + ", line " + (i + 1),
                            Arrays.stream(lines.get(i).split("\\|", -1))
                                    .map(String::strip)
                                    .toList()))
                    .toList();
            if (rows.isEmpty()) {
                throw new AssertionError(file + " holds no row");
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
