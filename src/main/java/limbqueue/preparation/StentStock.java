package limbqueue.preparation;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.preparation.PreparationOutcome.Done;
import limbqueue.preparation.PreparationOutcome.Overtaken;
import limbqueue.preparation.PreparationOutcome.Refused;
import limbqueue.preparation.jdbc.CoveredStentStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The covered stents on the shelf. */
@Service
public class StentStock {

    private final CoveredStentStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    StentStock(CoveredStentStore store, CurrentPerson currentPerson, AuditTrail auditTrail, Clock clock) {
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** In order of diameter, length and expiry; those used up among them. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<CoveredStent> all() {
        return store.all();
    }

    /**
     * Adds stents of one size and lot in one place.
     *
     * @param diameterMm 3 to 40
     * @param lengthMm 10 to 300
     * @param sheathFrench the sheath they need, 4 to 24
     * @param expires the last day on which they may be used, today or later
     * @param count 1 to 1000
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public PreparationOutcome add(
            double diameterMm,
            double lengthMm,
            int sheathFrench,
            LocalDate expires,
            String lot,
            String place,
            int count) {
        if (!(diameterMm >= 3 && diameterMm <= 40)) {
            return new Refused("A covered stent is 3 to 40 mm wide.");
        }
        if (!(lengthMm >= 10 && lengthMm <= 300)) {
            return new Refused("A covered stent is 10 to 300 mm long.");
        }
        if (sheathFrench < 4 || sheathFrench > 24) {
            return new Refused("Sheaths are 4 to 24 French.");
        }
        if (expires.isBefore(LocalDate.now(clock))) {
            return new Refused("It has expired: do not put it on the shelf.");
        }
        if (lot.isBlank() || place.isBlank()) {
            return new Refused("Say which lot it is and where it lies.");
        }
        if (count < 1 || count > 1000) {
            return new Refused("Say how many there are, 1 to 1000.");
        }
        var me = currentPerson.get();
        var at = clock.instant().truncatedTo(ChronoUnit.MICROS);
        if (!store.add(diameterMm, lengthMm, sheathFrench, expires, lot.strip(), place.strip(), count, me, at)) {
            return new Refused("This lot of this size is there already: count it anew instead.");
        }
        auditTrail.record("added to the stock", "lot " + lot.strip());
        return new Done();
    }

    /**
     * Says how many of a stent there are now.
     *
     * @param version the version that was looked at
     * @param count 0 to 1000
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public PreparationOutcome count(long id, int version, int count) {
        if (count < 0 || count > 1000) {
            return new Refused("Say how many there are, 0 to 1000.");
        }
        var me = currentPerson.get();
        if (!store.count(id, version, count, me, clock.instant().truncatedTo(ChronoUnit.MICROS))) {
            return new Overtaken();
        }
        auditTrail.record("counted the stock of", "covered stent " + id);
        return new Done();
    }
}
