package limbqueue.referral;

import java.util.List;

/** What became of an attempt to make one referral part of another, or to take it out again. */
public sealed interface MergeOutcome {

    /**
     * It is done.
     *
     * @param whole the referral that goes on
     * @param part the one that is, or was, part of it
     * @param changes what new facts change of the decision on the whole; if there is any, it is before the physician again
     */
    record Done(Referral whole, Referral part, List<String> changes) implements MergeOutcome {}

    /** One of the two is no longer as it was shown. Nothing was done. */
    record Changed(Referral now) implements MergeOutcome {}

    /** @param why in words, and what to do instead */
    record NotPossible(String why) implements MergeOutcome {}
}
