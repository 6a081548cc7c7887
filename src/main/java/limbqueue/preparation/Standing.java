package limbqueue.preparation;

import java.time.LocalDate;

/** How far an item of the work-up has come. */
public sealed interface Standing {

    /** Nobody has done anything about it. */
    record Wanted() implements Standing {}

    /**
     * @param of who was asked; never blank
     * @param chaseOn the day on which to ask again; not before {@code on}
     */
    record Asked(String of, LocalDate on, LocalDate chaseOn) implements Standing {}

    /** @param where never blank */
    record Booked(LocalDate on, String where) implements Standing {}

    record In(LocalDate on) implements Standing {}

    /** @param reason never blank */
    record NotNeeded(String reason) implements Standing {}
}
