package limbqueue.letter;

import java.util.List;
import limbqueue.directory.LetterLanguages;
import limbqueue.letter.wording.ShippedWordings;
import org.springframework.stereotype.Component;

/** The words that are shipped, checked when the application starts: it does not start without them. */
@Component
class WrittenLanguages implements LetterLanguages {

    private final ShippedWordings shipped = ShippedWordings.load();

    ShippedWordings shipped() {
        return shipped;
    }

    @Override
    public List<LetterLanguage> all() {
        return shipped.languages().stream()
                .map(language -> new LetterLanguage(language.tag(), language.name()))
                .toList();
    }
}
