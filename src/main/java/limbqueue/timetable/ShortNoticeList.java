package limbqueue.timetable;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.booking.StepKind;
import limbqueue.triage.Tier;

/**
 * Who could take a place that is free in the next days. A licensed clinician decides, and local protocol prevails.
 *
 * @param notice the sentence that must stand beside every proposal
 * @param until the last day that is looked at
 * @param lines those whose work-up is ready and who have not said that they cannot come, most urgent first
 * @param notReady how many more would find a place, were their work-up ready
 * @param cannot how many more have said that they cannot come at short notice
 */
public record ShortNoticeList(String notice, LocalDate until, List<Line> lines, int notReady, int cannot) {

    /**
     * A patient and the first place that is free.
     *
     * @param phone as the referral has it; empty where it has none
     * @param version of the appointment, 0 for none
     * @param minutes expected
     * @param has the session that the step is in now, later than the free one; empty for none
     * @param told whether the patient has been told of that
     * @param canCome what the patient has said; empty where nobody has asked
     */
    public record Line(
            long referralId,
            String reference,
            String patient,
            String phone,
            Tier tier,
            LocalDate target,
            StepKind step,
            int version,
            long minutes,
            Optional<KeptSession> has,
            boolean told,
            FilledSession free,
            Optional<Boolean> canCome) {

        /** What the patient is called on the page: the name, else the reference. */
        public String who() {
            return patient.isBlank() ? reference : patient;
        }
    }
}
