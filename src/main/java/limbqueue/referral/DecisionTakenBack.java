package limbqueue.referral;

/**
 * A physician took a decision back. Published within the transaction that did it; whoever cannot undo what they made of the
 * decision throws a {@link limbqueue.access.NotPossibleException}, and the decision stands.
 */
public record DecisionTakenBack(Referral referral, DecisionRecord decision) {}
