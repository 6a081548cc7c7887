package limbqueue.document;

import java.util.List;
import limbqueue.triage.ReferralDocument;

/**
 * A document as far as it can be read.
 *
 * @param document the document; a value with a problem is left out of it, so it counts as unknown
 * @param problems everything that is wrong, in the order of the document; empty when all of it was read
 */
public record Reading(ReferralDocument document, List<Problem> problems) {

    public Reading {
        problems = List.copyOf(problems);
    }

    public boolean complete() {
        return problems.isEmpty();
    }
}
