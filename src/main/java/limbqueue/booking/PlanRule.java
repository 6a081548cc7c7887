package limbqueue.booking;

/** What a plan is judged by: each rule in one sentence, which is also what a person is told when it binds. */
public enum PlanRule {
    SUITABLE_SESSION(Level.HARD, "A step takes place in an open session of its kind that has what the case needs."),
    OPEN_GATE(
            Level.HARD,
            "A step takes place when the patient can come, what it waits for is in, and what it rests on still counts."),
    IN_ORDER(Level.HARD, "A step comes after the one before it, once the result of that is there."),
    RESULT_STILL_COUNTS(Level.HARD, "The last step comes while the results that it rests on still count."),
    ONE_PLACE_AT_A_TIME(Level.HARD, "A patient is in one session at a time."),
    ROOM_IN_THE_SESSION(Level.HARD, "The expected minutes of the cases of a session fit into it."),
    TIME_HELD(
            Level.HARD,
            "Time held for urgent cases is for those promised the same day or within 5 days until it is released, but nobody who"
                    + " has been told of a place loses it for that."),
    PROMISE_OF_5_DAYS(
            Level.PROMISES_OF_5_DAYS,
            "Of the cases promised the same day or within 5 days the fewest are late, and those by the fewest days."),
    PROMISE_OF_14_DAYS(
            Level.PROMISES_OF_14_DAYS,
            "Of the cases promised within 14 days the fewest are late, and those by the fewest days."),
    ENDS_IN_TIME(
            Level.OVERRUN,
            "Nine of ten sessions end in time: each minute counts by which a session would have to be longer for that."),
    LATENESS(
            Level.LATENESS,
            "Each day after the target date counts, three times for the tier of 6 weeks, once for the tier of 18 weeks."),
    TOLD_APPOINTMENT_KEPT(
            Level.TOLD_APPOINTMENTS,
            "An appointment of which the patient has been told is kept; moving it needs a person's yes."),
    NO_IDLE_MINUTES(
            Level.IDLE_MINUTES,
            "Sessions are filled from the front: each expected minute counts once for every day that it lies ahead.");

    /** Levels in strict order: nothing gained in a later one makes up for anything lost in an earlier one. */
    public enum Level {
        HARD,
        PROMISES_OF_5_DAYS,
        PROMISES_OF_14_DAYS,
        OVERRUN,
        LATENESS,
        TOLD_APPOINTMENTS,
        IDLE_MINUTES
    }

    private final Level level;
    private final String sentence;

    PlanRule(Level level, String sentence) {
        this.level = level;
        this.sentence = sentence;
    }

    /** The level at which it counts. */
    public Level level() {
        return level;
    }

    /** The rule as whoever reads a plan is told it. */
    public String sentence() {
        return sentence;
    }
}
