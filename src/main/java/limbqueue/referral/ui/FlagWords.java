package limbqueue.referral.ui;

/** The name of a red flag in short. */
final class FlagWords {

    private FlagWords() {}

    /** The code as words: {@code hard-to-see} becomes {@code hard to see}. */
    static String inShort(String code) {
        return code.replace("follow-up", "followup").replace('-', ' ').replace("followup", "follow-up");
    }
}
