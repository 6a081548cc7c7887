package limbqueue.preparation;

import java.time.Instant;
import java.time.LocalDate;

/**
 * Covered stents of one size and lot in one place.
 *
 * @param diameterMm nominal diameter, 3 to 40
 * @param lengthMm 10 to 300
 * @param sheathFrench the sheath it needs, 4 to 24
 * @param expires the last day on which it may be used
 * @param count how many there are, 0 to 1000
 * @param promised for how many cases that are not over one of them is confirmed
 */
public record CoveredStent(
        long id,
        int version,
        double diameterMm,
        double lengthMm,
        int sheathFrench,
        LocalDate expires,
        String lot,
        String place,
        int count,
        int promised,
        String author,
        Instant at) {

    public boolean expiredOn(LocalDate day) {
        return expires.isBefore(day);
    }
}
