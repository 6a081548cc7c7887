package limbqueue.presence;

import java.time.Instant;
import java.util.UUID;
import limbqueue.access.Person;

/** The page of a referral, open in a browser of {@code person}. */
public record OpenPage(UUID id, long referral, Person person, Instant since) {}
