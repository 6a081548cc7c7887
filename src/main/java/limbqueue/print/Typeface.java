package limbqueue.print;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/** The typeface of all printed pages: how wide words are in it, and which it cannot show. */
public final class Typeface {

    /** Covers Latin, Greek and Cyrillic; comes with PDFBox. */
    private static final String FILE = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

    private static final Pattern BETWEEN_WORDS = Pattern.compile("\\s+");
    private static final double POINTS_OF_AN_INCH = 72;
    private static final double MILLIMETRES_OF_AN_INCH = 25.4;

    /** Of each character of the basic plane the width in units of the size of type; below 0 where there is none. */
    private static final float[] WIDTHS = widths();

    private Typeface() {}

    static InputStream open() {
        return Objects.requireNonNull(Typeface.class.getResourceAsStream(FILE), FILE + " is missing from the jar");
    }

    /**
     * How wide a line is.
     *
     * @param points size of the type
     * @return millimetres; what cannot be shown counts nothing
     */
    public static double width(String line, double points) {
        var ems = line.codePoints()
                .mapToDouble(Typeface::ems)
                .filter(width -> width > 0)
                .sum();
        return ems * points / POINTS_OF_AN_INCH * MILLIMETRES_OF_AN_INCH;
    }

    /**
     * The text in lines no wider than this, broken between words; a longer word has a line for itself.
     *
     * @param millimetres width of the lines
     */
    public static List<String> wrapped(String text, double points, double millimetres) {
        var lines = new ArrayList<String>();
        var line = new StringBuilder();
        for (var word : BETWEEN_WORDS.split(text.strip(), -1)) {
            if (!line.isEmpty() && width(line + " " + word, points) > millimetres) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.isEmpty() ? "" : " ").append(word);
        }
        if (!line.isEmpty()) {
            lines.add(line.toString());
        }
        return lines;
    }

    /** What cannot be shown as it is, word by word: a character is not in the typeface, or is read from right to left. */
    public static List<String> lacking(String text) {
        return BETWEEN_WORDS
                .splitAsStream(text)
                .map(Typeface::lackingIn)
                .filter(part -> !part.isEmpty())
                .distinct()
                .toList();
    }

    /** From the first character that cannot be shown to the last. */
    private static String lackingIn(String word) {
        var characters = word.codePoints().toArray();
        var shown = 0;
        while (shown < characters.length && !lacks(characters[shown])) {
            shown++;
        }
        var end = characters.length;
        while (end > shown && !lacks(characters[end - 1])) {
            end--;
        }
        return new String(characters, shown, end - shown);
    }

    private static boolean lacks(int character) {
        return switch (Character.getDirectionality(character)) {
            case Character.DIRECTIONALITY_RIGHT_TO_LEFT, Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC -> true;
            default -> ems(character) < 0;
        };
    }

    private static float ems(int character) {
        return character < WIDTHS.length ? WIDTHS[character] : -1;
    }

    private static float[] widths() {
        var widths = new float[Character.MAX_VALUE + 1];
        try (var file = open();
                var font = new TTFParser().parse(new RandomAccessReadBuffer(file))) {
            var signs = font.getUnicodeCmapLookup();
            for (var character = 0; character < widths.length; character++) {
                var sign = signs.getGlyphId(character);
                widths[character] = sign == 0 ? -1 : font.getAdvanceWidth(sign) / (float) font.getUnitsPerEm();
            }
        } catch (IOException unreadable) {
            throw new UncheckedIOException("the typeface of printed pages cannot be read", unreadable);
        }
        return widths;
    }
}
