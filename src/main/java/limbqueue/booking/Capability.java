package limbqueue.booking;

/** What only some sessions have, and some cases need. */
public enum Capability {
    ARM_ACCESS("a set-up for access from the arm"),
    HYBRID("a hybrid room"),
    ANAESTHETIST("an anaesthetist"),
    COVERED_STENT_STOCK("covered stents in stock"),
    TRANSLATOR("a translator");

    private final String words;

    Capability(String words) {
        this.words = words;
    }

    /** What it is called within a sentence. */
    public String words() {
        return words;
    }
}
