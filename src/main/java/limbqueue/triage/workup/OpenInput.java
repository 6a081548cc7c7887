package limbqueue.triage.workup;

/**
 * Something unknown that an item of the work-up or a figure in it depends on.
 *
 * @param field path of the field that the answer fills
 */
public record OpenInput(String ask, String field) {}
