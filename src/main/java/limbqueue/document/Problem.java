package limbqueue.document;

/**
 * What is wrong at one place of a document.
 *
 * @param path where, as {@code legs.left.pressures.dorsalisPedis} or {@code labs[0].value}; empty for the document as
 *     a whole
 * @param text what is wrong and what to do, in words that a coordinator understands
 */
public record Problem(String path, String text) {}
