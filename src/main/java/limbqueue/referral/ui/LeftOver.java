package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * What was typed on a page that is gone before it could be saved, as the browser kept it.
 *
 * @param path of the field, or of a line that was entered into a list
 * @param before what stood there when it was typed
 * @param value what was typed
 */
record LeftOver(String path, String before, String value) {

    private static final JsonMapper JSON = JsonMapper.shared();

    /** Reads what the browser hands over; what is none of it is passed over. */
    static List<LeftOver> read(String notes) {
        var leftOver = new ArrayList<LeftOver>();
        try {
            for (var note : JSON.readTree(notes)) {
                leftOver.add(new LeftOver(
                        note.path("path").asString(""),
                        note.path("before").asString(""),
                        note.path("value").asString("")));
            }
        } catch (JacksonException broken) {
            return List.of();
        }
        return leftOver;
    }
}
