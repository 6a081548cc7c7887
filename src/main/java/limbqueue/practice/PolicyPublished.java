package limbqueue.practice;

/** Another version of the policy is there; told within the transaction that adds it. */
public record PolicyPublished(PolicyVersion version) {}
