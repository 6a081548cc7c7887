package limbqueue.access;

/** What became of an attempt to add a person. */
public sealed interface AddOutcome {

    /**
     * The person can sign in.
     *
     * @param password the generated password, to be handed over; it is kept nowhere
     */
    record Added(Account account, String password) implements AddOutcome {}

    /**
     * The sign-in name can't be used.
     *
     * @param why in words for the manager
     */
    record NameRefused(String why) implements AddOutcome {}

    /**
     * The display name can't be used.
     *
     * @param why in words for the manager
     */
    record DisplayNameRefused(String why) implements AddOutcome {}
}
