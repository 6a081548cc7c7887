package limbqueue.print;

import com.openhtmltopdf.extend.FSTextBreaker;
import java.text.BreakIterator;
import java.util.Locale;

/**
 * Where a line may end: where Java says, but never before a digit that no space stands before. A time of day, a telephone number, a
 * reference and a range are read as one, and half of one is easily taken for another (Unicode Standard Annex 14, rule LB25, keeps
 * times and numbers together, value from memory; references and telephone numbers: common practice, no source).
 */
final class LineEnds implements FSTextBreaker {

    private final BreakIterator ends = BreakIterator.getLineInstance(Locale.ROOT);
    private String text = "";

    @Override
    public void setText(String text) {
        this.text = text;
        ends.setText(text);
    }

    @Override
    public int next() {
        var end = ends.next();
        while (end != BreakIterator.DONE && withinOne(end)) {
            end = ends.next();
        }
        return end;
    }

    private boolean withinOne(int end) {
        return end > 0
                && end < text.length()
                && Character.isDigit(text.charAt(end))
                && !Character.isWhitespace(text.charAt(end - 1));
    }
}
