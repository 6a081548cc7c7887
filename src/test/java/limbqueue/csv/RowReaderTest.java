package limbqueue.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What columns and cells are taken for (common practice of offices, no source). All people are invented. */
class RowReaderTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static CsvFile file(String text) throws RefusedFileException {
        return CsvFile.read(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void columnsAreGuessedByWhatTheyAreCalled() throws RefusedFileException {
        var mapping = ColumnGuess.of(file("""
                Surname,First name,DOB,Telephone,ABI left,Toe pressure,Shoe size,Date of birth
                Pell,Odile,31/05/1951,01632 960202,"0,6",30,38,31/05/1951
                """));
        assertThat(mapping.fields())
                .containsEntry("Surname", "patient.family")
                .containsEntry("First name", "patient.given")
                .containsEntry("DOB", "patient.born")
                .containsEntry("Telephone", "patient.phone")
                .containsEntry("ABI left", "legs.left.abi")
                .doesNotContainKeys("Shoe size", "Date of birth", "Toe pressure");
        assertThat(mapping.dateOrder()).isEqualTo(DateOrder.DAY_FIRST);
    }

    @ParameterizedTest
    @CsvSource({
        "03/05/1951, 04/06/1952, ",
        "31/05/1951, 04/06/1952, DAY_FIRST",
        "05/31/1951, 04/06/1952, MONTH_FIRST",
        "1951-05-03, 1952-06-04, YEAR_FIRST"
    })
    void theOrderOfDatesIsToldWhereOneOfThemTellsIt(String one, String other, DateOrder order)
            throws RefusedFileException {
        var file = file("DOB\n" + one + "\n" + other + "\n");
        assertThat(ColumnGuess.dateOrder(file, Map.of("DOB", "patient.born")).orElse(null))
                .isEqualTo(order);
    }

    private static RowReader.ReadRow read(String path, String cell) throws RefusedFileException {
        var file = file("c\n\"" + cell.replace("\"", "\"\"") + "\"\n");
        return new RowReader(file, new Mapping(Map.of("c", path), DateOrder.DAY_FIRST), TODAY)
                .read(file.rows().getFirst());
    }

    @ParameterizedTest
    @CsvSource({
        "history.diabetes, yes, true",
        "history.diabetes, N, false",
        "history.diabetes, x, true",
        "history.diabetes, ?, ",
        "history.diabetes, unknown, ",
        "patient.sex, F, \"female\"",
        "patient.sex, Male, \"male\"",
        "patient.sex, unknown, \"unknown\"",
        "history.smoking, Current, \"current\"",
        "procedures[0].kind, aneurysm repair, \"aneurysmRepair\"",
        "legs.left.abi, '0,62', 0.62",
        "legs.left.abi, 0.62, 0.62",
        "legs.right.restPain.sinceDays, 14, 14",
        "patient.born, 03/05/1951, \"1951-05-03\"",
        "patient.family, <script>alert(1)</script>, \"<script>alert(1)</script>\"",
        "patient.family, unknown, \"unknown\""
    })
    void aCellBecomesAValueOfTheFormat(String path, String cell, String json) throws RefusedFileException {
        var row = read(path, cell);
        assertThat(row.problems()).isEmpty();
        assertThat(row.document().get(path).map(Object::toString).orElse(null)).isEqualTo(json);
    }

    @ParameterizedTest
    @CsvSource({
        "history.diabetes, perhaps, is neither yes nor no", "patient.born, 31/02/1951, is no date in the order day",
        "legs.left.abi, '1,234.5', is no number", "legs.left.restPain.sinceDays, 1.5, is no whole number of days",
        "patient.sex, both, 'is none of female, male, other, unknown'"
    })
    void whatCannotBeReadIsKeptAsWrittenAndTold(String path, String cell, String what) throws RefusedFileException {
        var row = read(path, cell);
        assertThat(row.document().get(path).orElseThrow().asString()).isEqualTo(cell);
        assertThat(row.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(2);
            assertThat(problem.column()).isEqualTo("c");
            assertThat(problem.what()).contains("“" + cell + "” " + what);
        });
    }

    @Test
    void whatTheFormatRefusesIsToldByItsColumn() throws RefusedFileException {
        assertThat(read("legs.left.abi", "57").problems()).singleElement().satisfies(problem -> {
            assertThat(problem.column()).isEqualTo("c");
            assertThat(problem.what()).contains("57");
        });
    }

    @Test
    void equalRowsHaveEqualNamesAndOthersDoNot() throws RefusedFileException {
        var file = file("a,b\n1,2\n1,2\n12,\n,12\n");
        var reader = new RowReader(file, new Mapping(Map.of(), DateOrder.DAY_FIRST), TODAY);
        var digests = file.rows().stream().map(reader::digest).toList();
        assertThat(digests.get(0)).isEqualTo(digests.get(1));
        assertThat(digests.stream().distinct()).hasSize(3);
    }
}
