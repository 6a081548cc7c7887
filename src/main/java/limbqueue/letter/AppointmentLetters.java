package limbqueue.letter;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.letter.jdbc.LetterStore.StandingVisit;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.ReferralState;
import limbqueue.timetable.Visits;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The letter that tells a patient of an appointment: found where one stands, and written where none does. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
public class AppointmentLetters {

    private final Visits visits;
    private final LetterStore store;
    private final LetterDesk desk;
    private final ProposedCases cases;
    private final AuditTrail auditTrail;
    private final Clock clock;

    AppointmentLetters(
            Visits visits,
            LetterStore store,
            LetterDesk desk,
            ProposedCases cases,
            AuditTrail auditTrail,
            Clock clock) {
        this.visits = visits;
        this.store = store;
        this.desk = desk;
        this.cases = cases;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * What a patient is told of an appointment.
     *
     * @param to the patient's name, else the reference
     * @param starts when the patient is asked to come, on the clock of the practice
     * @param told whether the patient has been told of it
     * @param addressed whether the referral has an address of the patient
     * @param letter the one that tells of this time and place, if there is one
     */
    public record Telling(
            String to, LocalDateTime starts, String place, boolean told, boolean addressed, Optional<Long> letter) {}

    /**
     * How the patient is told of an appointment.
     *
     * @throws NotPossibleException if there is no such appointment, or nobody should come to it
     */
    @Transactional(readOnly = true)
    public Telling of(long appointment) {
        var visit = toKeep(appointment);
        var told = Visit.of(visit);
        var patient = cases.of(List.of(visit.placed().referralId()))
                .getFirst()
                .document()
                .patient();
        return new Telling(
                visit.placed().who(),
                told.starts(),
                told.place(),
                visit.placed().told(),
                patient.address()
                        .map(Typed::line)
                        .filter(line -> !line.isEmpty())
                        .isPresent(),
                standing(visit.placed().referralId(), told).map(StandingVisit::letter));
    }

    /**
     * The letter that tells the patient of an appointment; written now if none does.
     *
     * @return its id
     * @throws NotPossibleException as {@link #of(long)} does
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public long write(long appointment) {
        var visit = toKeep(appointment);
        var referral = visit.placed().referralId();
        return standing(referral, Visit.of(visit)).map(StandingVisit::letter).orElseGet(() -> {
            auditTrail.record(
                    "had the letter to the patient written about",
                    visit.placed().reference());
            return desk.toPatient(referral, Visit.of(visit));
        });
    }

    private Optional<StandingVisit> standing(long referral, Visit told) {
        return store.standingVisit(referral, told.step(), true).filter(told::isToldBy);
    }

    private limbqueue.timetable.Visit toKeep(long appointment) {
        var visit = visits.find(appointment)
                .orElseThrow(() -> new NotPossibleException(
                        "There is no such appointment any more: it was taken out of its session."));
        var who = visit.placed().who();
        if (visit.session().closedBecause().isPresent()) {
            throw new NotPossibleException("The session is closed. Find another place for %s first.".formatted(who));
        }
        if (visit.session().date().isBefore(LocalDate.now(clock))) {
            throw new NotPossibleException("The session is over, so there is nothing to tell of it.");
        }
        var found = cases.of(List.of(visit.placed().referralId())).getFirst();
        if (found.referral().state() != ReferralState.APPROVED) {
            throw new NotPossibleException(
                    "The referral is not approved any more. Take %s out of the session, or have it decided anew."
                            .formatted(who));
        }
        return visit;
    }
}
