package limbqueue.referral;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.document.Draft;
import limbqueue.practice.PracticeSettings;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.ReferralStore;
import limbqueue.referral.jdbc.SecondLookStore;
import limbqueue.triage.Triage;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Lowered tiers before a second physician. */
@Service
public class SecondLooks {

    private final SecondLookStore looks;
    private final ReferralStore store;
    private final Deciding deciding;
    private final PracticeSettings settings;
    private final RuleBooks books;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    SecondLooks(
            SecondLookStore looks,
            ReferralStore store,
            Deciding deciding,
            PracticeSettings settings,
            RuleBooks books,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.looks = looks;
        this.store = store;
        this.deciding = deciding;
        this.settings = settings;
        this.books = books;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * The look that a referral in the queue waits for, or the one that was answered with no since the referral last changed;
     * empty otherwise.
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<SecondLook> of(long referral) {
        return looks.latest(referral);
    }

    /** Referrals in the queue that wait for a second physician. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Set<Long> waiting() {
        return looks.waiting();
    }

    /**
     * Agrees, as a second physician: the lowered tier counts, as the decision of the first.
     *
     * @param lookId the look that was read
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public SecondLookOutcome agree(long referral, long lookId) {
        var before = store.findLocked(referral).orElseThrow(() -> new ReferralNotFoundException(referral));
        var me = currentPerson.get();
        var found = open(before, lookId);
        if (found.isEmpty()) {
            return over();
        }
        var look = found.get();
        if (look.account() == me.id()) {
            return mine();
        }
        var asOf = LocalDate.now(clock);
        var policy = settings.policy();
        var document = Draft.of(before.document()).read(asOf).document();
        var book = books.inForce();
        books.keep();
        var proposal = Triage.triage(document, policy, book, asOf);
        if (proposal.urgency().tier() != look.proposedTier()) {
            return new SecondLookOutcome.Refused(
                    "The proposal is not the one that " + look.author() + " would lower: it is "
                            + TierPhrase.of(proposal.urgency().tier(), policy)
                            + " now. Decide on what is proposed today.");
        }
        var decision = new Decision.Change(look.tier(), look.categories(), look.reason());
        return switch (Ruling.on(decision, proposal, policy, document.received().orElse(asOf))) {
            case Ruling.Refused(var why) -> new SecondLookOutcome.Refused(why);
            case Ruling.Stands ruling -> {
                var first = new Person(look.account(), "", look.author(), Role.PHYSICIAN);
                var decided = deciding.settle(before, ruling, document, proposal, policy, book, first, now());
                looks.answer(
                        look.id(), me, now(), "", Optional.of(decided.decision().id()));
                auditTrail.record("agreed as second physician on", before.reference());
                yield new SecondLookOutcome.Agreed(decided.referral(), decided.decision());
            }
        };
    }

    /**
     * Does not agree, as a second physician: the proposal stands and the referral is decided anew.
     *
     * @param lookId the look that was read
     * @param why in one's own words
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public SecondLookOutcome disagree(long referral, long lookId, String why) {
        var before = store.findLocked(referral).orElseThrow(() -> new ReferralNotFoundException(referral));
        var me = currentPerson.get();
        var found = open(before, lookId);
        if (found.isEmpty()) {
            return over();
        }
        if (found.get().account() == me.id()) {
            return mine();
        }
        if (why.codePoints().noneMatch(Character::isLetterOrDigit)) {
            return new SecondLookOutcome.Refused("Say why not, so that the first physician can decide anew.");
        }
        looks.answer(lookId, me, now(), why.strip(), Optional.empty());
        var touched = store.touch(referral, before.version())
                .orElseThrow(
                        () -> new IllegalStateException("referral " + before.reference() + " changed under its lock"));
        auditTrail.record("did not agree as second physician on", before.reference());
        return new SecondLookOutcome.NotAgreed(touched);
    }

    private Optional<SecondLook> open(Referral before, long lookId) {
        return looks.latest(before.id())
                .filter(look -> look.id() == lookId && look.answer().isEmpty() && look.version() == before.version());
    }

    private static SecondLookOutcome over() {
        return new SecondLookOutcome.Refused(
                "It has been answered, or the referral has changed since. Open the referral to see how it stands.");
    }

    private static SecondLookOutcome mine() {
        return new SecondLookOutcome.Refused("You are the first physician here. Another one has to look.");
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
