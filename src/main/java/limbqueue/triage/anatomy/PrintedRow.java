package limbqueue.triage.anatomy;

import limbqueue.triage.TriageResult.Tasc;

/**
 * A row of a printed table of TASC II, or what stands in where no printed row fits.
 *
 * @param text the row in our words
 */
record PrintedRow(Tasc type, String text) {}
