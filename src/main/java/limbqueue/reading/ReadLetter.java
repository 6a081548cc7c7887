package limbqueue.reading;

import java.util.List;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a letter states.
 *
 * @param document a referral document with the fields found and nothing else
 * @param found the same fields, one by one, in the order of the letter
 * @param unclear what is mentioned but not stated well enough to enter, as a sentence to a coordinator with the words it rests on
 */
public record ReadLetter(ObjectNode document, List<FoundField> found, List<Unclear> unclear) {

    /** Something to ask, such as how deep an ulcer is that the letter only names; offsets as in {@link FoundField}. */
    public record Unclear(String sentence, int start, int end) {}
}
