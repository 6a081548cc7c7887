package limbqueue.chasing;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * Records asked of another hospital.
 *
 * @param address of the hospital, as typed; empty when it was not
 * @param about which examination or procedure, in the words of the letter
 * @param entry the entry of the document that it belongs to, if it belongs to one
 * @param report whether the report was asked for
 * @param images whether the images were asked for
 * @param dueOn the day on which to ask again
 * @param reminders how many were sent, 0 to 2
 * @param givenUpBecause why nobody waits for the rest any more
 * @param author display name of who touched it last
 */
public record RecordsRequest(
        long id,
        long referralId,
        int version,
        String hospital,
        String address,
        String about,
        Optional<OutsideRecord.Entry> entry,
        boolean report,
        boolean images,
        LocalDate askedOn,
        LocalDate dueOn,
        int reminders,
        Optional<LocalDate> reportCameOn,
        Optional<LocalDate> imagesCameOn,
        Optional<String> givenUpBecause,
        String author,
        Instant at) {

    public boolean reportMissing() {
        return report && reportCameOn.isEmpty();
    }

    public boolean imagesMissing() {
        return images && imagesCameOn.isEmpty();
    }

    /** Whether something is still waited for. */
    public boolean open() {
        return givenUpBecause.isEmpty() && (reportMissing() || imagesMissing());
    }

    /** What is still missing: {@code report and images}, {@code report} or {@code images}; empty when nothing is. */
    public String missing() {
        return what(reportMissing(), imagesMissing());
    }

    static String what(boolean report, boolean images) {
        return report && images ? "report and images" : report ? "report" : images ? "images" : "";
    }

    /** What is done next about it; empty once nothing is waited for. */
    public Optional<Next> next() {
        if (!open()) {
            return Optional.empty();
        }
        return Optional.of(new Next(
                switch (reminders) {
                    case 0 -> Next.Step.SECOND_REQUEST;
                    case 1 -> Next.Step.THIRD_REQUEST;
                    default -> Next.Step.TELEPHONE;
                },
                dueOn));
    }

    /** @param on the day on which it is done */
    public record Next(Step step, LocalDate on) {

        public enum Step {
            SECOND_REQUEST,
            THIRD_REQUEST,
            /** Three letters were not answered: somebody calls, or the rest is given up. */
            TELEPHONE
        }
    }
}
