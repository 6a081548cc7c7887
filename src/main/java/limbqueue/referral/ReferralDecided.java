package limbqueue.referral;

/** A physician decided. Published within the transaction that did it. */
public record ReferralDecided(Referral referral, DecisionRecord decision) {}
