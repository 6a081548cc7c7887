package limbqueue.forecast;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;

/**
 * What a forecast begins with.
 *
 * @param from the first day of it
 * @param weeks how many, 1 or more
 * @param queue who waits already
 * @param sessions all time in the room; what lies outside of the weeks is left aside
 * @param policy by whose days new cases get their target dates
 * @param arrivals of cases that will need the room
 * @param coming what such a case is, for each tier that is treated in these sessions
 * @param attendance of appointments
 * @param heldFor who may use what is held of the sessions
 */
public record Situation(
        LocalDate from,
        int weeks,
        List<QueuedCase> queue,
        List<RoomSession> sessions,
        Policy policy,
        Arrivals arrivals,
        Map<Tier, Coming> coming,
        Attendance attendance,
        HeldFor heldFor) {

    /**
     * A case that has not come yet.
     *
     * @param minutes in the room
     * @param lead days from being received until it can be treated at the soonest, 0 or more
     */
    public record Coming(CaseMinutes.Minutes minutes, int lead) {

        /** @throws IllegalArgumentException if minutes or days cannot be */
        public Coming {
            if (lead < 0) {
                throw new IllegalArgumentException("%s days from being received".formatted(lead));
            }
            RoomMinutes.of(minutes);
        }
    }

    /** Of whose sessions nothing is held for anybody. */
    public Situation(
            LocalDate from,
            int weeks,
            List<QueuedCase> queue,
            List<RoomSession> sessions,
            Policy policy,
            Arrivals arrivals,
            Map<Tier, Coming> coming,
            Attendance attendance) {
        this(from, weeks, queue, sessions, policy, arrivals, coming, attendance, HeldFor.NOBODY);
    }

    /**
     * @throws IllegalArgumentException if there is no week, no tier, a tier without days in the policy, or somebody in the queue
     *     of a tier that is not treated in these sessions
     */
    public Situation {
        if (weeks < 1) {
            throw new IllegalArgumentException("a forecast is of at least a week, not " + weeks);
        }
        if (coming.isEmpty() || !policy.days().keySet().containsAll(coming.keySet())) {
            throw new IllegalArgumentException("a forecast is of tiers that have days, not of " + coming.keySet());
        }
        for (var one : queue) {
            if (!coming.containsKey(one.tier())) {
                throw new IllegalArgumentException("somebody waits %s, of which no new case is described"
                        .formatted(one.tier().words()));
            }
        }
        queue = List.copyOf(queue);
        sessions = List.copyOf(sessions);
        coming = Collections.unmodifiableMap(new EnumMap<>(coming));
    }

    /** The same, with one more session in every week, of which nothing is held. */
    public Situation withOneMoreSession(WeeklySession session) {
        var more = new ArrayList<>(sessions);
        more.addAll(RoomSession.of(List.of(session), from, weeks));
        return new Situation(from, weeks, queue, more, policy, arrivals, coming, attendance, heldFor);
    }

    /** Most urgent first. */
    List<Tier> tiers() {
        return List.copyOf(coming.keySet());
    }
}
