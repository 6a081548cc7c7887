package limbqueue.practice;

import java.util.Optional;

/** Knows what has room on the pages of letters. */
public interface LetterheadCheck {

    /** What of the letterhead cannot be printed, and what to do; nothing if all can. */
    Optional<String> wrongWith(Practice practice);
}
