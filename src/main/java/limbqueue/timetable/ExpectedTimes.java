package limbqueue.timetable;

import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.StepKind;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.ProcedureBooking;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * What follows when the patients of a session are expected at other times than before: a booked procedure follows to its time,
 * and whoever has been told of the old one is told anew.
 */
@Component
class ExpectedTimes {

    private final AppointmentStore store;
    private final Preparation preparation;
    private final CurrentPerson currentPerson;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    ExpectedTimes(
            AppointmentStore store,
            Preparation preparation,
            CurrentPerson currentPerson,
            ApplicationEventPublisher events,
            Clock clock) {
        this.store = store;
        this.preparation = preparation;
        this.currentPerson = currentPerson;
        this.events = events;
        this.clock = clock;
    }

    /**
     * A patient who is expected at another time.
     *
     * @param place the room
     */
    record Change(Placed placed, LocalDateTime from, LocalDateTime to, String place) {

        boolean told() {
            return placed.told();
        }

        /** What a person says yes to first. */
        String asks() {
            return "%s has been told of %s and must be told anew: it would be %s."
                    .formatted(placed.who(), from.toLocalTime(), to.toLocalTime());
        }

        /** What has become of it. */
        String says() {
            return "%s is expected at %s now.".formatted(placed.who(), to.toLocalTime());
        }
    }

    /** Who of those that stay is expected at another time, in their order; nobody in a session that is closed or over, or in the room. */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<Change> changes(FilledSession before, FilledSession after) {
        var now = LocalDateTime.now(clock);
        if (before.kept().closedBecause().isPresent() || before.kept().date().isBefore(LocalDate.now(clock))) {
            return List.of();
        }
        var changes = new ArrayList<Change>();
        for (var placed : after.patients()) {
            var from = before.startsFor(placed);
            var to = after.startsFor(placed);
            if (!from.equals(to) && (from.isAfter(now) || to.isAfter(now)) && !inRoom(placed)) {
                changes.add(new Change(placed, from, to, after.kept().session().place()));
            }
        }
        return changes;
    }

    private boolean inRoom(Placed placed) {
        return placed.step() == StepKind.PROCEDURE
                && preparation.get(placed.referralId()).inRoom();
    }

    /** One question for each who has been told. */
    static List<String> questions(List<Change> changes) {
        return changes.stream().filter(Change::told).map(Change::asks).toList();
    }

    /** One sentence for each who had been told. */
    static List<String> remarks(List<Change> changes) {
        return changes.stream().filter(Change::told).map(Change::says).toList();
    }

    /** After a person has said yes: whoever had been told counts as not told any more; booked procedures follow. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void follow(List<Change> changes) {
        for (var change : changes) {
            var placed = change.placed();
            if (placed.step() == StepKind.PROCEDURE) {
                // A case that is not being prepared any more keeps the date that it had.
                book(placed.referralId(), change.to(), change.place(), true);
            }
            if (placed.told()
                    && !store.untold(
                            placed.id(),
                            placed.version(),
                            currentPerson.get(),
                            clock.instant().truncatedTo(ChronoUnit.MICROS))) {
                throw new IllegalStateException("an appointment changed under its lock");
            }
        }
        publish(changes);
    }

    /** What was written of the old times holds no more; of the new ones it is written when they have been told. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void publish(List<Change> changes) {
        changes.stream()
                .map(Change::placed)
                .forEach(placed -> events.publishEvent(new AppointmentMoved(placed.referralId(), placed.step())));
    }

    /**
     * Gives the procedure its date and its room.
     *
     * @param ifBooked whether only a procedure that has a date already gets this one
     * @return why that cannot be
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public Optional<TimetableOutcome> book(long referralId, LocalDateTime starts, String room, boolean ifBooked) {
        var booking = preparation.get(referralId).booking();
        if (ifBooked && booking.isEmpty()) {
            return Optional.empty();
        }
        return switch (preparation.bookInSession(
                referralId, booking.map(ProcedureBooking::version).orElse(0), starts, room)) {
            case PreparationOutcome.Done _ -> Optional.empty();
            case PreparationOutcome.Overtaken _ -> Optional.of(new Overtaken());
            case PreparationOutcome.Refused(var why) -> Optional.of(new Refused(why));
        };
    }
}
