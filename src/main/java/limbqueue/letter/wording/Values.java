package limbqueue.letter.wording;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What stands for the placeholders of one letter. One line each: a value never makes a paragraph or an entry of a list. */
public final class Values {

    private final Map<Placeholder, String> texts = new EnumMap<>(Placeholder.class);
    private final Map<Placeholder, List<String>> lists = new EnumMap<>(Placeholder.class);

    public Values put(Placeholder placeholder, String text) {
        texts.put(placeholder, text);
        return this;
    }

    public Values put(Placeholder placeholder, Optional<String> text) {
        text.ifPresent(known -> texts.put(placeholder, known));
        return this;
    }

    public Values put(Placeholder placeholder, List<String> entries) {
        lists.put(placeholder, List.copyOf(entries));
        return this;
    }

    String text(Placeholder placeholder) {
        return texts.getOrDefault(placeholder, "");
    }

    List<String> list(Placeholder placeholder) {
        return lists.getOrDefault(placeholder, List.of());
    }

    boolean known(Placeholder placeholder) {
        return placeholder.shape() == Placeholder.Shape.LIST
                ? !list(placeholder).isEmpty()
                : texts.containsKey(placeholder);
    }
}
