package limbqueue.triage.finding;

import limbqueue.triage.question.Sentence;

/** A figure, or the range that an unknown leaves of it. */
public record Span(double least, double most) {

    public Span {
        if (most < least) {
            throw new IllegalArgumentException("a range from " + least + " to " + most);
        }
    }

    public static Span of(double one, double other) {
        return new Span(Math.min(one, other), Math.max(one, other));
    }

    public Span times(double factor) {
        return new Span(least * factor, most * factor);
    }

    /** Both ends without decimals: {@code 45} or {@code 45 to 60}. */
    public String words() {
        var from = Sentence.of("%.0f", least);
        var to = Sentence.of("%.0f", most);
        return from.equals(to) ? from : from + " to " + to;
    }
}
