package limbqueue.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.reading.FoundField;
import limbqueue.reading.ReadLetter;
import limbqueue.reading.ReadLetter.Unclear;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Letters read by hand: which words stand for which field is said by the test, not by the reader of letters. */
public final class HandRead {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final String text;
    private final List<FoundField> found = new ArrayList<>();
    private final List<Unclear> unclear = new ArrayList<>();

    public HandRead(String text) {
        this.text = text;
    }

    /** @param value as JSON */
    public HandRead says(String words, String field, String value) {
        var start = text.indexOf(words);
        if (start >= 0) {
            found.add(new FoundField(field, JSON.readTree(value), start, start + words.length()));
        }
        return this;
    }

    public HandRead asks(String words, String sentence) {
        var start = text.indexOf(words);
        if (start >= 0) {
            unclear.add(new Unclear(sentence, start, start + words.length()));
        }
        return this;
    }

    public ReadLetter read() {
        var document = Draft.empty();
        found.forEach(field -> document.putBack(field.field(), Optional.of(field.value())));
        return new ReadLetter((ObjectNode) JSON.readTree(document.toJson()), found, unclear);
    }

    static JsonNode json(String value) {
        return JSON.readTree(value);
    }
}
