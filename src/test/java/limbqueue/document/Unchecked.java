package limbqueue.document;

import java.util.Set;
import limbqueue.triage.ReferralDocument;
import tools.jackson.databind.JsonNode;

/** Documents without the check against the published format, for tests that make thousands known to be right. */
public final class Unchecked {

    private Unchecked() {}

    public static ReferralDocument document(JsonNode referral) {
        return (ReferralDocument) RecordForm.of(ReferralDocument.class).read(referral, "", Set.of());
    }
}
