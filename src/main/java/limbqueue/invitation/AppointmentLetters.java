package limbqueue.invitation;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.NotPossibleException;
import limbqueue.invitation.AppointmentLetter.Facts;
import limbqueue.letter.LetterPage;
import limbqueue.letter.Parts;
import limbqueue.letter.Typed;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.ReferralState;
import limbqueue.timetable.Visit;
import limbqueue.timetable.Visits;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Letters that tell patients of their appointments, as these are now. They are read and printed, and not kept. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
public class AppointmentLetters {

    private final Visits visits;
    private final ProposedCases cases;
    private final PracticeSettings settings;
    private final LetterPage page;
    private final Clock clock;

    AppointmentLetters(Visits visits, ProposedCases cases, PracticeSettings settings, LetterPage page, Clock clock) {
        this.visits = visits;
        this.cases = cases;
        this.settings = settings;
        this.page = page;
        this.clock = clock;
    }

    /**
     * A letter, and what the office should know of it.
     *
     * @param to the patient's name, else the reference
     * @param told whether the patient has been told of this time
     * @param addressed whether the referral has an address
     */
    public record Written(String to, String reference, boolean told, boolean addressed, Parts parts) {}

    /**
     * The letter of an appointment.
     *
     * @throws NotPossibleException if there is no such appointment, or nobody should come to it
     */
    @Transactional(readOnly = true)
    public Written of(long appointment) {
        var visit = visits.find(appointment)
                .orElseThrow(() -> new NotPossibleException(
                        "There is no such appointment any more: it was taken out of its session."));
        if (visit.session().closedBecause().isPresent()) {
            throw new NotPossibleException("The session is closed. Find another place for %s first."
                    .formatted(visit.placed().who()));
        }
        if (visit.session().date().isBefore(LocalDate.now(clock))) {
            throw new NotPossibleException("The session is over, so there is nothing to tell of it.");
        }
        var found = cases.of(List.of(visit.placed().referralId())).getFirst();
        if (found.referral().state() != ReferralState.APPROVED) {
            throw new NotPossibleException(
                    "The referral is not approved any more. Take %s out of the session, or have it"
                                    .formatted(visit.placed().who())
                            + " decided anew.");
        }
        return written(visit, found);
    }

    /**
     * The letter of an appointment as PDF.
     *
     * @throws NotPossibleException as {@link #of(long)} does
     */
    @Transactional(readOnly = true)
    public byte[] pdf(long appointment) {
        return page.print(of(appointment).parts());
    }

    private Written written(Visit visit, ProposedCase found) {
        var patient = found.document().patient();
        var address = patient.address().map(Typed::line).filter(line -> !line.isEmpty());
        var facts = new Facts(
                Stream.of(patient.given(), patient.family())
                        .map(Typed::line)
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" ")),
                patient.address(),
                visit.placed().reference(),
                visit.placed().step(),
                visit.at(),
                visit.session().session().place());
        return new Written(
                visit.placed().who(),
                visit.placed().reference(),
                visit.placed().told(),
                address.isPresent(),
                AppointmentLetter.parts(settings.practice(), facts, LocalDate.now(clock)));
    }
}
