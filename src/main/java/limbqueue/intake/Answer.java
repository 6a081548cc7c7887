package limbqueue.intake;

/** What a person made of a proposal. Nothing is entered but what is accepted. */
public enum Answer {
    OPEN,
    ACCEPTED,
    REFUSED
}
