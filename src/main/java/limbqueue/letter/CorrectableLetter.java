package limbqueue.letter;

import java.util.List;

/**
 * The words of a letter as a person corrects them.
 *
 * @param version of the letter, from 1
 * @param body what can be changed: paragraphs parted by blank lines, entries of lists that begin with “- ”, quoted lines with
 *     “> ”
 * @param standing what no letter is without: who decides, and what must not wait
 */
public record CorrectableLetter(long id, int version, String body, List<String> standing) {}
