package limbqueue.timetable;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.function.Predicate;
import limbqueue.booking.StepMinutes;

/**
 * A session with whoever is in it.
 *
 * @param patients in their order
 * @param zone of the practice, whose clock its times are on
 */
public record FilledSession(KeptSession kept, List<Placed> patients, ZoneId zone) {

    /** The minutes that its patients are expected to take together, and those that emergencies take beside them. */
    public long expected() {
        return kept.emergencyMinutes() + ofPatients();
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
        return after(before(patient));
    }

    /** When this patient is done, if all up to this one take as long as expected. */
    LocalDateTime endsFor(Placed patient) {
        return after(before(patient) + patient.minutes().expected());
    }

    /** When whoever comes next into it is expected. */
    LocalDateTime startsForTheNext() {
        return after(ofPatients());
    }

    /** The same session without this patient; the others stay in their order. */
    FilledSession without(Placed patient) {
        return without(one -> one.id() == patient.id());
    }

    /** The same session without whoever leaves it; the others stay in their order. */
    FilledSession without(Predicate<Placed> leaving) {
        return new FilledSession(
                kept, patients.stream().filter(leaving.negate()).toList(), zone);
    }

    /** What the clock shows after so many minutes, which is not their sum in a night in which clocks are changed. */
    private LocalDateTime after(long minutes) {
        return kept.session().start().atZone(zone).plusMinutes(minutes).toLocalDateTime();
    }

    private long ofPatients() {
        return patients.stream().mapToLong(one -> one.minutes().expected()).sum();
    }

    /** An emergency takes none of the times of which patients have been told. */
    private long before(Placed patient) {
        return patients.stream()
                .takeWhile(one -> one.id() != patient.id())
                .mapToLong(one -> one.minutes().expected())
                .sum();
    }
}
