package limbqueue.search;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.ReferralState;

/**
 * A referral that was found.
 *
 * @param patient given and family name, as typed
 * @param referrer name and organisation of who referred, as typed
 * @param extracts where the words stand, the most telling place first; empty if only a name is similar
 */
public record Found(
        long id,
        String reference,
        ReferralState state,
        String patient,
        Optional<LocalDate> born,
        String referrer,
        LocalDate received,
        List<Extract> extracts) {

    public Found {
        extracts = List.copyOf(extracts);
    }
}
