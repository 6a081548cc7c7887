package limbqueue.referral;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.directory.Directory;
import limbqueue.document.Draft;
import limbqueue.document.Reading;
import limbqueue.practice.PracticeSettings;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.ReferralQuery;
import limbqueue.referral.jdbc.ReferralStore;
import limbqueue.referral.jdbc.SecondLookStore;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** A referral's life, from the first keystroke to the decision. */
@Service
public class Referrals {

    private final ReferralStore store;
    private final ReferralQuery query;
    private final LatestProposals latest;
    private final ProposedCases proposedCases;
    private final Deciding deciding;
    private final SecondLookRule secondLookRule;
    private final SecondLookStore looks;
    private final TriagedDocuments triaged;
    private final PracticeSettings settings;
    private final RuleBooks books;
    private final Directory directory;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    Referrals(
            ReferralStore store,
            ReferralQuery query,
            LatestProposals latest,
            ProposedCases proposedCases,
            Deciding deciding,
            SecondLookRule secondLookRule,
            SecondLookStore looks,
            TriagedDocuments triaged,
            PracticeSettings settings,
            RuleBooks books,
            Directory directory,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events,
            Clock clock) {
        this.store = store;
        this.query = query;
        this.latest = latest;
        this.proposedCases = proposedCases;
        this.deciding = deciding;
        this.secondLookRule = secondLookRule;
        this.looks = looks;
        this.triaged = triaged;
        this.settings = settings;
        this.books = books;
        this.directory = directory;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
        this.clock = clock;
    }

