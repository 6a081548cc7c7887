package limbqueue.preparation.jdbc;

import java.time.LocalDate;
import limbqueue.preparation.Standing;
import org.jspecify.annotations.Nullable;

/** A standing as the columns of its row; null in those that its state has not. */
final class Columns {

    final String state;

    @Nullable
    String askedOf;

    @Nullable
    LocalDate askedOn;

    @Nullable
    LocalDate chaseOn;

    @Nullable
    LocalDate bookedFor;

    @Nullable
    String bookedWhere;

    @Nullable
    LocalDate cameOn;

    @Nullable
    String reason;

    Columns(Standing standing) {
        switch (standing) {
            case Standing.Wanted _ -> state = "WANTED";
            case Standing.Asked(var of, var on, var chase) -> {
                state = "ASKED";
                askedOf = of;
                askedOn = on;
                chaseOn = chase;
            }
            case Standing.Booked(var on, var where) -> {
                state = "BOOKED";
                bookedFor = on;
                bookedWhere = where;
            }
            case Standing.In(var on) -> {
                state = "IN";
                cameOn = on;
            }
            case Standing.NotNeeded(var why) -> {
                state = "NOT_NEEDED";
                reason = why;
            }
        }
    }
}
