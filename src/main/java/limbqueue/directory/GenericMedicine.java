package limbqueue.directory;

import java.util.List;

/**
 * A medicine by its generic name.
 *
 * @param brands trade names by which it is also asked for
 */
public record GenericMedicine(String name, List<String> brands) {

    public GenericMedicine {
        brands = List.copyOf(brands);
    }
}
