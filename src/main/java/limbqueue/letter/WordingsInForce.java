package limbqueue.letter;

import java.util.Optional;
import limbqueue.directory.Directory;
import limbqueue.letter.jdbc.WordingStore;
import limbqueue.letter.wording.ShippedWordings;
import limbqueue.letter.wording.Template;
import limbqueue.letter.wording.TemplateReader;
import limbqueue.letter.wording.WordingProblem;
import limbqueue.letter.wording.Wordings;
import limbqueue.triage.ReferralDocument.Referrer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Component;

/**
 * The words that letters are written by today: those that the practice published last, else those that are shipped. A
 * published text that this version of the product cannot read any more gives way to the shipped one: a letter has to go.
 */
@Component
class WordingsInForce implements Wordings {

    private static final Logger LOG = LoggerFactory.getLogger(WordingsInForce.class);

    private final ShippedWordings shipped;
    private final WordingStore store;
    private final Directory directory;

    WordingsInForce(WrittenLanguages languages, WordingStore store, Directory directory) {
        this.shipped = languages.shipped();
        this.store = store;
        this.directory = directory;
    }

    ShippedWordings shipped() {
        return shipped;
    }

    @Override
    public Template of(LetterKind kind, String tag) {
        return published(kind, tag)
                .flatMap(text -> {
                    var reading = TemplateReader.read(ShippedWordings.file(kind, tag), kind, text);
                    reading.problems().stream()
                            .map(WordingProblem::asText)
                            .forEach(problem -> LOG.warn("published words of a letter are not used: {}", problem));
                    return reading.template();
                })
                .orElseGet(() -> shipped.of(kind, tag));
    }

    /** The text that the practice published; empty while the shipped one counts. */
    Optional<String> published(LetterKind kind, String tag) {
        return store.latest(kind, tag).flatMap(WordingVersion::text);
    }

    /** The language of letters to whom nobody has chosen another for. */
    String language() {
        return store.language()
                .filter(shipped::knows)
                .orElse(shipped.languages().getFirst().tag());
    }

    /** The language of letters to this referring doctor. */
    String language(Referrer referrer) {
        return directory.language(referrer).filter(shipped::knows).orElseGet(this::language);
    }
}
