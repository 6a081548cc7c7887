package limbqueue.booking;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Set;

/** Something that happens to a plan that is kept, so that it cannot stay as it is. */
public sealed interface Disruption {

    /**
     * Somebody needs a procedure room on the day of planning, whoever is in it.
     *
     * @param reference under which it is planned, one that no case has
     * @param minutes that it needs, above 0
     * @param needs of the room
     */
    record Emergency(String reference, int minutes, Set<Capability> needs) implements Disruption {

        /** @throws IllegalArgumentException if it needs no minutes */
        public Emergency {
            if (minutes <= 0) {
                throw new IllegalArgumentException("an emergency needs minutes: " + minutes);
            }
            needs = Set.copyOf(needs);
        }
    }

    /**
     * An operator cannot work, so sessions that person leads do not take place.
     *
     * @param operator as sessions name the person, whatever the case of the letters
     * @param from on the clock of the place
     * @param until the first moment at which the person works again, after {@code from}
     * @param why as the end of "it is closed: "
     */
    record OperatorAway(String operator, LocalDateTime from, LocalDateTime until, String why) implements Disruption {

        /** @throws IllegalArgumentException if there is no time in it */
        public OperatorAway {
            timed(from, until);
        }
    }

    /**
     * A room or a machine cannot be used, so sessions there do not take place.
     *
     * @param place as sessions name it, whatever the case of the letters
     * @param from on the clock of the place
     * @param until the first moment at which it can be used again, after {@code from}
     * @param why as the end of "it is closed: "
     */
    record PlaceDown(String place, LocalDateTime from, LocalDateTime until, String why) implements Disruption {

        /** @throws IllegalArgumentException if there is no time in it */
        public PlaceDown {
            timed(from, until);
        }
    }

    /**
     * A patient cannot come and gives up every place in that time.
     *
     * @param reference of the case
     * @param from on the clock of the place
     * @param until the first moment at which the patient can come again, after {@code from}
     */
    record PatientCancels(String reference, LocalDateTime from, LocalDateTime until) implements Disruption {

        /** @throws IllegalArgumentException if there is no time in it */
        public PatientCancels {
            timed(from, until);
        }
    }

    private static void timed(LocalDateTime from, LocalDateTime until) {
        if (!from.isBefore(until)) {
            throw new IllegalArgumentException("there is no time between %s and %s".formatted(from, until));
        }
    }

    /** Those of {@code sessions} that do not take place because of it. */
    default List<Session> closes(List<Session> sessions) {
        return switch (this) {
            case Emergency _, PatientCancels _ -> List.of();
            case OperatorAway(var operator, var from, var until, var _) ->
                sessions.stream()
                        .filter(session -> same(session.operator(), operator) && during(session, from, until))
                        .toList();
            case PlaceDown(var place, var from, var until, var _) ->
                sessions.stream()
                        .filter(session -> same(session.place(), place) && during(session, from, until))
                        .toList();
        };
    }

    private static boolean same(String one, String other) {
        return one.strip().equalsIgnoreCase(other.strip());
    }

    private static boolean during(Session session, LocalDateTime from, LocalDateTime until) {
        return !session.closed() && session.start().isBefore(until) && from.isBefore(session.end());
    }
}
