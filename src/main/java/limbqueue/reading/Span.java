package limbqueue.reading;

/** A piece of the letter: chars from {@code start} up to, and without, {@code end}. */
record Span(int start, int end) {

    Span and(Span other) {
        return new Span(Math.min(start, other.start), Math.max(end, other.end));
    }
}
