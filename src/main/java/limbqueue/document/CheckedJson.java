package limbqueue.document;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;

/**
 * JSON that has the form of a published schema, or what is wrong with it: it is taken as a whole or not at all.
 *
 * @param problems empty exactly when there is a node
 */
public record CheckedJson(Optional<JsonNode> node, List<Problem> problems) {

    public CheckedJson {
        problems = List.copyOf(problems);
    }

    /**
     * Reads sessions, and what a practice knows of its cases, from JSON text in UTF-8. The stream is left open.
     *
     * @throws tools.jackson.core.exc.JacksonIOException if the stream cannot be read
     */
    public static CheckedJson sessions(InputStream json) {
        return parse(json, PublishedSchema.sessions());
    }

    static CheckedJson parse(InputStream json, PublishedSchema schema) {
        var parser = JsonText.parser(json);
        try {
            if (parser.nextToken() == null) {
                return refused("The file is empty.");
            }
            var value = JsonText.value(parser);
            return parser.nextToken() == null
                    ? checked(value, schema)
                    : refused(
                            JsonText.place(parser.currentTokenLocation()) + "There is more after the end. Remove it.");
        } catch (JacksonException broken) {
            return refused(JsonText.whatIsBroken(broken));
        }
    }

    private static CheckedJson checked(JsonText.Value value, PublishedSchema schema) {
        var found = new LinkedHashMap<String, String>(schema.problemsOf(value.node()));
        found.putAll(value.repeated());
        return found.isEmpty()
                ? new CheckedJson(Optional.of(value.node()), List.of())
                : new CheckedJson(Optional.empty(), problems(found));
    }

    static List<Problem> problems(Map<String, String> found) {
        var problems = new ArrayList<Problem>(found.size());
        found.forEach((path, text) -> problems.add(new Problem(path, text)));
        return problems;
    }

    private static CheckedJson refused(String text) {
        return new CheckedJson(Optional.empty(), List.of(new Problem("", text)));
    }

    /** The one of {@code words} that was probably meant by {@code typed}, as a question to be added to a sentence. */
    public static String didYouMean(String typed, List<String> words) {
        return ProblemWords.meant(typed, words)
                .map(" Did you mean %s?"::formatted)
                .orElse("");
    }
}
