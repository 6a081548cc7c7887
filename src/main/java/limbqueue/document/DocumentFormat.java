package limbqueue.document;

import java.time.LocalDate;
import limbqueue.triage.ReferralDocument;
import tools.jackson.databind.JsonNode;

/** Reads and writes referral documents in the public data format, version 1. */
public final class DocumentFormat {

    private DocumentFormat() {}

    /**
     * Reads one referral.
     *
     * @param today dates of things past must not lie after this day
     */
    public static Reading read(JsonNode referral, LocalDate today) {
        throw new IllegalStateException("being built");
    }

    /** Writes {@code document} with its fields in the order of the format and unknown values left out. */
    public static JsonNode write(ReferralDocument document) {
        throw new IllegalStateException("being built");
    }
}
