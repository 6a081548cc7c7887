package limbqueue.timetable;

import java.time.Instant;

/** How far a plan has come. */
public sealed interface PlanningState {

    /** Nobody has asked for a plan since the start of the application. */
    record NotAsked() implements PlanningState {}

    /** @param seconds that it takes at most, once what is stored has been read */
    record Running(Instant since, String by, int seconds) implements PlanningState {}

    /** @param why in words, and what to do */
    record Failed(String why) implements PlanningState {}

    record Proposed(Proposal proposal) implements PlanningState {}
}
