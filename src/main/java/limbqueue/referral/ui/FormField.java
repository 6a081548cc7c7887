package limbqueue.referral.ui;

/**
 * One field of the form.
 *
 * @param path where its value stands in the document; {@code {side}} stands for left and right, and the path of a field
 *     of a list entry is relative to the entry
 * @param label its label within its section
 * @param words its name where no section stands around it, in a sentence
 * @param hint what helps to answer it; empty when the label says it all
 */
record FormField(String path, String label, String words, FieldKind kind, String hint) {

    static final String SIDE = "{side}";

    boolean paired() {
        return path.contains(SIDE);
    }
}
