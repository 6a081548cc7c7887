package limbqueue.csv.ui;

import java.util.Locale;
import limbqueue.csv.CsvImport;

/** How far a table has come, in words. */
final class ImportWords {

    private ImportWords() {}

    static String rows(int count) {
        return count == 1 ? "1 row" : String.format(Locale.ENGLISH, "%,d rows", count);
    }

    static String counts(CsvImport one) {
        return one.entered() + " imported"
                + (one.known() == 0 ? "" : ", " + one.known() + " in already")
                + (one.refused() == 0 ? "" : ", " + one.refused() + " left out");
    }
}
