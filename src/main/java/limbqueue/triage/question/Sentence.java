package limbqueue.triage.question;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** A sentence with values put in, the same on every machine: whatever language it is set to, a number reads alike. */
public final class Sentence {

    /** Under this the fraction of a number is exact, so that it can be rounded without writing it down first. */
    private static final double EXACT_UNDER = 1e15;

    private Sentence() {}

    /**
     * Puts {@code values} in place of {@code %s}, {@code %d} and, rounded half up to so many decimals, {@code %.2f}; {@code %%} is a percent sign.
     * Thousands of sentences a second are written, each with one or two values; a formatter for everything takes a good
     * part of the time of triage for that.
     */
    public static String of(String template, Object... values) {
        var sentence = new StringBuilder(template.length() + 16);
        var next = 0;
        var from = 0;
        for (var at = template.indexOf('%'); at >= 0; at = template.indexOf('%', from)) {
            sentence.append(template, from, at);
            switch (template.charAt(at + 1)) {
                case '%' -> sentence.append('%');
                case '.' -> sentence.append(rounded((Number) values[next++], template.charAt(at + 2) - '0'));
                default -> sentence.append(values[next++]);
            }
            from = at + (template.charAt(at + 1) == '.' ? 4 : 2);
        }
        return sentence.append(template, from, template.length()).toString();
    }

    private static String rounded(Number value, int decimals) {
        var number = value.doubleValue();
        if (decimals == 0 && number >= 0 && number < EXACT_UNDER) {
            var whole = (long) number;
            return Long.toString(number - whole < 0.5 ? whole : whole + 1);
        }
        return BigDecimal.valueOf(number)
                .setScale(decimals, RoundingMode.HALF_UP)
                .toPlainString();
    }
}
