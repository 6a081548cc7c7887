package limbqueue.booking.solver;

import java.util.List;

/** The sessions that can take an appointment, by time, and where in them a session is: asked for several times in each step of a search. */
final class Range {

    private final List<Slot> slots;
    /** For each session by its number whether it is in it, as bits. */
    private final long[] has;
    /** How many there are before each word of those bits. */
    private final int[] before;

    /** @param slots sorted by their number */
    Range(List<Slot> slots) {
        this.slots = List.copyOf(slots);
        var words = slots.isEmpty() ? 0 : slots.getLast().number() / Long.SIZE + 1;
        this.has = new long[words];
        this.before = new int[words];
        for (var slot : slots) {
            has[slot.number() / Long.SIZE] |= 1L << slot.number();
        }
        for (var word = 1; word < words; word++) {
            before[word] = before[word - 1] + Long.bitCount(has[word - 1]);
        }
    }

    List<Slot> slots() {
        return slots;
    }

    Slot get(int place) {
        return slots.get(place);
    }

    int size() {
        return slots.size();
    }

    boolean isEmpty() {
        return slots.isEmpty();
    }

    /** Whether the session of this number is in it. */
    boolean has(int number) {
        var word = number / Long.SIZE;
        return word < has.length && (has[word] & 1L << number) != 0;
    }

    /** The place of the first session that has {@code number} or comes after it. */
    int placeOf(int number) {
        var word = number / Long.SIZE;
        // A shift by a number of bits goes by what is left of it beside whole words.
        return word < has.length ? before[word] + Long.bitCount(has[word] & (1L << number) - 1) : slots.size();
    }

    /** The place of the first session on a day after {@code epochDay}, counted as {@link Slot#epochDay}. */
    int endOf(long epochDay) {
        var from = 0;
        var to = slots.size();
        while (from < to) {
            var middle = (from + to) >>> 1;
            if (slots.get(middle).epochDay() <= epochDay) {
                from = middle + 1;
            } else {
                to = middle;
            }
        }
        return from;
    }
}
