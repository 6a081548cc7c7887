package limbqueue.triage.workup;

import limbqueue.triage.grade.LegPicture;

/** What is done today, whether or not a procedure follows. */
final class SafetyCalls {

    private SafetyCalls() {}

    static void propose(Occasion on, Sheet sheet) {
        if (on.flag("diabetic-foot-emergency")) {
            sheet.need(
                    Item.FOOT_SERVICE_CALL,
                    "Call the hospital's foot service today",
                    "Diabetes with a foot in danger; the call does not wait for the procedure.");
        }
        if (on.anyLeg(LegPicture::tissueLoss)) {
            sheet.need(
                    Item.WOUND_ASSESSMENT,
                    "Photograph and measure the wound, probe it to bone",
                    "Depth, exposed bone and infection set the grade of the wound.");
        }
    }
}