    /** Starts a draft received today, with a reference of its own. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public Referral begin() {
        var today = today();
        var reference = reference(today);
        var draft = Draft.empty();
        draft.set("reference", reference);
        draft.set("received", today.toString());
        var referral = store.add(reference, today, draft.toJson(), me(), now());
        auditTrail.record("began", reference);
        return referral;
    }

    /**
     * Starts a draft from a document that arrived, and keeps it as it came. A reference or a day of receipt that it lacks
     * is added; so is a reference of our own where another referral has the one it brings.
     *
     * @throws IllegalArgumentException if {@code document} is not a JSON object
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public Referral enter(String document) {
        var today = today();
        var draft = Draft.of(document);
        var arrived = draft.read(today).document();
        var brought = arrived.reference().filter(reference -> !reference.isBlank() && !store.referenceTaken(reference));
        var reference = brought.orElseGet(() -> reference(today));
        if (brought.isEmpty()) {
            draft.set("reference", reference);
        }
        if (draft.get("received").isEmpty()) {
            draft.set("received", today.toString());
        }
        var kept = brought.isPresent() && arrived.received().isPresent() ? document : draft.toJson();
        var referral = store.add(reference, arrived.received().orElse(today), kept, me(), now());
        auditTrail.record("entered", reference);
        return referral;
    }

    /**
     * The referral as it is held.
     *
     * @throws ReferralNotFoundException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Referral get(long id) {
        return store.find(id).orElseThrow(() -> new ReferralNotFoundException(id));
    }

    /**
     * Saves the document of a referral that is still open (draft, information needed, or queued). A queued referral stays
     * in the queue; a physician who then decides on what was there before is told. The reference stays as it was given
     * out, whatever the document says.
     *
     * @return a conflict also when a physician has decided meanwhile; the document is kept in either case
     * @throws ReferralNotFoundException if there is none with this id
     * @throws IllegalArgumentException if {@code document} is not a JSON object
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public SaveOutcome save(long id, int version, String document) {
        var reading = Draft.of(document).read(today());
        var before = get(id);
        if (before.version() == version && before.document().equals(document)) {
            return new SaveOutcome.Saved(before);
        }
        var received = reading.document().received().orElse(before.received());
        var saved = store.save(id, version, received, document, me(), now());
        if (saved.isPresent()) {
            if (saved.get().state() != ReferralState.DRAFT) {
                keepProposal(before, reading);
            }
            auditTrail.record("saved", before.reference());
            return new SaveOutcome.Saved(saved.get());
        }
        var theirs = get(id);
        store.keepOvertaken(id, version, theirs.state(), document, me(), now());
        auditTrail.record("saved a version that was overtaken", theirs.reference());
        return new SaveOutcome.Conflict(theirs, document);
    }

    /**
     * Saves the document with results that have come in, also of a referral that is approved already. If what was decided
     * on is still proposed, the decision stands. If a result changes the tier, the date, a grade, a red flag or what must be
     * in the room, the referral is before the physician again, with what changed.
     *
     * @throws ReferralNotFoundException if there is none with this id
     * @throws IllegalArgumentException if {@code document} is not a JSON object
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ResultsOutcome enterResults(long id, int version, String document) {
        var before = store.findLocked(id).orElseThrow(() -> new ReferralNotFoundException(id));
        var reading = Draft.of(document).read(today());
        var open = switch (before.state()) {
            case DRAFT, QUEUED, INFORMATION_NEEDED, APPROVED -> true;
            case RETURNED, SENT_TO_HOSPITAL -> false;
        };
        if (before.version() != version || !open || store.isPart(id)) {
            store.keepOvertaken(id, version, before.state(), document, me(), now());
            auditTrail.record("entered results that were overtaken", before.reference());
            return new ResultsOutcome.Overtaken(before);
        }
        var known = Draft.of(before.document()).read(today()).problems();
        var problems = reading.problems().stream()
                .filter(problem -> !known.contains(problem))
                .toList();
        if (!problems.isEmpty()) {
            return new ResultsOutcome.NotRight(problems);
        }
        if (before.document().equals(document)) {
            return new ResultsOutcome.Entered(before, List.of());
        }
        var decision = before.state() == ReferralState.APPROVED
                ? Optional.of(store.decisions(id).getFirst())
                : Optional.<DecisionRecord>empty();
        var changes = decision.map(standing -> WhatChanged.between(
                        propose(Draft.of(standing.document()).read(today())), propose(reading), settings.policy()))
                .orElse(List.of());
        var at = now();
        if (!changes.isEmpty()) {
            store.add(
                    new Reopening(id, version + 1, decision.orElseThrow().id(), changes, me().displayName(), at), me());
        }
        var received = reading.document().received().orElse(before.received());
        var state = changes.isEmpty() ? before.state() : ReferralState.QUEUED;
        var entered = store.enterResults(id, version, state, received, document, me(), at)
                .orElseThrow(
                        () -> new IllegalStateException("referral " + before.reference() + " changed under its lock"));
        if (entered.state() != ReferralState.DRAFT) {
            keepProposal(before, reading);
        }
        auditTrail.record(
                changes.isEmpty() ? "entered results of" : "entered results that put back", before.reference());
        return new ResultsOutcome.Entered(entered, changes);
    }

    /**
     * Why a queued referral that was decided on before is before the physician again; empty if it was not decided on since
     * it was last submitted, or has been decided on again.
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Reopening> reopening(long id) {
        return store.reopening(id);
    }

    /**
     * Puts a draft, or one sent back for information, before the physician. Submitting what is in the queue already
     * changes nothing.
     *
     * @throws ReferralNotFoundException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public SubmitOutcome submit(long id, int version) {
        var before = store.findLocked(id).orElseThrow(() -> new ReferralNotFoundException(id));
        if (before.version() != version || store.isPart(id)) {
            return new SubmitOutcome.Conflict(before);
        }
        var reading = Draft.of(before.document()).read(today());
        if (!reading.complete()) {
            return new SubmitOutcome.NotYet(reading.problems());
        }
        if (before.state() == ReferralState.QUEUED) {
            return new SubmitOutcome.Submitted(before);
        }
        var submitted = store.submit(id, version, me(), now());
        if (submitted.isEmpty()) {
            return new SubmitOutcome.Conflict(before);
        }
        keepProposal(before, reading);
        directory.takeIn(reading.document(), today());
        auditTrail.record("submitted", before.reference());
        events.publishEvent(new ReferralSubmitted(submitted.get(), reading.document()));
        return new SubmitOutcome.Submitted(submitted.get());
    }

    /**
     * Decides on a queued referral, on exactly the document of {@code version}. A tier lowered against a red flag, or while a
     * leg is threatened, waits for a second physician where the practice wants one and there is one.
     *
     * @throws ReferralNotFoundException if there is none with this id
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public DecideOutcome decide(long id, int version, Decision decision) {
        var before = store.findLocked(id).orElseThrow(() -> new ReferralNotFoundException(id));
        if (before.version() != version || before.state() != ReferralState.QUEUED || store.isPart(id)) {
            return new DecideOutcome.Changed(before, store.decidedSince(id, version));
        }
        var asOf = today();
        var policy = settings.policy();
        var document = Draft.of(before.document()).read(asOf).document();
        var book = books.inForce();
        books.keep();
        var proposal = Triage.triage(document, policy, book, asOf);
        return switch (Ruling.on(decision, proposal, policy, document.received().orElse(asOf))) {
            case Ruling.Refused(var why) -> new DecideOutcome.Refused(why);
            case Ruling.Stands ruling -> {
                var me = me();
                var against = ruling.kind() == DecisionKind.CHANGED
                        ? secondLookRule.against(Lowering.of(ruling.tier(), proposal), policy, me)
                        : List.<String>of();
                if (!against.isEmpty()) {
                    var waiting = store.touch(id, version)
                            .orElseThrow(() -> new IllegalStateException(
                                    "referral " + before.reference() + " changed under its lock"));
                    var look = looks.ask(
                            waiting, ruling.tier(), ruling.categories(), ruling.reason(), proposal, against, me, now());
                    auditTrail.record("asked for a second look at", before.reference());
                    yield new DecideOutcome.AwaitsSecondLook(waiting, look);
                }
                yield deciding.settle(before, ruling, document, proposal, policy, book, me, now());
            }
        };
    }

    /** Queued referrals: most urgent tier first, then target date, then who waited longest, then whose leg gets worse. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<ReferralLine> queue() {
        return lines().of(query.queued(), ReferralLines.MOST_URGENT_FIRST);
    }

    /** Every referral for the office: open ones first, then those decided, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<ReferralLine> worklist() {
        return lines().of(query.all(), ReferralLines.OPEN_FIRST);
    }

    /**
     * These referrals with what is proposed for them today, in the order of their ids. One that is not there is left out.
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<ProposedCase> proposed(Collection<Long> ids) {
        return proposedCases.of(ids);
    }

    /**
     * Takes a decision back that one has made oneself, within {@link DecisionRecord#FINAL_AFTER}. The referral is before the
     * physicians again; what was decided and that it was taken back both stay in its timeline.
     *
     * @throws IllegalArgumentException if there is no decision with this id
     * @throws limbqueue.access.NotPossibleException if something that was made of it cannot be undone, as a letter that left
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public TakeBackOutcome takeBack(long decisionId) {
        var decision = store.decision(decisionId)
                .orElseThrow(() -> new IllegalArgumentException("There is no decision " + decisionId + "."));
        var before = store.findLocked(decision.referralId()).orElseThrow();
        if (!store.stands(decisionId)) {
            return new TakeBackOutcome.Refused(
                    "This decision does not stand any more. Open the referral to see what happened since.");
        }
        if (store.decidedBy(decisionId) != me().id()) {
            return new TakeBackOutcome.Refused("Only " + decision.author() + ", who decided, can take it back.");
        }
        if (!now().isBefore(decision.finalFrom())) {
            return new TakeBackOutcome.Refused(
                    "A decision can be taken back for " + DecisionRecord.FINAL_AFTER.toMinutes()
                            + " minutes; they are over, and the letter may have left. Telephone the referring doctor and enter"
                            + " what is new as a result.");
        }
        var takenBack = store.takeBack(before, decisionId, me(), now());
        auditTrail.record("took back the decision on", before.reference());
        events.publishEvent(new DecisionTakenBack(takenBack, decision));
        return new TakeBackOutcome.TakenBack(takenBack, decision);
    }

    /** The decision that stands on this referral, if the person signed in made it and can still take it back. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<DecisionRecord> canTakeBack(long id) {
        return store.decisions(id).stream()
                .findFirst()
                .filter(decision -> now().isBefore(decision.finalFrom())
                        && store.stands(decision.id())
                        && store.decidedBy(decision.id()) == me().id());
    }

    /** Decisions on this referral that were not taken back, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<DecisionRecord> decisions(long id) {
        return store.decisions(id);
    }

    /** The newest decision on this referral that was made on {@code version} of it or a later one. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<DecisionRecord> decidedSince(long id, int version) {
        return store.decidedSince(id, version);
    }

    /** What happened to this referral, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<TimelineEntry> timeline(long id) {
        return Timeline.of(query.events(id), settings.policy());
    }

    /** Triage of a document under the policy in force, as of today. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public TriageResult propose(Reading reading) {
        return Triage.triage(reading.document(), settings.policy(), books.inForce(), today());
    }

    /** Triage of a referral as it is held, under the policy in force, as of today; worked out once. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public Triaged triaged(Referral referral) {
        return triaged.triage(referral.document(), settings.policy(), books.inForce(), today());
    }

    /** Today in the practice. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /** @param before the referral before it was saved, so that what time had changed already is not put down to this */
    private void keepProposal(Referral before, Reading reading) {
        books.keep();
        latest.bringToToday(before.id(), before.document());
        latest.keep(before.id(), propose(reading));
    }

    private ReferralLines lines() {
        return new ReferralLines(triaged, settings.policy(), books.inForce(), today());
    }

    /** The next reference of the year, past those that arrived with a document. */
    private String reference(LocalDate today) {
        String reference;
        do {
            reference = String.format(Locale.ROOT, "LQ-%d-%04d", today.getYear(), store.nextNumber(today.getYear()));
        } while (store.referenceTaken(reference));
        return reference;
    }

    private Person me() {
        return currentPerson.get();
    }

    /** To the microsecond, which is what the database keeps. */
    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
