package limbqueue.timetable;

import java.time.LocalDate;
import java.util.List;
import limbqueue.booking.Session;
import limbqueue.booking.StepMinutes;
import limbqueue.triage.Tier;

/**
 * Who waits for the procedure room, and its time in the weeks to come. It holds no name of a patient.
 *
 * @param lastDay up to which sessions are given
 * @param waiting approved referrals with a procedure before them
 * @param sessions open ones by time, less the minutes of those who keep their places whatever is planned
 */
public record RoomAhead(LocalDate today, LocalDate lastDay, List<ForRoom> waiting, List<Session> sessions) {

    /**
     * A case that waits for the room.
     *
     * @param ready the first day on which it can be treated, if every step before it takes place as soon as it may
     * @param target the day by which it should be treated
     */
    public record ForRoom(long referralId, Tier tier, LocalDate ready, LocalDate target, StepMinutes minutes) {}
}
