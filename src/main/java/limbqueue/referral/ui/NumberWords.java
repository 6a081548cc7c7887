package limbqueue.referral.ui;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers as the screens write them. */
final class NumberWords {

    private NumberWords() {}

    /** Without a fraction that says nothing: {@code 38}, {@code 38.4}. */
    static String plain(double number) {
        var exact = BigDecimal.valueOf(number).stripTrailingZeros();
        return (exact.scale() < 0 ? exact.setScale(0, RoundingMode.UNNECESSARY) : exact).toPlainString();
    }

    /** An index with its two decimals: {@code 0.40}. */
    static String index(double number) {
        return BigDecimal.valueOf(number).setScale(2, RoundingMode.HALF_UP).toPlainString();
    }
}
