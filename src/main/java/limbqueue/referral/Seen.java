package limbqueue.referral;

import java.time.Instant;
import java.util.List;

/**
 * What is new to a physician who has seen a referral before.
 *
 * @param at when this physician first saw it as it was then
 * @param document as it was then, as JSON text
 * @param changes what the proposal of then and of now differ in, a sentence each; empty if in nothing that a decision rests
 *     on
 */
public record Seen(Instant at, String document, List<String> changes) {

    public Seen {
        changes = List.copyOf(changes);
    }
}
