package limbqueue.document;

import limbqueue.triage.TriageResult;

/** Writes triage results in the public data format, version 1. */
public final class ResultFormat {

    private ResultFormat() {}

    /** One JSON object on one line, the same bytes for the same result. */
    public static String write(TriageResult result) {
        throw new IllegalStateException("being built");
    }
}
