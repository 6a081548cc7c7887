package limbqueue.worklist.ui;

import limbqueue.worklist.WorkList;
import limbqueue.worklist.WorkStep;

/** Lists and pages in the words of these screens. */
final class WorkWords {

    private WorkWords() {}

    static String of(WorkList list) {
        return switch (list) {
            case TO_COMPLETE -> "To complete";
            case TO_CALL -> "Patients to call";
            case WAITING -> "Waiting for others";
            case LETTERS -> "Letters not delivered";
            case PHYSICIAN -> "With the physician";
            case TO_BOOK -> "To book";
            case WORK_UP -> "Work-up outstanding";
            case LATE -> "Late or about to be";
        };
    }

    /** What an empty list means. */
    static String nothing(WorkList list) {
        return switch (list) {
            case TO_COMPLETE -> "No draft waits to be completed.";
            case TO_CALL -> "No patient has to be called today.";
            case WAITING -> "Nothing is waited for.";
            case LETTERS -> "No letter came back or failed.";
            case PHYSICIAN -> "No referral is before the physician.";
            case TO_BOOK -> "Every approved case has a date.";
            case WORK_UP -> "No approved case waits for its work-up.";
            case LATE -> "No referral is late or about to be.";
        };
    }

    static String address(long referral, WorkStep.Page page) {
        return switch (page) {
            case FORM -> "referrals/" + referral + "/edit";
            case REFERRAL -> "referrals/" + referral;
            case CHASING -> "referrals/" + referral + "/chasing";
            case PREPARATION -> "referrals/" + referral + "/preparation";
            case LETTERS -> "letters?about=" + referral;
        };
    }
}
