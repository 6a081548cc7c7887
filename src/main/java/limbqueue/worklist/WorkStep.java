package limbqueue.worklist;

import java.time.LocalDate;
import java.util.Optional;

/**
 * The one next thing to do about a referral.
 *
 * @param due the day on which or by which it is done, where there is one
 * @param page where it is done
 */
public record WorkStep(String what, Optional<LocalDate> due, Page page) {

    public enum Page {
        FORM,
        REFERRAL,
        CHASING,
        PREPARATION,
        LETTERS
    }
}
