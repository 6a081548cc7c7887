package limbqueue.chasing;

/**
 * Something that was told on the telephone, as a field of the document.
 *
 * @param path within a leg, as {@code legs.left.restPain.present}
 * @param value a text, a number or an answer
 */
public record ToldFact(String path, Object value) {

    /** @throws IllegalArgumentException if it is not about a leg */
    public ToldFact {
        if (!path.startsWith("legs.left.") && !path.startsWith("legs.right.")) {
            throw new IllegalArgumentException("what is told is about a leg, not about " + path);
        }
    }
}
