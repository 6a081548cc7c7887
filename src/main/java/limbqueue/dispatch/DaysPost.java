package limbqueue.dispatch;

import static limbqueue.access.Role.IS_COORDINATOR;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.OutgoingLetters;
import limbqueue.print.JoinedPdf;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The letters that a person prints, puts into envelopes and carries to the post. */
@Service
public class DaysPost {

    private final OutboxStore store;
    private final OutgoingLetters letters;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    DaysPost(
            OutboxStore store,
            OutgoingLetters letters,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.letters = letters;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** The letters that go by post and may leave, the oldest first. */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional(readOnly = true)
    public List<Dispatch> waiting() {
        var now = clock.instant();
        return store.all().stream()
                .filter(way -> way.channel() == Channel.POST
                        && way.state() == DispatchState.TO_SEND
                        && !now.isBefore(way.leavesFrom()))
                .toList();
    }

    /**
     * Letters that go by post, as one file to print, in this order.
     *
     * @throws NotPossibleException if there are none
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public byte[] batch(List<Dispatch> ways) {
        if (ways.isEmpty()) {
            throw new NotPossibleException("No letter goes by post at this moment.");
        }
        return JoinedPdf.of(
                "Letters to post",
                "en-GB",
                ways.stream().map(way -> letters.pdf(way.letterId())).toList());
    }

    /**
     * Records that a batch was posted.
     *
     * @param ways as they were when the batch was printed
     * @return how many were; a letter that was held or sent another way meanwhile is left as it is
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public int posted(List<Dispatch> ways) {
        var now = clock.instant().truncatedTo(ChronoUnit.MICROS);
        var name = currentPerson.get().displayName();
        var posted = 0;
        for (var way : ways) {
            letters.lock(way.letterId());
            if (store.move(way, DispatchState.SENT, way.address(), "", way.dueAt(), name, now)) {
                letters.left(way.letterId(), now, name);
                auditTrail.record(
                        "posted a letter about", letters.letter(way.letterId()).reference());
                posted++;
            }
        }
        return posted;
    }
}
