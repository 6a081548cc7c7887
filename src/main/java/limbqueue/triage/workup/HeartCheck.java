package limbqueue.triage.workup;

import limbqueue.triage.finding.RevisedCardiacRisk;

/** The risk to the heart, where a factor of the revised cardiac risk index (lee-1999) is shown. */
final class HeartCheck {

    private HeartCheck() {}

    static void propose(Occasion on, Sheet sheet) {
        var risk = RevisedCardiacRisk.of(on.document(), on.limits());
        if (risk.least() > 0) {
            sheet.need(
                    Item.CARDIAC_RISK,
                    "Weigh the risk to the heart",
                    "Factors of the revised cardiac risk index: " + String.join(", ", risk.present()) + ".",
                    sheet.calculation(Item.CARDIAC_RISK, "Revised cardiac risk index", risk.words()));
        }
    }
}
