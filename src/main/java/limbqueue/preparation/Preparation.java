package limbqueue.preparation;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.document.Draft;
import limbqueue.practice.PracticeSettings;
import limbqueue.practice.RuleBooks;
import limbqueue.preparation.PreparationOutcome.Done;
import limbqueue.preparation.PreparationOutcome.Overtaken;
import limbqueue.preparation.PreparationOutcome.Refused;
import limbqueue.preparation.jdbc.CoveredStentStore;
import limbqueue.preparation.jdbc.PreparationStore;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.ResultsOutcome;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.plan.CaseFeatures;
import limbqueue.triage.plan.CaseMinutes;
import limbqueue.triage.plan.RecordedCase;
import limbqueue.triage.threshold.Limits;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What is done for a case between the proposal and the end of the procedure. */
@Service
public class Preparation {

    private final Referrals referrals;
    private final PreparationCases cases;
    private final PreparationStore store;
    private final CoveredStentStore stents;
    private final PracticeSettings settings;
    private final RuleBooks books;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    Preparation(
            Referrals referrals,
            PreparationCases cases,
            PreparationStore store,
            CoveredStentStore stents,
            PracticeSettings settings,
            RuleBooks books,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events,
            Clock clock) {
        this.referrals = referrals;
        this.cases = cases;
        this.store = store;
        this.stents = stents;
        this.settings = settings;
        this.books = books;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
        this.clock = clock;
    }

