package limbqueue.csv;

import static limbqueue.access.Role.IS_COORDINATOR;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.csv.jdbc.CsvStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Files with commas, from the upload to the last row. Whatever breaks off can be begun again: no row becomes two referrals. */
@Service
@RolesAllowed(IS_COORDINATOR)
public class CsvImports {

    private static final Logger LOG = LoggerFactory.getLogger(CsvImports.class);

    private final CsvStore store;
    private final CsvBatch batch;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    /** Imports that run in this very process. */
    private final Set<Long> running = ConcurrentHashMap.newKeySet();

    CsvImports(CsvStore store, CsvBatch batch, CurrentPerson currentPerson, AuditTrail auditTrail, Clock clock) {
        this.store = store;
        this.batch = batch;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * Keeps a file.
     *
     * @throws RefusedFileException if it cannot be read as a table
     */
    @Transactional
    public CsvImport load(String name, byte[] content) throws RefusedFileException {
        var file = CsvFile.read(content);
        var loaded = store.add(
                name.isBlank() ? "table.csv" : name.strip(),
                content,
                file.rows().size(),
                currentPerson.get(),
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record("loaded as CSV", "file " + loaded.id() + ", " + loaded.rows() + " rows");
        return loaded;
    }

    @Transactional(readOnly = true)
    public Optional<CsvImport> find(long id) {
        return store.find(id);
    }

    /** The latest files, the newest first. */
    @Transactional(readOnly = true)
    public List<CsvImport> latest() {
        return store.latest();
    }

    /** The file as it can be read. */
    @Transactional(readOnly = true)
    public CsvFile file(long id) {
        return read(id);
    }

    /** What the columns are: as said for this file, or for the last with the same header, or as they are called. */
    @Transactional(readOnly = true)
    public Mapping mapping(long id) {
        var file = read(id);
        return store.find(id)
                .flatMap(CsvImport::mapping)
                .or(() -> store.mapping(header(file)))
                .orElseGet(() -> ColumnGuess.of(file));
    }

    /** The order of dates if the dates tell it; empty if they can be read in two ways. */
    @Transactional(readOnly = true)
    public Optional<DateOrder> dateOrder(long id, Mapping mapping) {
        return ColumnGuess.dateOrder(read(id), mapping.fields());
    }

    /** Reads every row as it would be taken in, and takes none in. */
    @Transactional(readOnly = true)
    public DryRun dryRun(long id, Mapping mapping) {
        var file = read(id);
        var reader = new RowReader(file, mapping, today());
        var problems = new ArrayList<CellProblem>();
        var known = store.known(digests(file, reader));
        var met = new HashSet<String>();
        var fresh = 0;
        var before = 0;
        var refused = 0;
        for (var row : file.rows()) {
            if (row.wrong().isPresent()) {
                problems.add(new CellProblem(
                        row.line(), "", "", row.wrong().get().what(), row.wrong().get().todo()));
                refused++;
                continue;
            }
            var digest = reader.digest(row);
            if (known.contains(digest) || !met.add(digest)) {
                before++;
                continue;
            }
            problems.addAll(reader.read(row).problems());
            fresh++;
        }
        return new DryRun(fresh, before, refused, problems);
    }

    private static List<String> digests(CsvFile file, RowReader reader) {
        return file.rows().stream()
                .filter(row -> row.wrong().isEmpty())
                .map(reader::digest)
                .toList();
    }

    /**
     * Begins to take the rows in, or goes on where it was broken off, behind the back of whoever asks.
     *
     * @return false if it runs already
     */
    public boolean start(long id, Mapping mapping) {
        var file = read(id);
        if (!running.add(id)) {
            return false;
        }
        try {
            batch.begin(id, mapping, header(file));
        } catch (RuntimeException failed) {
            running.remove(id);
            throw failed;
        }
        var person = SecurityContextHolder.getContext().getAuthentication();
        Thread.ofVirtual().name("csv-" + id).start(() -> {
            var context = SecurityContextHolder.createEmptyContext();
            context.setAuthentication(person);
            SecurityContextHolder.setContext(context);
            try {
                run(id, file, new RowReader(file, mapping, today()));
            } catch (RuntimeException failed) {
                // What is in stays in; the page shows how far it came, and that it can go on.
                LOG.error("the import of file {} broke off", id, failed);
            } finally {
                running.remove(id);
                SecurityContextHolder.clearContext();
            }
        });
        return true;
    }

    private void run(long id, CsvFile file, RowReader reader) {
        for (var from = 0; from < file.rows().size(); from += CsvBatch.ROWS) {
            var rows = file.rows().subList(from, Math.min(from + CsvBatch.ROWS, file.rows().size()));
            if (!batch.take(id, rows, reader)) {
                return;
            }
        }
        batch.end(id);
    }

    /** Whether it runs in this very process; one that says so and does not was broken off. */
    public boolean isRunning(long id) {
        return running.contains(id);
    }

    /** Stops after the batch at hand. What is in stays in. */
    @Transactional
    public void cancel(long id) {
        if (store.cancel(id)) {
            auditTrail.record("stopped the import of", "file " + id);
        }
    }

    private CsvFile read(long id) {
        try {
            return CsvFile.read(store.content(id));
        } catch (RefusedFileException changed) {
            throw new IllegalStateException("file " + id + " could be read when it was loaded", changed);
        }
    }

    private static String header(CsvFile file) {
        return RowReader.digest(String.join("\u0001", file.columns()));
    }

    private LocalDate today() {
        return LocalDate.now(clock);
    }
}
