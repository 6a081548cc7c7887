package limbqueue.access;

/** Somebody who can sign in. */
public record Person(long id, String signInName, String displayName, Role role) {}
