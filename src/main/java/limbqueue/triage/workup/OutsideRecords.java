package limbqueue.triage.workup;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.question.Entries;

/** Reports, images and the word of whoever was there before. */
final class OutsideRecords {

    private OutsideRecords() {}

    static void propose(Occasion on, Sheet sheet) {
        if (reportMissing(on)) {
            sheet.need(
                    Item.OUTSIDE_REPORT,
                    "Ask for the report of every earlier procedure and picture",
                    "An earlier procedure or picture exists, and its report is not here.");
        }
        if (missing(on, Procedure::imagesHeld, Imaging::imagesHeld)) {
            sheet.need(
                    Item.OUTSIDE_IMAGES,
                    "Ask for the images of every earlier procedure and picture",
                    "An earlier procedure or picture exists, and its images are not here.");
        }
        if (on.flag("possible-undisclosed-attempt") || on.flag("failed-attempt")) {
            sheet.need(
                    Item.OPERATOR_CONVERSATION,
                    "A word with the operator of the earlier procedure",
                    "What was seen and tried decides the next plan.");
        }
    }

    static boolean reportMissing(Occasion on) {
        return missing(on, Procedure::reportHeld, Imaging::reportHeld);
    }

    private static boolean missing(
            Occasion on,
            Function<Procedure, Optional<Boolean>> ofProcedure,
            Function<Imaging, Optional<Boolean>> ofImaging) {
        return Entries.any(
                        on.document().procedures().orElse(List.of()),
                        procedure -> !ofProcedure.apply(procedure).orElse(false))
                || Entries.any(
                        on.document().imaging().orElse(List.of()),
                        image -> !ofImaging.apply(image).orElse(false));
    }
}
