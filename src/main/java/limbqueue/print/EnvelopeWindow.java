package limbqueue.print;

import java.util.List;

/**
 * The window of the envelope in which a letter is posted; with it the paper, where the address stands on it, and where it is
 * folded. All measures are millimetres from the upper left corner of the first sheet.
 */
public enum EnvelopeWindow {
    /**
     * A4 after DIN 5008, form B: a field of 85 by 45 mm at 20 mm from the left and 45 mm from above, folded at 105 and 210 mm
     * (r9005.de, Vorlagen Briefbogen, Form B). In it the address has six lines in the 27.3 mm below the line at 62.7 mm, and
     * above that line stands the sender (din-5008-richtlinien.de, Anschriftenfeld). Text begins at 25 mm
     * (expressantworten.com, Briefkopf). An envelope DL of 220 by 110 mm shows it through a window of 90 by 45 mm, 20 mm from
     * the left and 15 mm from below (DIN 680, as told in de.wiki.li, DIN lang). As the sheet may slip by 10 mm to the right and by
     * 5 mm up, the address ends at 100 mm from the left, and the words of the letter begin below 95 mm from above.
     */
    DIN_5008_B,

    /**
     * US Letter in an envelope No. 10 of 9 1/2 by 4 1/8 in with a window of 4 1/2 by 1 1/8 in, 7/8 in from the left and 1/2 in
     * from below (businessenvelopes.com, Window envelopes: the complete guide; the envelope: crst.net, Window envelope sizes).
     * An eighth of an inch must stay free around the address wherever the sheet slips in the envelope (USPS Domestic Mail
     * Manual, 601.6.3, as told by des.wa.gov, Postal regulation regarding window envelopes).
     *
     * <p>That leaves room for five lines only where the sheet fills the envelope, so it has marks to fold it at 4 and 8 in.
     * Folded in three equal parts, as without marks (common practice, no source), it can slip by almost half an inch, and four
     * lines are seen wherever it lies. The sender is not shown: a window of this size has no room for it, and the envelope has
     * it printed on (common practice, no source).
     */
    US_NO_10;

    private static final double INCH = 25.4;

    /** @param folds how far below the upper edge it is folded */
    public record Sheet(double width, double height, List<Double> folds) {}

    public record Place(double left, double top, double width, double height) {}

    /**
     * Lines of the address.
     *
     * @param most the place has room for no more
     * @param points size of the type
     * @param leading points from line to line
     */
    public record Lines(int most, double points, double leading) {}

    /** What the office calls it. */
    public String words() {
        return switch (this) {
            case DIN_5008_B -> "DIN 5008 form B, on A4";
            case US_NO_10 -> "US No. 10, on US Letter";
        };
    }

    public Sheet sheet() {
        return switch (this) {
            case DIN_5008_B -> new Sheet(210, 297, List.of(105.0, 210.0));
            case US_NO_10 -> new Sheet(8.5 * INCH, 11 * INCH, List.of(4 * INCH, 8 * INCH));
        };
    }

    /** Where the lines of the address stand. */
    public Place address() {
        return switch (this) {
            case DIN_5008_B -> new Place(25, 62.7, 75, 27.3);
            case US_NO_10 -> new Place(INCH, 2.61 * INCH, 3.25 * INCH, 0.7 * INCH);
        };
    }

    public Lines lines() {
        return switch (this) {
            case DIN_5008_B -> new Lines(6, 10.5, 12.8);
            case US_NO_10 -> new Lines(5, 9, 10);
        };
    }

    /** Whether the sender stands above the address, in smaller type. */
    public boolean showsSender() {
        return this == DIN_5008_B;
    }

    /** Where the words of the letter begin: the window never shows what is below. */
    public double textFrom() {
        return switch (this) {
            case DIN_5008_B -> 96;
            case US_NO_10 -> 93;
        };
    }
}
