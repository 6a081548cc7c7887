package limbqueue.timetable;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/**
 * Who comes on one day.
 *
 * @param notice the sentence that must stand beside everything that is proposed
 * @param sessions by time, closed ones too
 */
public record DayList(String notice, LocalDate date, List<SessionList> sessions) {

    public record SessionList(FilledSession session, List<Line> lines) {}

    /**
     * One patient.
     *
     * @param at when the patient is expected, if all before take as long as expected
     * @param side the legs that are treated, in words; empty where nothing is planned
     * @param access ways in, in the order in which they are tried; for a procedure alone
     * @param room what must be in the room; for a procedure alone
     * @param questions what is still to be asked
     */
    public record Line(
            LocalTime at, Placed placed, String side, List<String> access, List<String> room, List<String> questions) {}
}
