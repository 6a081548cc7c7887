package limbqueue.intake;

import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * What a letter proposes to enter, to be accepted or refused as one: a single field, or all that it says of one entry
 * of a
 * list, such as a medicine with its dose.
 *
 * @param number its place in the letter, from 0
 * @param entry where it goes in its list; empty for a single field
 */
public record Proposal(int number, List<Part> parts, Optional<Entry> entry) {

    public Proposal {
        parts = List.copyOf(parts);
    }

    /**
     * One field.
     *
     * @param path in the document that the letter alone would make
     * @param words where the letter says it, in {@code char}s of its text
     * @param standing how it goes with what the referral says already
     * @param there what the referral says instead; present only with {@link Standing#DIFFERENT}
     */
    public record Part(String path, List<Words> words, Standing standing, Optional<JsonNode> there) {

        public Part {
            words = List.copyOf(words);
        }
    }

    /** @param end exclusive */
    public record Words(int start, int end) {}

    /** How what the letter says goes with what the referral says. */
    public enum Standing {
        /** The referral does not say it. */
        NEW,
        SAME,
        DIFFERENT
    }

    /**
     * @param list path of the list
     * @param index of the entry of the referral that is completed; empty if it becomes an entry of its own
     */
    public record Entry(String list, Optional<Integer> index) {}

    /** Whether accepting it would replace something that the referral says. */
    public boolean contradicts() {
        return parts.stream().anyMatch(part -> part.standing() == Standing.DIFFERENT);
    }

    boolean saysNothingNew() {
        return parts.stream().allMatch(part -> part.standing() == Standing.SAME);
    }
}
