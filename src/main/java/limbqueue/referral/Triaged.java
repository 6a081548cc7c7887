package limbqueue.referral;

import limbqueue.document.Reading;
import limbqueue.triage.TriageResult;

/**
 * What was read of a document and what is proposed on it.
 *
 * @param reading of the document, and what in it cannot be right
 */
public record Triaged(Reading reading, TriageResult proposal) {}
