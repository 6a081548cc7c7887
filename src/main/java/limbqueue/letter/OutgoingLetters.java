package limbqueue.letter;

import java.time.Instant;
import limbqueue.letter.jdbc.LetterStore;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Letters as the application itself sends them, when nobody is signed in. */
@Component
public class OutgoingLetters {

    private final LetterStore store;
    private final LetterPage page;
    private final JsonMapper json;

    OutgoingLetters(LetterStore store, LetterPage page, JsonMapper json) {
        this.store = store;
        this.page = page;
        this.json = json;
    }

    /** @throws LetterNotFoundException if there is none with this id */
    public Letter letter(long id) {
        return store.find(id).orElseThrow(() -> new LetterNotFoundException(id));
    }

    /**
     * The words of the letter, part by part.
     *
     * @throws LetterNotFoundException if there is none with this id
     */
    public Parts parts(long id) {
        return json.readValue(store.parts(id).orElseThrow(() -> new LetterNotFoundException(id)), Parts.class);
    }

    /**
     * The letter as PDF: set when it is first wanted, and the same bytes ever after.
     *
     * @throws LetterNotFoundException if there is none with this id
     */
    @Transactional
    public byte[] pdf(long id) {
        return store.pdf(id).orElseGet(() -> {
            store.keepPdf(id, page.print(parts(id)));
            // Not the bytes just set: somebody else may have been first.
            return store.pdf(id).orElseThrow();
        });
    }

    /** Lets nobody else mark or withdraw the letter until the transaction ends. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(long id) {
        store.lock(id);
    }

    /** Records that the letter has left; false if that is recorded already. It has been printed by then. */
    @Transactional(propagation = Propagation.MANDATORY)
    public boolean left(long id, Instant at, String by) {
        return store.markSent(id, at, by);
    }
}
