package limbqueue.timetable;

/** What comes of saying that something has happened. */
public sealed interface ReplanOutcome {

    record Proposed(Replanned replanned) implements ReplanOutcome {}

    /** @param why what is wrong, and what to do */
    record Refused(String why) implements ReplanOutcome {}
}
