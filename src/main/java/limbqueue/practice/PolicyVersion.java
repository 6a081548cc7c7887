package limbqueue.practice;

import java.time.Instant;
import java.time.LocalDate;
import limbqueue.triage.Policy;

/**
 * A policy as it was published; never changed afterwards.
 *
 * @param version 1 for the one that the product comes with, then one more each time
 * @param policy its id is its own among all versions
 * @param validFrom the first day on which it counts
 * @param who display name of the person who published it
 * @param reason why, in that person's words
 * @param secondLook which decisions a second physician looks at; it moves nothing that is proposed
 * @param publishedAt when
 */
public record PolicyVersion(
        int version,
        Policy policy,
        LocalDate validFrom,
        String who,
        String reason,
        SecondLook secondLook,
        Instant publishedAt) {}
