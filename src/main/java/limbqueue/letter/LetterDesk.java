package limbqueue.letter;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.booking.StepKind;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseRecorded;
import limbqueue.preparation.ProcedureBooked;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.DecisionTakenBack;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralSubmitted;
import limbqueue.timetable.AppointmentMoved;
import limbqueue.timetable.AppointmentTakenOut;
import limbqueue.timetable.AppointmentTold;
import limbqueue.triage.ReferralDocument;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Writes the letter that a step of a referral calls for, in the transaction of that step: none goes without its letter. */
@Component
class LetterDesk {

    private final LetterStore store;
    private final PracticeSettings settings;
    private final WordingsInForce wordings;
    private final ProposedCases cases;
    private final JsonMapper json;
    private final Clock clock;
    private final ApplicationEventPublisher events;
    private final ObjectProvider<LetterUnderway> underway;

    LetterDesk(
            LetterStore store,
            PracticeSettings settings,
            WordingsInForce wordings,
            ProposedCases cases,
            JsonMapper json,
            Clock clock,
            ApplicationEventPublisher events,
            ObjectProvider<LetterUnderway> underway) {
        this.store = store;
        this.settings = settings;
        this.wordings = wordings;
        this.cases = cases;
        this.json = json;
        this.clock = clock;
        this.events = events;
        this.underway = underway;
    }

    /** Says that the referral has arrived: once, also when it is submitted again with what was asked for. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(ReferralSubmitted submitted) {
        var referral = submitted.referral();
        if (!store.receivedWritten(referral.id())) {
            var today = LocalDate.now(clock);
            var letter = toReferrer(submitted.document()).received(referral, submitted.document(), today);
            keep(referral, Optional.empty(), Optional.empty(), today, letter);
        }
    }

    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(ReferralDecided decided) {
        var decision = decided.decision();
        var letter = toReferrer(decided.document()).decided(decided);
        keep(decided.referral(), Optional.of(decision), Optional.empty(), decision.asOf(), letter);
    }

    /** The letter of a decision that was taken back never leaves. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(DecisionTakenBack takenBack) {
        if (!store.withdraw(takenBack.decision().id(), now())) {
            throw new NotPossibleException(
                    "The letter about this decision has left, so the decision stands. Telephone the"
                            + " referring doctor, and enter what is new as a result.");
        }
    }

    /** A date is written about once the patient has been told of it. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(AppointmentTold told) {
        given(told.referralId(), Visit.expected(told.step(), told.starts(), told.place()));
    }

    /** Outside of the sessions a date is given and told in one. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(ProcedureBooked booked) {
        given(booked.referralId(), new Visit(StepKind.PROCEDURE, booked.starts(), booked.room()));
    }

    /** A letter about a date that holds no more must not leave; the new date is written about when it is told. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(AppointmentMoved moved) {
        withdrawUnsent(moved.referralId(), moved.step());
    }

    /** What nobody was written to about needs no letter that takes it back. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(AppointmentTakenOut takenOut) {
        withdrawUnsent(takenOut.referralId(), takenOut.step());
        for (var toPatient : List.of(false, true)) {
            store.standingVisit(takenOut.referralId(), takenOut.step(), toPatient)
                    .ifPresent(standing -> write(
                            takenOut.referralId(),
                            toPatient ? LetterKind.PATIENT_CANCELLED : LetterKind.CANCELLED,
                            new Visit(takenOut.step(), standing.at(), takenOut.place())));
        }
    }

    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(CaseRecorded recorded) {
        var proposed = found(recorded.referralId());
        var today = LocalDate.now(clock);
        var letter = toReferrer(proposed.document())
                .done(proposed.referral(), proposed.document(), today, recorded.on(), recorded.outcome());
        keep(proposed.referral(), Optional.empty(), Optional.empty(), today, letter);
    }

    /**
     * Who has a letter about this very date needs no other. Who has had one about another date gets one about the change; whose
     * letter had not left gets the new one instead.
     */
    private void given(long referralId, Visit visit) {
        for (var toPatient : List.of(false, true)) {
            if (store.standingVisit(referralId, visit.step(), toPatient)
                    .filter(visit::isToldBy)
                    .isEmpty()) {
                replace(referralId, visit, toPatient);
            }
        }
    }

    /**
     * Writes to the patient of a date.
     *
     * @return id of the letter
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public long toPatient(long referralId, Visit visit) {
        return replace(referralId, visit, true);
    }

    private long replace(long referralId, Visit visit, boolean toPatient) {
        withdrawUnsent(referralId, visit.step(), toPatient);
        var changes = store.standingVisit(referralId, visit.step(), toPatient).isPresent();
        return write(referralId, LetterKind.ofDate(toPatient, changes), visit);
    }

    private void withdrawUnsent(long referralId, StepKind step) {
        withdrawUnsent(referralId, step, false);
        withdrawUnsent(referralId, step, true);
    }

    /** One that is being handed over at this moment counts as one that has left. */
    private void withdrawUnsent(long referralId, StepKind step, boolean toPatient) {
        for (var id : store.unsentVisits(referralId, step, toPatient)) {
            store.lock(id);
            if (underway.stream().noneMatch(sender -> sender.isUnderway(id))) {
                store.withdrawUnsent(id, now());
            }
        }
    }

    private long write(long referralId, LetterKind kind, Visit visit) {
        var proposed = found(referralId);
        var today = LocalDate.now(clock);
        var document = proposed.document();
        var writer = kind.toPatient() ? writer(wordings.language()) : toReferrer(document);
        return keep(
                proposed.referral(),
                Optional.empty(),
                Optional.of(visit),
                today,
                writer.visit(kind, proposed.referral(), document, today, visit));
    }

    private ProposedCase found(long referralId) {
        return cases.of(List.of(referralId)).stream()
                .findFirst()
                .orElseThrow(() -> new ReferralNotFoundException(referralId));
    }

    private LetterWriter toReferrer(ReferralDocument document) {
        return writer(wordings.language(document.referrer()));
    }

    private LetterWriter writer(String language) {
        return new LetterWriter(settings.practice(), wordings, language);
    }

    private long keep(
            Referral referral,
            Optional<DecisionRecord> decision,
            Optional<Visit> visit,
            LocalDate dated,
            WrittenLetter letter) {
        var writtenAt = now();
        var id = store.add(
                referral.id(),
                decision.map(DecisionRecord::id),
                visit.map(Visit::step),
                visit.map(Visit::starts),
                letter.kind(),
                referral.reference(),
                letter.patient(),
                letter.recipient(),
                letter.channel(),
                dated,
                writtenAt,
                json.writeValueAsString(letter.parts()),
                letter.parts().asText());
        events.publishEvent(
                new LetterWritten(id, decision.isPresent() ? writtenAt.plus(DecisionRecord.FINAL_AFTER) : writtenAt));
        return id;
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
