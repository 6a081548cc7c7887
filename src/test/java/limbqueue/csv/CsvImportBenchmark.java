package limbqueue.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.testbed.OnPostgres;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * Prints how long a table takes to become referrals, beside what Commons CSV alone takes to read its cells on the same machine
 * in the same run. Not part of the build: {@code ./mvnw -Dquick test -Dtest=CsvImportBenchmark -Drows=10000}. All people are
 * invented.
 */
@OnPostgres
class CsvImportBenchmark {

    private static final int ROWS = Integer.getInteger("rows", 10_000);
    private static final int READINGS = 20;
    private static final String HEADER =
            "Surname,First name,DOB,Sex,Phone,Priority,ABI left,ABI right,Toe pressure left,Diabetes,Smoking,Reason";

    @Autowired
    private CsvImports imports;

    @Autowired
    private ActingAs actingAs;

    @Test
    void aTableBesideTheReadingOfItsCells() throws IOException {
        var text = table();
        var bytes = text.getBytes(StandardCharsets.UTF_8);
        var alone = Double.MAX_VALUE;
        for (var i = 0; i < READINGS; i++) {
            var begun = System.nanoTime();
            assertThat(cells(text)).isEqualTo(12L * (ROWS + 1));
            alone = Math.min(alone, (System.nanoTime() - begun) / 1e6);
        }
        var least = alone;
        System.out.printf(Locale.ROOT, "%,d rows, cells alone by Commons CSV %.1f ms%n", ROWS, least);
        actingAs.person("coordinator", () -> {
            var begun = System.nanoTime();
            var loaded = loaded(bytes);
            print("read and kept", begun, least);
            var mapping = imports.mapping(loaded.id());
            begun = System.nanoTime();
            var dry = imports.dryRun(loaded.id(), mapping);
            begun = print("dry run", begun, least);
            assertThat(dry.fresh()).isEqualTo(ROWS);
            assertThat(imports.start(loaded.id(), mapping)).isTrue();
            while (imports.isRunning(loaded.id())) {
                pause();
            }
            print("taken in", begun, least);
            assertThat(imports.find(loaded.id()).orElseThrow().entered()).isEqualTo(ROWS);
        });
    }

    private static long cells(String text) throws IOException {
        var cells = 0L;
        try (var parser = CSVFormat.RFC4180.parse(new StringReader(text))) {
            for (var row : parser) {
                cells += row.size();
            }
        }
        return cells;
    }

    private CsvImport loaded(byte[] bytes) {
        try {
            return imports.load("ten thousand.csv", bytes);
        } catch (RefusedFileException refused) {
            throw new IllegalStateException(refused);
        }
    }

    private static void pause() {
        try {
            Thread.sleep(20);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(stopped);
        }
    }

    private static long print(String what, long begun, double alone) {
        var millis = (System.nanoTime() - begun) / 1e6;
        System.out.printf(
                Locale.ROOT,
                "%-14s %,9.0f ms, %.2f ms a row, %,.0f times the cells alone%n",
                what,
                millis,
                millis / ROWS,
                millis / alone);
        return System.nanoTime();
    }

    private static String table() {
        return HEADER + "\n"
                + IntStream.range(0, ROWS)
                        .mapToObj(n -> String.format(
                                Locale.ROOT,
                                "Tablewick%d,Invented,%02d.%02d.19%02d,%s,01632 %06d,%s,%.2f,%.2f,%d,%s,%s,\"Pain of the calf, line %d\"",
                                n,
                                1 + n % 28,
                                1 + n % 12,
                                30 + n % 40,
                                n % 2 == 0 ? "female" : "male",
                                960_000 + n % 1000,
                                n % 5 == 0 ? "urgent" : "routine",
                                0.30 + n % 60 / 100.0,
                                0.40 + n % 50 / 100.0,
                                20 + n % 80,
                                n % 3 == 0 ? "yes" : "no",
                                n % 4 == 0 ? "current" : "former",
                                n))
                        .collect(Collectors.joining("\n"));
    }
}
