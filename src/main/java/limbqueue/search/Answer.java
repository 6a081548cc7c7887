package limbqueue.search;

import java.util.List;

/**
 * What a search answers.
 *
 * @param found the best first
 * @param kind why these
 */
public record Answer(List<Found> found, Kind kind) {

    public enum Kind {
        /** All that has the words. */
        ALL,
        /** The best of more than are shown. */
        THE_BEST,
        /** Nothing has the words; these names are similar. */
        SIMILAR_NAMES,
        /** Too little was typed to look for. */
        TOO_SHORT
    }

    public Answer {
        found = List.copyOf(found);
    }
}
