package limbqueue.presence;

import java.time.Instant;
import limbqueue.access.Role;

/**
 * Somebody who has a referral open.
 *
 * @param who display name
 * @param since when the page was opened; of several pages of one person, the first
 */
public record Onlooker(String who, Role role, Instant since) {}
