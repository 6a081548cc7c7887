package limbqueue.referral;

import java.time.Instant;

/** Something that happened to a referral: entered, saved, submitted, decided. */
public record TimelineEntry(Instant at, String who, String what) {}
