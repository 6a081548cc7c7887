package limbqueue.triage.question;

import java.util.Locale;

/** A sentence with values put in, the same on every machine: whatever language it is set to, a number reads alike. */
public final class Sentence {

    private Sentence() {}

    @SuppressWarnings("AnnotateFormatMethod") // that annotation would be a dependency of the core
    public static String of(String template, Object... values) {
        return String.format(Locale.ROOT, template, values);
    }
}
