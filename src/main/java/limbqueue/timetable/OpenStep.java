package limbqueue.timetable;

import java.time.LocalDate;
import limbqueue.booking.StepKind;
import limbqueue.triage.Tier;

/**
 * A step of a referral that has no place in an open session.
 *
 * @param version of the appointment that was taken out or stands in a closed session; 0 for none
 * @param target the day by which the last step of the referral should be done
 * @param minutes expected
 */
public record OpenStep(
        long referralId,
        String reference,
        String patient,
        Tier tier,
        LocalDate target,
        StepKind step,
        int version,
        long minutes) {}
