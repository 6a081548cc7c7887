package limbqueue.referral;

/** What became of an attempt to save. */
public sealed interface SaveOutcome {

    record Saved(Referral referral) implements SaveOutcome {}

    /**
     * Somebody else saved first. Nothing is lost: both documents are kept.
     *
     * @param theirs the referral as the other person saved it
     * @param mine the document that could not be saved over it, as JSON text
     */
    record Conflict(Referral theirs, String mine) implements SaveOutcome {}
}
