package limbqueue.letter.ui;

import com.vaadin.flow.spring.annotation.SpringComponent;
import com.vaadin.flow.spring.annotation.VaadinSessionScope;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.letter.LetterKind;

/** Words of letters that somebody has typed and not published. They outlive a page left, and end with the session. */
@SpringComponent
@VaadinSessionScope
class TypedWords {

    private final Map<String, String> typed = new HashMap<>();

    Optional<String> of(LetterKind kind, String language) {
        return Optional.ofNullable(typed.get(key(kind, language)));
    }

    void keep(LetterKind kind, String language, String text) {
        typed.put(key(kind, language), text);
    }

    void forget(LetterKind kind, String language) {
        typed.remove(key(kind, language));
    }

    private static String key(LetterKind kind, String language) {
        return kind + " " + language;
    }
}
