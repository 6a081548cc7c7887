package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import limbqueue.referral.Worsening;

/** Why a referral stands where it stands in the queue, in the order in which it counts. */
final class OrderWords {

    private OrderWords() {}

    static String of(ReferralPage page) {
        var urgency = page.proposal().urgency();
        var parts = new ArrayList<String>();
        parts.add(TierWords.of(urgency.tier()));
        urgency.targetDate().ifPresent(day -> parts.add("target " + TierWords.date(day)));
        parts.add("waiting " + TimeWords.waited(urgency.waitingSince(), page.today())
                + (urgency.waitingSince().isBefore(page.referral().received())
                        ? ", counted from when "
                                + page.value("deferredElsewhere.where").orElse("another hospital")
                                + " put it off"
                        : ""));
        List<String> worse = Worsening.of(page.document());
        parts.add(worse.isEmpty() ? "not said to get worse" : String.join(", ", worse));
        return "Stands here by: " + String.join("; ", parts) + ".";
    }
}
