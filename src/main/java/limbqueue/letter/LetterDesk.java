package limbqueue.letter;

import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseRecorded;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.DecisionTakenBack;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralSubmitted;
import limbqueue.timetable.AppointmentTakenOut;
import limbqueue.timetable.AppointmentTold;
import limbqueue.triage.ReferralDocument;
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

    LetterDesk(
            LetterStore store,
            PracticeSettings settings,
            WordingsInForce wordings,
            ProposedCases cases,
            JsonMapper json,
            Clock clock,
            ApplicationEventPublisher events) {
        this.store = store;
        this.settings = settings;
        this.wordings = wordings;
        this.cases = cases;
        this.json = json;
        this.clock = clock;
        this.events = events;
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
        if (!store.withdraw(takenBack.decision().id(), clock.instant().truncatedTo(ChronoUnit.MICROS))) {
            throw new NotPossibleException(
                    "The letter about this decision has left, so the decision stands. Telephone the"
                            + " referring doctor, and enter what is new as a result.");
        }
    }

    /** A date is written about once the patient has been told of it; a second one is a change of the first. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(AppointmentTold told) {
        var standing = store.standingVisit(told.referralId(), told.step());
        write(
                told.referralId(),
                standing.isPresent() ? LetterKind.CHANGED : LetterKind.BOOKED,
                standing.isPresent() ? LetterKind.PATIENT_CHANGED : LetterKind.PATIENT_APPOINTMENT,
                new Visit(told.step(), told.starts(), told.place()));
    }

    /** What nobody was written to about needs no letter that takes it back. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(AppointmentTakenOut takenOut) {
        store.standingVisit(takenOut.referralId(), takenOut.step())
                .ifPresent(starts -> write(
                        takenOut.referralId(),
                        LetterKind.CANCELLED,
                        LetterKind.PATIENT_CANCELLED,
                        new Visit(takenOut.step(), starts, takenOut.place())));
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

    private void write(long referralId, LetterKind toReferrer, LetterKind toPatient, Visit visit) {
        var proposed = found(referralId);
        var today = LocalDate.now(clock);
        var document = proposed.document();
        keep(
                proposed.referral(),
                Optional.empty(),
                Optional.of(visit),
                today,
                toReferrer(document).visit(toReferrer, proposed.referral(), document, today, visit));
        keep(
                proposed.referral(),
                Optional.empty(),
                Optional.of(visit),
                today,
                writer(wordings.language()).visit(toPatient, proposed.referral(), document, today, visit));
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

    private void keep(
            Referral referral,
            Optional<DecisionRecord> decision,
            Optional<Visit> visit,
            LocalDate dated,
            WrittenLetter letter) {
        var writtenAt = clock.instant().truncatedTo(ChronoUnit.MICROS);
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
    }
}
