package limbqueue.invitation;

import java.util.ArrayList;
import java.util.List;
import limbqueue.booking.StepKind;
import limbqueue.letter.Parts.Passage;

/**
 * What a patient is told of an appointment beforehand, in plain words. No medicine and no hour of fasting is named: which there
 * are is in the plan that the physician approves, and the practice tells it the patient by itself. The lists are common practice,
 * no source.
 */
final class Preparing {

    private Preparing() {}

    /** What the appointment is for, within a sentence. */
    static String purpose(StepKind step) {
        return switch (step) {
            case PRESSURES_AND_DUPLEX -> "we measure the blood pressure in your legs and look at them with sound waves";
            case CTA -> "we take pictures of your legs with X-rays and a dye";
            case CLINIC -> "a doctor talks with you and looks at your legs";
            case PROCEDURE -> "we treat the blood flow in your leg";
        };
    }

    static List<Passage> of(StepKind step) {
        var passages = new ArrayList<Passage>();
        passages.add(Passage.list("Please bring:", bring()));
        passages.add(Passage.paragraph(medicines(step)));
        passages.add(Passage.paragraph(food(step)));
        switch (step) {
            case PROCEDURE ->
                passages.add(
                        Passage.paragraph("Please ask someone to take you home. You should not drive on that day."));
            case PRESSURES_AND_DUPLEX ->
                passages.add(Passage.paragraph("Please wear loose clothes that you can roll up to the thigh."));
            case CTA, CLINIC -> {
                // Nothing more.
            }
        }
        passages.add(Passage.list("Please call us before you come if:", call(step)));
        return List.copyOf(passages);
    }

    private static List<String> bring() {
        return List.of(
                "this letter",
                "a list of all your medicines, or the packs",
                "a list of what you must not be given",
                "your glasses and hearing aid, if you use them",
                "notes and pictures from other places, if you have them at home");
    }

    private static String medicines(StepKind step) {
        return drugsMayBePaused(step)
                ? "Take your medicines as you always do until we tell you more. The practice will tell you which medicines to"
                        + " pause, and when. Do not stop any medicine on your own. Blood thinners and insulin must not be"
                        + " stopped unless we tell you to."
                : "Take your medicines as you always do.";
    }

    private static String food(StepKind step) {
        return drugsMayBePaused(step)
                ? "The practice will tell you if you may eat and drink on that day. If you have not heard from us two days"
                        + " before, please call us."
                : "You may eat and drink as you always do.";
    }

    private static boolean drugsMayBePaused(StepKind step) {
        return switch (step) {
            case CTA, PROCEDURE -> true;
            case PRESSURES_AND_DUPLEX, CLINIC -> false;
        };
    }

    private static List<String> call(StepKind step) {
        var reasons = new ArrayList<String>();
        reasons.add("you can not come");
        reasons.add("you feel ill or have a fever");
        if (drugsMayBePaused(step)) {
            reasons.add("a dye for X-rays has ever made you ill");
            reasons.add("your kidneys do not work well");
            reasons.add("you take medicine for your blood sugar");
            reasons.add("you are or may be pregnant");
        }
        reasons.add("you need help to get here, or someone who speaks your language");
        return List.copyOf(reasons);
    }
}
