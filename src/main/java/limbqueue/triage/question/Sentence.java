package limbqueue.triage.question;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.regex.Pattern;

/** A sentence with values put in, the same on every machine: whatever language it is set to, a number reads alike. */
public final class Sentence {

    private static final Pattern PLACE = Pattern.compile("%(?:\\.(\\d)f|[sd])");

    private Sentence() {}

    /**
     * Puts {@code values} in place of {@code %s}, {@code %d} and, rounded half up to so many decimals, {@code %.2f}.
     * Thousands of sentences a second are written, each with one or two values; the formatter of the JDK takes most of
     * the time of triage for that.
     */
    public static String of(String template, Object... values) {
        var places = PLACE.matcher(template);
        var sentence = new StringBuilder(template.length() + 16);
        var next = 0;
        while (places.find()) {
            var value = values[next++];
            var decimals = places.group(1);
            places.appendReplacement(sentence, "");
            sentence.append(
                    decimals == null
                            ? value
                            : BigDecimal.valueOf(((Number) value).doubleValue())
                                    .setScale(Integer.parseInt(decimals), RoundingMode.HALF_UP)
                                    .toPlainString());
        }
        return places.appendTail(sentence).toString();
    }
}
