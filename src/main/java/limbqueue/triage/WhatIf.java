package limbqueue.triage;

import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;

/**
 * What would be acted on if something in a referral were otherwise.
 *
 * @param before grades and tier as the referral stands
 * @param after grades and tier as they would be
 * @param targetDate the day by which the referral would have to be dealt with; empty for advice only
 * @param raised codes of red flags that would be raised
 * @param withdrawn codes of red flags that would be no more
 */
public record WhatIf(
        Grading before, Grading after, Optional<LocalDate> targetDate, Set<String> raised, Set<String> withdrawn) {

    /** Whether a grade, the tier or a red flag would change. */
    public boolean changesAnything() {
        return !before.equals(after) || !raised.isEmpty() || !withdrawn.isEmpty();
    }
}