    /** Every case under preparation, with the one thing to do next; what must be chased first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<PreparationLine> worklist() {
        var today = today();
        return cases.of(store.underWay()).stream()
                .filter(prepared -> isCase(prepared.proposed()))
                .map(prepared -> PreparationLine.of(prepared, today))
                .sorted(PreparationLine.NEXT_FIRST)
                .toList();
    }

    /**
     * One case as it stands.
     *
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public PreparationCase get(long id) {
        return cases.of(List.of(id)).stream().findFirst().orElseThrow(() -> new ReferralNotFoundException(id));
    }

    /** Every state that the items of a case were in, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<TrackedStep> steps(long id) {
        return store.steps(id);
    }

    /** Every override of a case, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<ReadinessOverride> overrides(long id) {
        return store.overrides(id);
    }

    /** Every recorded case, oldest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<CaseRecord> records() {
        return store.records();
    }

    /** Today in the practice. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /**
     * Says how far an item has come.
     *
     * @param version the version of the item that this was decided on, 0 for one that nobody has touched
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome track(long id, String code, int version, Standing standing) {
        store.takeTurns(id);
        var prepared = get(id);
        var item =
                prepared.items().stream().filter(one -> one.code().equals(code)).findFirst();
        if (item.isEmpty()) {
            return new Refused("The work-up has no such item any more.");
        }
        var refusal = refusal(prepared, standing);
        if (refusal.isPresent()) {
            return new Refused(refusal.get());
        }
        if (item.get().version() != version || !put(id, item.get(), standing)) {
            return new Overtaken();
        }
        auditTrail.record("followed up the work-up of", reference(prepared));
        return new Done();
    }

    private Optional<String> refusal(PreparationCase prepared, Standing standing) {
        if (!beingPrepared(prepared)) {
            return Optional.of("The case is not being prepared any more.");
        }
        var today = today();
        return switch (standing) {
            case Standing.Wanted _ -> Optional.empty();
            case Standing.Asked(var of, var on, var chaseOn) ->
                of.isBlank()
                        ? Optional.of("Say who was asked.")
                        : on.isAfter(today)
                                ? Optional.of("What was asked was asked today or before.")
                                : chaseOn.isBefore(on)
                                        ? Optional.of("The day to chase it comes after the day it was asked.")
                                        : Optional.empty();
            case Standing.Booked(var on, var where) ->
                where.isBlank() ? Optional.of("Say where it is booked.") : Optional.empty();
            case Standing.In(var on) ->
                on.isAfter(today) ? Optional.of("What is in came today or before.") : Optional.empty();
            case Standing.NotNeeded(var reason) ->
                reason.isBlank() ? Optional.of("Say why it is not needed.") : Optional.empty();
        };
    }

    private boolean put(long id, CaseItem item, Standing standing) {
        var tracked =
                new TrackedItem(id, item.code(), item.version() + 1, item.what(), standing, me().displayName(), now());
        return store.put(tracked, me());
    }

    /**
     * Puts results into the referral, which is triaged anew. The item they belong to is in.
     *
     * @param version the version of the referral that was looked at
     * @param code of the item, if they belong to one
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ResultsOutcome enterResults(long id, int version, Optional<String> code, List<TypedResult> results) {
        store.takeTurns(id);
        var document = Draft.of(referrals.get(id).document());
        results.forEach(result -> result.into(document));
        var item = code.flatMap(named ->
                get(id).items().stream().filter(one -> one.code().equals(named)).findFirst());
        var outcome = referrals.enterResults(id, version, document.toJson());
        if (outcome instanceof ResultsOutcome.Entered) {
            item.ifPresent(one -> put(id, one, new Standing.In(today())));
        }
        return outcome;
    }

    /**
     * Books the procedure outside of the sessions.
     *
     * @param version the version of the booking that was looked at, 0 for none
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome book(long id, int version, LocalDateTime starts, String room) {
        var outcome = bookInSession(id, version, starts, room);
        if (outcome instanceof Done) {
            events.publishEvent(new ProcedureBooked(id, starts, room.strip()));
        }
        return outcome;
    }

    /**
     * Books the procedure for the date of its appointment in a session, which tells of that date by itself.
     *
     * @param version the version of the booking that was looked at, 0 for none
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome bookInSession(long id, int version, LocalDateTime starts, String room) {
        store.takeTurns(id);
        var prepared = get(id);
        if (!beingPrepared(prepared) || prepared.inRoom()) {
            return new Refused("The case has gone to the room, or is not being prepared any more.");
        }
        if (room.isBlank()) {
            return new Refused("Say which room.");
        }
        if (starts.toLocalDate().isBefore(today())) {
            return new Refused("A procedure is booked for today or later.");
        }
        if (prepared.booking().map(ProcedureBooking::version).orElse(0) != version
                || !store.put(
                        new ProcedureBooking(
                                id,
                                version + 1,
                                starts,
                                room.strip(),
                                Optional.empty(),
                                Optional.empty(),
                                me().displayName(),
                                now()),
                        me())) {
            return new Overtaken();
        }
        auditTrail.record("booked the procedure of", reference(prepared));
        return new Done();
    }

    /**
     * Says that the person signed in has seen this stent in the room, for this vessel.
     *
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome confirmStent(long id, Optional<Side> side, Segment segment, long stentId) {
        store.takeTurns(id);
        var stent = stents.findLocked(stentId);
        var prepared = get(id);
        if (!beingPrepared(prepared) || prepared.inRoom()) {
            return new Refused("The case has gone to the room, or is not being prepared any more.");
        }
        var need = prepared.needs().stream()
                .filter(one -> one.segment() == segment && one.side().equals(side) && !one.sideOpen())
                .findFirst();
        if (need.isEmpty() || stent.isEmpty()) {
            return new Overtaken();
        }
        var day = prepared.starts().map(LocalDateTime::toLocalDate).orElse(today());
        if (!need.get().fits(stent.get().diameterMm(), stent.get().lengthMm())) {
            return new Refused("It does not fit: " + ReadinessGate.size(need.get()) + " is needed.");
        }
        if (stent.get().expiredOn(day)) {
            return new Refused("It may be used only until " + stent.get().expires() + ".");
        }
        if (stent.get().count() <= stent.get().promised()) {
            return new Refused("All of these are used up or confirmed for other cases.");
        }
        if (!stents.confirm(id, side, segment, stentId, me(), now())) {
            return new Overtaken();
        }
        auditTrail.record("confirmed a covered stent for", reference(prepared));
        return new Done();
    }

    /** Withdraws what is confirmed for this vessel. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome withdrawStent(long id, Optional<Side> side, Segment segment) {
        store.takeTurns(id);
        var prepared = get(id);
        if (prepared.inRoom()) {
            return new Refused("The case has gone to the room.");
        }
        if (!stents.withdraw(id, side, segment, me().displayName(), now())) {
            return new Overtaken();
        }
        auditTrail.record("withdrew a covered stent of", reference(prepared));
        return new Done();
    }

    /**
     * Goes ahead although the case is not ready, for exactly these facts.
     *
     * @param facts {@link PreparationCase#facts()} as the physician saw them
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public PreparationOutcome override(long id, String facts, String reason) {
        store.takeTurns(id);
        var prepared = get(id);
        if (!(prepared.readiness() instanceof Readiness.NotReady(var reasons))) {
            return new Refused("The gate is open.");
        }
        if (!prepared.facts().equals(facts)) {
            return new Overtaken();
        }
        if (!ReadinessGate.overridable(reasons)) {
            return new Refused("Without an approval and a date there is nothing to go ahead with.");
        }
        if (reason.isBlank()) {
            return new Refused("Say why the case goes ahead all the same.");
        }
        store.add(new ReadinessOverride(id, facts, reason.strip(), me().displayName(), now()), me());
        auditTrail.record("overrode the gate for", reference(prepared));
        return new Done();
    }

    /**
     * Sends the case to the room, if the gate is open.
     *
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome sendToRoom(long id) {
        store.takeTurns(id);
        // So that nobody uses the stents up while the gate is looked at.
        stents.confirmations(List.of(id))
                .forEach(one -> stents.findLocked(one.stent().id()));
        var prepared = get(id);
        if (prepared.inRoom() || prepared.record().isPresent()) {
            return new Refused("The case has gone to the room already.");
        }
        if (!prepared.readiness().open()) {
            return new Refused("The case is not ready: "
                    + prepared.readiness().obstacles().stream()
                            .map(Readiness.Obstacle::what)
                            .collect(Collectors.joining(" ")));
        }
        var booking = prepared.booking().orElseThrow();
        if (!store.put(inRoom(booking, Optional.of(now())), me())) {
            return new Overtaken();
        }
        auditTrail.record("sent to the room", reference(prepared));
        return new Done();
    }

    /** Takes a case back that was sent to the room and did not begin. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome takeBack(long id) {
        store.takeTurns(id);
        var prepared = get(id);
        if (!prepared.inRoom() || prepared.record().isPresent()) {
            return new Refused("The case is not in the room.");
        }
        if (!store.put(inRoom(prepared.booking().orElseThrow(), Optional.empty()), me())) {
            return new Overtaken();
        }
        auditTrail.record("took back from the room", reference(prepared));
        return new Done();
    }

    private ProcedureBooking inRoom(ProcedureBooking booking, Optional<Instant> readyAt) {
        return new ProcedureBooking(
                booking.referralId(),
                booking.version() + 1,
                booking.starts(),
                booking.room(),
                readyAt,
                readyAt.map(at -> me().displayName()),
                me().displayName(),
                now());
    }

    /**
     * Keeps what became of a case that went to the room.
     *
     * @param minutes in the room, from coming in to leaving it, 1 to 1440
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public PreparationOutcome record(long id, int minutes, String access, CaseOutcome outcome, String note) {
        store.takeTurns(id);
        var prepared = get(id);
        if (!prepared.inRoom()) {
            return new Refused("Only a case that went to the room is recorded.");
        }
        if (minutes < 1 || minutes > 1440) {
            return new Refused("A case takes 1 to 1440 minutes.");
        }
        if (access.isBlank()) {
            return new Refused("Say which access was used.");
        }
        if (note.isBlank() && (outcome == CaseOutcome.FAILED || outcome == CaseOutcome.COMPLICATION)) {
            return new Refused("Say what went wrong.");
        }
        var record = new CaseRecord(
                id, minutes, access.strip(), outcome, note.strip(), features(prepared), me().displayName(), now());
        if (!store.add(record, me())) {
            return new Overtaken();
        }
        auditTrail.record("recorded the case of", reference(prepared));
        events.publishEvent(new CaseRecorded(id, roomDay(prepared), outcome));
        return new Done();
    }

    private LocalDate roomDay(PreparationCase prepared) {
        return prepared.booking()
                .flatMap(ProcedureBooking::readyAt)
                .map(at -> LocalDate.ofInstant(at, clock.getZone()))
                .orElseGet(this::today);
    }

    /** How long a case may take, by common practice and by what the practice has recorded; empty before imaging. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<ExpectedMinutes> expectedMinutes(PreparationCase prepared) {
        return features(prepared).map(features -> {
            var recorded = store.records().stream()
                    .flatMap(record -> record.features().map(of -> new RecordedCase(of, record.minutes())).stream())
                    .toList();
            var minutes = CaseMinutes.prior(limits()).learned(recorded).of(features);
            return new ExpectedMinutes(
                    Math.toIntExact(Math.round(minutes.median())),
                    Math.toIntExact(Math.round(minutes.ninety())),
                    Math.toIntExact(recorded.stream()
                            .filter(one -> one.features().caseClass() == features.caseClass())
                            .count()));
        });
    }

    private Optional<CaseFeatures> features(PreparationCase prepared) {
        return Triage.caseFeatures(prepared.proposed().document(), settings.policy(), books.inForce(), today());
    }

    private Limits limits() {
        return books.inForce().on(today());
    }

    /** Whether a procedure may come of it here: advice needs no room, and the same day goes to hospital. */
    private static boolean isCase(ProposedCase proposed) {
        return proposed.tier() != Tier.ADVICE_ONLY && proposed.tier() != Tier.SAME_DAY;
    }

    private static boolean beingPrepared(PreparationCase prepared) {
        var state = prepared.proposed().referral().state();
        return prepared.record().isEmpty()
                && (state == ReferralState.QUEUED
                        || state == ReferralState.INFORMATION_NEEDED
                        || state == ReferralState.APPROVED);
    }

    private static String reference(PreparationCase prepared) {
        return prepared.proposed().referral().reference();
    }

    private Person me() {
        return currentPerson.get();
    }

    /** To the microsecond, which is what the database keeps. */
    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
