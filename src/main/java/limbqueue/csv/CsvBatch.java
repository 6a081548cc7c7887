package limbqueue.csv;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.csv.jdbc.CsvStore;
import limbqueue.referral.Referrals;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Takes rows in, a transaction a batch: what is in is in, however the rest ends. */
@Component
class CsvBatch {

    /** Rows of one transaction. */
    static final int ROWS = 50;

    private final CsvStore store;
    private final Referrals referrals;
    private final AuditTrail auditTrail;
    private final Clock clock;

    CsvBatch(CsvStore store, Referrals referrals, AuditTrail auditTrail, Clock clock) {
        this.store = store;
        this.referrals = referrals;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    @Transactional
    public void begin(long id, Mapping mapping, String header) {
        store.begin(id, mapping);
        store.keep(header, mapping);
        auditTrail.record("began to import", "file " + id);
    }

    /** @return false if somebody stopped it */
    @Transactional
    public boolean take(long id, List<CsvFile.Row> rows, RowReader reader) {
        if (!store.takeTurn(id)) {
            return false;
        }
        var entered = 0;
        var known = 0;
        var refused = 0;
        for (var row : rows) {
            if (row.wrong().isPresent()) {
                refused++;
                continue;
            }
            var digest = reader.digest(row);
            if (store.isKnown(digest)) {
                known++;
                continue;
            }
            var referral = referrals.enter(reader.read(row).document().toJson());
            store.add(digest, id, row.line(), referral.id(), clock.instant().truncatedTo(ChronoUnit.MICROS));
            entered++;
        }
        store.count(id, entered, known, refused);
        return true;
    }

    @Transactional
    public void end(long id) {
        store.end(id);
        auditTrail.record("imported", "file " + id);
    }
}
