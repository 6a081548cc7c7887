package limbqueue.sameday;

/** What became of taking a same-day case. */
public sealed interface TakeOutcome {

    record Taken(SameDayCase sameDay) implements TakeOutcome {}

    /** Somebody else has it already. */
    record TakenBefore(SameDayCase.Taken by) implements TakeOutcome {}

    /** It is no same-day case any more, or has been decided. */
    record Over() implements TakeOutcome {}
}
