package limbqueue.referral;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.referral.jdbc.LatestProposalStore;
import limbqueue.referral.jdbc.ReferralStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Referrals whose tier, target date or red flags moved while they wait, until a physician has decided on them or said that
 * the difference is seen.
 */
@Service
public class Moves {

    private final LatestProposalStore store;
    private final ReferralStore referrals;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    Moves(
            LatestProposalStore store,
            ReferralStore referrals,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.referrals = referrals;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * Those that nobody has seen: most urgent now first, then the one that moved first. One that moved back is not among
     * them.
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional(readOnly = true)
    public List<Moved> unseen() {
        return gathered(store.unseen(Optional.empty())).toList();
    }

    /** What moved of this referral and is not seen yet. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Moved> of(long referralId) {
        return gathered(store.unseen(Optional.of(referralId))).findFirst();
    }

    /**
     * Says that the difference is seen. What moves afterwards comes up again.
     *
     * @throws ReferralNotFoundException if there is no such referral
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public void seen(Moved moved) {
        var referral =
                referrals.find(moved.referralId()).orElseThrow(() -> new ReferralNotFoundException(moved.referralId()));
        store.seen(
                moved.referralId(),
                moved.upTo(),
                currentPerson.get(),
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record("saw what moved of", referral.reference());
    }

    private static Stream<Moved> gathered(List<Move> moves) {
        Map<Long, List<Move>> byReferral =
                moves.stream().collect(Collectors.groupingBy(Move::referralId, TreeMap::new, Collectors.toList()));
        return byReferral.entrySet().stream()
                .map(entry -> new Moved(entry.getKey(), entry.getValue()))
                .filter(moved -> moved.after().differsFrom(moved.before()))
                .sorted(Comparator.comparing((Moved moved) -> moved.after().tier())
                        .thenComparing(Moved::since)
                        .thenComparing(Moved::referralId));
    }
}
