package limbqueue.timetable;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import limbqueue.booking.StepMinutes;

/**
 * A session with whoever is in it.
 *
 * @param patients in their order
 */
public record FilledSession(KeptSession kept, List<Placed> patients) {

    /** The minutes that its patients are expected to take together, and those that emergencies take beside them. */
    public long expected() {
        return kept.emergencyMinutes()
                + patients.stream().mapToLong(one -> one.minutes().expected()).sum();
    }

    /** Expected minutes beyond its end, 0 or more. */
    public long over() {
        return Math.max(0, expected() - kept.session().minutes());
    }

    /** What is free on {@code day} of the minutes that are kept for urgent cases. */
    public long heldAndFree(LocalDate day) {
        return Math.clamp(
                kept.session().minutes() - expected(), 0, kept.session().keptOn(day));
    }

    /** How many minutes longer it would have to be to end in time in nine of ten cases, 0 or more. */
    public long overrun() {
        return StepMinutes.overrun(
                expected(),
                patients.stream().mapToLong(one -> one.minutes().variance()).sum(),
                kept.session().minutes());
    }

    /** Minutes of this patient that are expected beyond the end, 0 or more. */
    public long overOf(Placed patient) {
        var until = before(patient) + patient.minutes().expected();
        return Math.clamp(until - kept.session().minutes(), 0, patient.minutes().expected());
    }

    /** When this patient is expected, if all before take as long as expected. */
    public LocalDateTime startsFor(Placed patient) {
        return kept.session().start().plusMinutes(before(patient));
    }

    /** An emergency takes none of the times of which patients have been told. */
    private long before(Placed patient) {
        return patients.stream()
                .takeWhile(one -> one.id() != patient.id())
                .mapToLong(one -> one.minutes().expected())
                .sum();
    }
}
