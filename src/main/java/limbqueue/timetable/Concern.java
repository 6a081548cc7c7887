package limbqueue.timetable;

/** Something that a person has to say yes to before somebody is placed. */
record Concern(Kind kind, String text) {

    enum Kind {
        /** The patient has been told of another place. */
        TOLD,
        /** The session would not end in time. */
        FULL,
        /** A step would come before the one that it waits for. */
        ORDER,
        /** Something else that the planner would never do. */
        UNFIT,
        /** Others who have been told of a time would be expected at another one. */
        OTHERS_TOLD,
        /** It would take time that is held for urgent cases. */
        HELD
    }
}
