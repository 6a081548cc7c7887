package limbqueue.preparation;

import java.time.Instant;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;

/**
 * Somebody has seen a covered stent in the room, for one vessel of one case.
 *
 * @param side empty for the aorta
 * @param stent as it is in stock now
 * @param author display name of who has seen it
 */
public record StentConfirmation(
        long id,
        long referralId,
        Optional<Side> side,
        Segment segment,
        CoveredStent stent,
        String author,
        Instant at) {}
