package limbqueue.triage.workup;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.Reaction;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.question.Entries;

/** An earlier reaction to contrast medium (acr-contrast); no dose is named. */
final class ContrastReaction {

    private ContrastReaction() {}

    static void propose(Occasion on, Sheet sheet) {
        if (!on.flag("contrast-allergy")) {
            return;
        }
        if (severe(on)) {
            sheet.need(
                    Item.CONTRAST_ALLERGY,
                    "Avoid contrast with iodine: carbon dioxide below the diaphragm, or another picture, decided by a"
                            + " specialist",
                    "An earlier severe reaction to contrast medium, or one of which nobody tells how severe it was.");
        } else {
            sheet.need(
                    Item.CONTRAST_ALLERGY,
                    "Settle premedication, another agent or carbon dioxide",
                    "An earlier mild or moderate reaction to contrast medium; premedication goes by local protocol.");
        }
    }

    /** A reaction that nobody graded may have been severe. */
    private static boolean severe(Occasion on) {
        var allergies = Entries.those(
                on.document().allergies().orElse(List.of()),
                allergy -> allergy.to().map(Substances::isContrastMedium).orElse(false));
        return allergies.isEmpty()
                || Entries.any(allergies, allergy -> {
                    var reaction = allergy.reaction();
                    return !reaction.equals(Optional.of(Reaction.MILD))
                            && !reaction.equals(Optional.of(Reaction.MODERATE));
                });
    }
}
