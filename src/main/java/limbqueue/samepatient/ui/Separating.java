package limbqueue.samepatient.ui;

import limbqueue.referral.MergeOutcome;

/** What taking a part out led to, in words. */
final class Separating {

    private Separating() {}

    static String words(MergeOutcome outcome) {
        return switch (outcome) {
            case MergeOutcome.Done done ->
                done.part().reference() + " is a referral of its own again, as it was. What "
                        + done.whole().reference()
                        + " took over from it is put back, except where somebody has changed it since."
                        + (done.changes().isEmpty()
                                ? ""
                                : " It is before the physician again: " + String.join(" ", done.changes()));
            case MergeOutcome.Changed changed -> changed.now().reference() + " changed meanwhile. Try again.";
            case MergeOutcome.NotPossible(var why) -> why;
        };
    }
}
