package limbqueue.document;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * A document being typed: values are set and read by path and kept exactly as typed, right or wrong. Not safe for use by
 * several threads at once.
 */
public final class Draft {

    /** A draft with nothing in it. */
    public static Draft empty() {
        throw new IllegalStateException("being built");
    }

    /** @throws IllegalArgumentException if {@code json} is not a JSON object */
    public static Draft of(String json) {
        throw new IllegalStateException("being built");
    }

    /** The value at {@code path} (as {@code legs.left.abi} or {@code labs[0].value}), if there is one. */
    public Optional<JsonNode> get(String path) {
        throw new IllegalStateException("being built");
    }

    /**
     * Sets the value at {@code path} to a {@link String}, {@link Number} or {@link Boolean}, making the objects and list
     * entries on the way.
     */
    public void set(String path, Object value) {
        throw new IllegalStateException("being built");
    }

    /** Makes the value at {@code path} unknown; objects left empty on the way go too, list entries stay. */
    public void clear(String path) {
        throw new IllegalStateException("being built");
    }

    /** The entries of the list at {@code path}; empty when the list is unknown. */
    public Optional<Integer> sizeOf(String path) {
        throw new IllegalStateException("being built");
    }

    /** Sets the list at {@code path} to a list without entries: the answer "none". */
    public void setNone(String path) {
        throw new IllegalStateException("being built");
    }

    /** Removes entry {@code index} of the list at {@code path}. */
    public void removeEntry(String path, int index) {
        throw new IllegalStateException("being built");
    }

    public Reading read(LocalDate today) {
        throw new IllegalStateException("being built");
    }

    /** The paths of single values on which this draft and {@code other} differ, in the order of the format. */
    public List<String> differencesFrom(Draft other) {
        throw new IllegalStateException("being built");
    }

    public String toJson() {
        throw new IllegalStateException("being built");
    }
}
