package limbqueue.letter;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.referral.DecisionRecord;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Letters to referring doctors. */
@Service
public class Letters {

    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private final LetterStore store;
    private final OutgoingLetters outgoing;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;
    private final ObjectProvider<LetterUnderway> underway;

    Letters(
            LetterStore store,
            OutgoingLetters outgoing,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock,
            ObjectProvider<LetterUnderway> underway) {
        this.store = store;
        this.outgoing = outgoing;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
        this.underway = underway;
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
        return outgoing.pdf(id);
    }

    /** From when on a letter may leave; nothing for one that tells of no decision. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Instant> leavesFrom(long id) {
        return store.decisionWrittenAt(id).map(written -> written.plus(DecisionRecord.FINAL_AFTER));
    }

    /**
     * Records that the letter has left, and by whom. Marking it twice changes nothing. A letter that tells of a decision waits
     * until the decision is final.
     *
     * @throws NotPossibleException if the decision can still be taken back, or was, or the letter is being sent
     * @throws LetterNotFoundException if there is none with this id
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public Letter markSent(long id) {
        store.lock(id);
        if (store.withdrawn(id)) {
            throw new NotPossibleException(
                    "What this letter tells of does not hold any more: the decision was taken back, or the date was changed."
                            + " It stays here and is not sent.");
        }
        var now = clock.instant();
        var leaves = leavesFrom(id).filter(now::isBefore);
        if (leaves.isPresent()) {
            throw new NotPossibleException("The physician can take the decision back until " + TIME.format(leaves.get())
                    + ". The letter leaves after that.");
        }
        if (underway.stream().anyMatch(sender -> sender.isUnderway(id))) {
            throw new NotPossibleException(
                    "This letter is being sent at this moment. Wait a minute, and see what became of it.");
        }
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
