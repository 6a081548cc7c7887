package limbqueue.preparation;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.Optional;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Tier;

/**
 * One case in the worklist.
 *
 * @param patient family and given name, as far as known
 * @param targetDate of the tier decided, or of the one proposed
 * @param starts when the procedure is booked
 * @param room where; empty when it is not booked
 * @param red how many items of the work-up keep the case from the room
 */
public record PreparationLine(
        long id,
        String reference,
        ReferralState state,
        String patient,
        Optional<LocalDate> born,
        Tier tier,
        Optional<LocalDate> targetDate,
        Optional<LocalDateTime> starts,
        String room,
        int red,
        NextThing next) {

    /** What to chase first, longest overdue first; then the nearest procedure, then the nearest target date. */
    static final Comparator<PreparationLine> NEXT_FIRST = Comparator.comparing(
                    (PreparationLine line) -> line.next().group() != NextThing.Group.CHASE)
            .thenComparing(line -> line.next().group() == NextThing.Group.CHASE
                    ? line.next().on().orElse(LocalDate.MAX)
                    : LocalDate.MAX)
            .thenComparing(line -> line.starts().orElse(LocalDateTime.MAX))
            .thenComparing(line -> line.targetDate().orElse(LocalDate.MAX))
            .thenComparing(PreparationLine::id);

    static PreparationLine of(PreparationCase prepared, LocalDate today) {
        var proposed = prepared.proposed();
        return new PreparationLine(
                prepared.id(),
                proposed.referral().reference(),
                proposed.referral().state(),
                prepared.patient(),
                proposed.document().patient().born(),
                proposed.tier(),
                proposed.targetDate(),
                prepared.starts(),
                prepared.booking().map(ProcedureBooking::room).orElse(""),
                prepared.red().size(),
                NextThing.of(prepared, today));
    }
}
