package limbqueue.triage;

/** A number that knows its unit. Quantities of different units do not mix: each unit is a type of its own. */
public sealed interface Quantity {

    /** The number, in the unit that the type names. */
    double value();

    /** A pressure in mmHg. */
    record MmHg(double value) implements Quantity {}

    /** A walking distance in metres. */
    record Metres(double value) implements Quantity {}

    /** A length in millimetres. */
    record Millimetres(double value) implements Quantity {}

    /** A span of whole days. */
    record Days(int days) implements Quantity {
        @Override
        public double value() {
            return days;
        }
    }

    /** A ratio without a unit, as an ankle-brachial index. */
    record Ratio(double value) implements Quantity {}

    /** A share in percent, 0 to 100. */
    record Percent(double value) implements Quantity {}

    /** A temperature in degrees Celsius. */
    record Celsius(double value) implements Quantity {}

    /** A count per minute. */
    record PerMinute(double value) implements Quantity {}

    /** A count per microlitre. */
    record PerMicrolitre(double value) implements Quantity {}
}
