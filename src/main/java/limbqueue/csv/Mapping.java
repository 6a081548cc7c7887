package limbqueue.csv;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What the columns of a table are.
 *
 * @param fields the path of a field of the public format by the name of the column; a column that is not among them is left
 *     out
 */
public record Mapping(Map<String, String> fields, DateOrder dateOrder) {

    public Mapping {
        fields = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    }
}
