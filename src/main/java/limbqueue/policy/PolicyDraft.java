package limbqueue.policy;

import java.time.Instant;

/**
 * The draft of the next policy.
 *
 * @param id of the step it stands at; a change names the step it was made on
 * @param author display name of who saved it last
 */
public record PolicyDraft(long id, TypedPolicy typed, String author, Instant at) {}
