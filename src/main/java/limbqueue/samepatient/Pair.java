package limbqueue.samepatient;

/** Two referrals that may be of one person, the older first. */
public record Pair(Alike one, Alike other, Likeness likeness) {}
