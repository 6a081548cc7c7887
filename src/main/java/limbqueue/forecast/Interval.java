package limbqueue.forecast;

/**
 * Where a figure may truly lie.
 *
 * @param high at least {@code low}
 */
public record Interval(double low, double high) {}
