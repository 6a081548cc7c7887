package limbqueue.csv;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.document.FormatField;
import limbqueue.search.Folded;

/** Guesses what the columns of a table are, by what they are called and by what stands in them. */
final class ColumnGuess {

    /** What offices call columns (common practice, no source). */
    private static final Map<String, String> CALLED = called();

    /** So many rows are looked at to tell the order of dates. */
    private static final int LOOKED_AT = 2000;

    private ColumnGuess() {}

    static Mapping of(CsvFile file) {
        var fields = new LinkedHashMap<String, String>();
        var taken = new HashSet<String>();
        for (var column : file.columns()) {
            field(column).filter(taken::add).ifPresent(path -> fields.put(column, path));
        }
        return new Mapping(fields, dateOrder(file, fields).orElse(DateOrder.DAY_FIRST));
    }

    private static Optional<String> field(String column) {
        var name = Folded.text(column);
        return Optional.ofNullable(CALLED.get(name)).or(() -> FormatField.all().stream()
                .filter(field -> field.path().equals(column.strip())
                        || Folded.text(field.path()).equals(name)
                        || Folded.text(field.title()).equals(name))
                .map(FormatField::path)
                .findFirst());
    }

    /** The order that fits every date with the year behind; empty if both do, or there is none. */
    static Optional<DateOrder> dateOrder(CsvFile file, Map<String, String> fields) {
        var cells = dates(file, fields);
        var behind = cells.stream().filter(cell -> DateOrder.YEAR_FIRST.read(cell).isEmpty()).toList();
        if (behind.isEmpty()) {
            return Optional.of(DateOrder.YEAR_FIRST);
        }
        var dayFirst = behind.stream().filter(cell -> DateOrder.DAY_FIRST.read(cell).isPresent()).count();
        var monthFirst =
                behind.stream().filter(cell -> DateOrder.MONTH_FIRST.read(cell).isPresent()).count();
        return dayFirst == monthFirst
                ? Optional.empty()
                : Optional.of(dayFirst > monthFirst ? DateOrder.DAY_FIRST : DateOrder.MONTH_FIRST);
    }

    /** The dates of the table as they are written. */
    static List<String> dates(CsvFile file, Map<String, String> fields) {
        var cells = new ArrayList<String>();
        for (var i = 0; i < file.columns().size(); i++) {
            var path = fields.get(file.columns().get(i));
            if (path == null || FormatField.at(path).filter(field -> field.kind() == FormatField.Kind.DATE).isEmpty()) {
                continue;
            }
            var column = i;
            file.rows().stream()
                    .limit(LOOKED_AT)
                    .filter(row -> row.wrong().isEmpty())
                    .map(row -> row.cells().get(column).strip())
                    .filter(cell -> !cell.isEmpty())
                    .forEach(cells::add);
        }
        return cells;
    }

    private static Map<String, String> called() {
        var called = new HashMap<String, String>();
        put(called, "patient.given", "first name", "forename", "given", "given name", "christian name", "firstname");
        put(called, "patient.family", "last name", "surname", "family", "family name", "lastname", "patient surname");
        put(called, "patient.born", "dob", "date of birth", "birth date", "birthdate", "born", "d o b");
        put(called, "patient.sex", "sex", "gender");
        put(called, "patient.phone", "phone", "telephone", "tel", "mobile", "phone number", "patient phone");
        put(called, "patient.address", "address", "patient address");
        put(called, "patient.identifiers[0].value", "identifier", "patient number", "hospital number", "mrn", "patient id");
        put(called, "reference", "reference", "ref", "our reference");
        put(called, "received", "received", "date received", "received on", "referral date", "date of referral");
        put(called, "referrer.name", "referrer", "referring doctor", "referred by", "gp", "doctor");
        put(called, "referrer.organisation", "practice", "surgery", "referring practice", "organisation", "clinic");
        put(called, "referrer.phone", "referrer phone", "gp phone", "practice phone");
        put(called, "referrer.email", "referrer email", "gp email");
        put(called, "asked.reason", "reason", "reason for referral", "indication", "question");
        put(called, "asked.priority", "priority");
        put(called, "letterText", "letter", "letter text", "text", "referral text");
        put(called, "legs.left.abi", "abi left", "left abi", "abi l", "abpi left", "left abpi");
        put(called, "legs.right.abi", "abi right", "right abi", "abi r", "abpi right", "right abpi");
        put(called, "legs.left.pressures.toe", "toe pressure left", "left toe pressure");
        put(called, "legs.right.pressures.toe", "toe pressure right", "right toe pressure");
        put(called, "history.diabetes", "diabetes", "diabetic");
        put(called, "history.dialysis", "dialysis");
        put(called, "history.smoking", "smoking", "smoker");
        put(called, "heightCm", "height", "height cm");
        put(called, "weightKg", "weight", "weight kg");
        return Map.copyOf(called);
    }

    private static void put(Map<String, String> called, String path, String... names) {
        for (var name : names) {
            called.put(name, path);
        }
    }
}
