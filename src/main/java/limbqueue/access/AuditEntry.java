package limbqueue.access;

import java.time.Instant;

/** One line of the audit trail: who did what to which subject, and when. */
public record AuditEntry(Instant at, String who, String action, String subject) {}
