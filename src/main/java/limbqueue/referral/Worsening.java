package limbqueue.referral;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.Side;

/**
 * What a referral says is getting worse. Among equals by tier, target date and waiting it goes first (common practice, no
 * source); what is urgent about it is said by the tier.
 */
public final class Worsening {

    private Worsening() {}

    /** As {@code left leg: wound spreading}; empty if nothing is said to get worse. */
    public static List<String> of(ReferralDocument document) {
        var said = new ArrayList<String>();
        for (var side : Side.values()) {
            var leg = document.legs().of(side);
            var name = side.name().toLowerCase(Locale.ROOT) + " leg: ";
            if (leg.wound().spreading().orElse(false)) {
                said.add(name + "wound spreading");
            }
            leg.claudication()
                    .course()
                    .filter(course -> course == Course.WORSE || course == Course.SUDDEN)
                    .ifPresent(course -> said.add(name + "walking getting worse"));
        }
        return List.copyOf(said);
    }
}
