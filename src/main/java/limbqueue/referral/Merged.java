package limbqueue.referral;

import java.time.Instant;

/** That one referral is part of another. */
public record Merged(long whole, String wholeReference, long part, String partReference, String author, Instant at) {}
