package limbqueue.policy;

import java.util.Optional;

/** What became of an attempt to save the draft. */
public sealed interface DraftOutcome {

    record Saved(PolicyDraft draft) implements DraftOutcome {}

    /**
     * Somebody else saved, published or discarded first. What was typed is kept all the same.
     *
     * @param theirs the draft as it stands; empty if there is none any more
     */
    record Overtaken(Optional<PolicyDraft> theirs) implements DraftOutcome {}
}
