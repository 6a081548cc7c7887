package limbqueue.letter;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.letter.jdbc.LetterStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Letters to referring doctors. */
@Service
public class Letters {

    private final LetterStore store;
    private final LetterPage page;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final JsonMapper json;
    private final Clock clock;

    Letters(
            LetterStore store,
            LetterPage page,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            JsonMapper json,
            Clock clock) {
        this.store = store;
        this.page = page;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.json = json;
        this.clock = clock;
    }

    /** Unsent letters first, oldest first; then the sent ones, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Letter> all() {
        return store.all();
    }

    /** The letters about one referral, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Letter> about(long referralId) {
        return store.about(referralId);
    }

    /**
     * The letter as PDF: set when it is first wanted, and the same bytes ever after.
     *
     * @throws LetterNotFoundException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public byte[] pdf(long id) {
        return store.pdf(id).orElseGet(() -> {
            var parts = store.parts(id).orElseThrow(() -> new LetterNotFoundException(id));
            store.keepPdf(id, page.print(json.readValue(parts, Parts.class)));
            // Not the bytes just set: somebody else may have been first.
            return store.pdf(id).orElseThrow();
        });
    }

    /**
     * Records that the letter has left, and by whom. Marking it twice changes nothing.
     *
     * @throws LetterNotFoundException if there is none with this id
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public Letter markSent(long id) {
        pdf(id);
        var marked = store.markSent(
                id,
                clock.instant().truncatedTo(ChronoUnit.MICROS),
                currentPerson.get().displayName());
        var letter = store.find(id).orElseThrow(() -> new LetterNotFoundException(id));
        if (marked) {
            auditTrail.record("sent a letter about", letter.reference());
        }
        return letter;
    }
}
