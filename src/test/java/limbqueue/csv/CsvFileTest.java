package limbqueue.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files as they come. Quoting by RFC 4180; that offices send semicolons, Latin-1 and marks in front is common practice, no source. */
class CsvFileTest {

    private static CsvFile read(String text, Charset alphabet) throws RefusedFileException {
        return CsvFile.read(text.getBytes(alphabet));
    }

    private static List<List<String>> cells(CsvFile file) {
        return file.rows().stream().map(CsvFile.Row::cells).toList();
    }

    private static final String TABLE = "Surname;First name;Reason\r\nÅngström;Zoë;\"cold; \"\"numb\"\"\r\nfoot\"\r\n";

    @ParameterizedTest
    @CsvSource({
        "UTF-8, UTF-8", "ISO-8859-1, Windows-1252 (Latin-1)", "windows-1252, Windows-1252 (Latin-1)", "UTF-16, UTF-16",
        "UTF-16LE, UTF-16", "UTF-16BE, UTF-16"
    })
    void theAlphabetIsToldFromTheBytes(String alphabet, String told) throws RefusedFileException {
        var file = read(TABLE, Charset.forName(alphabet));
        assertThat(file.alphabet()).isEqualTo(told);
        assertThat(file.separator()).isEqualTo(';');
        assertThat(file.columns()).containsExactly("Surname", "First name", "Reason");
        assertThat(cells(file)).containsExactly(List.of("Ångström", "Zoë", "cold; \"numb\"\r\nfoot"));
    }

    @Test
    void theMarkInFrontIsNoPartOfTheFirstName() throws RefusedFileException {
        assertThat(read("\uFEFFSurname,DOB\nPell,1951-05-03\n", StandardCharsets.UTF_8).columns())
                .containsExactly("Surname", "DOB");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"a,b;c|,", "a;b;c,d|;", "\"a;b;c\",d|,", "only|,"})
    void theSeparatorIsWhatTheHeaderHasMostOutsideOfQuotes(String header, char separator) throws RefusedFileException {
        assertThat(read(header + "\n", StandardCharsets.UTF_8).separator()).isEqualTo(separator);
    }

    @Test
    void tabsPartCellsToo() throws RefusedFileException {
        assertThat(cells(read("a\tb\n1\t2\n", StandardCharsets.UTF_8))).containsExactly(List.of("1", "2"));
    }

    @Test
    void aRowWithOtherThanTheHeadersCellsIsToldByItsLineAndTheOthersAreRead() throws RefusedFileException {
        var file = read("a,b\n1,2\n1,2,3\n\n4\n5,6\n", StandardCharsets.UTF_8);
        assertThat(cells(file)).containsExactly(List.of("1", "2"), List.of(), List.of(), List.of("5", "6"));
        assertThat(file.rows().get(1).line()).isEqualTo(3);
        assertThat(file.rows().get(1).wrong().orElseThrow().what()).isEqualTo("The row has 3 cells, the header 2.");
        assertThat(file.rows().get(2).wrong().orElseThrow().todo()).contains("separator");
    }

    @Test
    void theHeaderOnceMoreIsPassedOver() throws RefusedFileException {
        var file = read("a,b\n1,2\na,b\n3,4\n", StandardCharsets.UTF_8);
        assertThat(file.rows().get(1).wrong().orElseThrow().what()).isEqualTo("The header once more.");
        assertThat(file.rows()).hasSize(3);
    }

    @Test
    void aNameThatComesTwiceIsNumbered() throws RefusedFileException {
        assertThat(read("Phone,Phone,\n1,2,3\n", StandardCharsets.UTF_8).columns())
                .containsExactly("Phone", "Phone (2)", "Column 3");
    }

    @Test
    void aCellOf50MegabytesIsToldAndNoMemoryIsLost() throws RefusedFileException {
        assertThatThrownBy(() -> read("a,b\n1," + "x".repeat(50 * 1024 * 1024) + "\n", StandardCharsets.UTF_8))
                .isInstanceOf(RefusedFileException.class)
                .hasMessageContaining("The file has 50 MB, and at most 20 MB are taken");
        var file = read("a,b\n1," + "x".repeat(10 * 1024 * 1024) + "\n3,4\n", StandardCharsets.UTF_8);
        assertThat(file.rows().getFirst().wrong().orElseThrow().what())
                .isEqualTo("The cell under b has 10485760 characters, and at most 200000 are kept.");
        assertThat(file.rows().getLast().cells()).containsExactly("3", "4");
    }

    @Test
    void aQuoteThatIsNeverClosedDoesNotTakeTheRowsBeforeWithIt() throws RefusedFileException {
        var file = read("a,b\n1,2\n3,\"never closed\n5,6\n7,8\n", StandardCharsets.UTF_8);
        assertThat(file.rows().getFirst().cells()).containsExactly("1", "2");
        assertThat(file.rows()).hasSize(2);
    }

    @Test
    void charactersThatAreNoTextAreTold() throws RefusedFileException {
        var file = read("a,b\n1,x\u0000y\n3,4\n", StandardCharsets.UTF_8);
        assertThat(file.rows().getFirst().wrong().orElseThrow().what()).contains("NUL");
        assertThat(file.rows().getLast().cells()).containsExactly("3", "4");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "PK\u0003\u0004rest", "%PDF-1.7", "\n\n\n"})
    void whatIsNoTableIsRefusedWithWhatToDo(String content) {
        assertThatThrownBy(() -> read(content, StandardCharsets.ISO_8859_1))
                .isInstanceOf(RefusedFileException.class)
                .message()
                .matches("(?s).*(Export|save|saved|Put).*");
    }

    @ParameterizedTest
    @CsvSource({
        "DAY_FIRST, 03/05/1951, 1951-05-03", "MONTH_FIRST, 03/05/1951, 1951-03-05", "DAY_FIRST, 3.5.1951, 1951-05-03",
        "YEAR_FIRST, 1951-05-03, 1951-05-03", "DAY_FIRST, 1951-05-03, 1951-05-03", "MONTH_FIRST, 05/31/1951, 1951-05-31",
        "DAY_FIRST, 31/02/1951, ", "DAY_FIRST, 03/05/51, ", "YEAR_FIRST, 03/05/1951, ", "DAY_FIRST, soon, ",
        "DAY_FIRST, 1951-05-03T00:00:00, 1951-05-03"
    })
    void datesAreReadInTheOrderThatIsSaid(DateOrder order, String cell, String date) {
        assertThat(order.read(cell).map(Object::toString).orElse(null)).isEqualTo(date);
    }
}
