package limbqueue.intake.ui;

import com.vaadin.flow.spring.annotation.SpringComponent;
import com.vaadin.flow.spring.annotation.VaadinSessionScope;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.file.DroppedFile;
import limbqueue.intake.OpenLetter;

/**
 * Letters that somebody has pasted, dropped or begun to answer, and not yet made a referral of. They outlive a page
 * left
 * and a page reloaded, and end with the session.
 */
@SpringComponent
@VaadinSessionScope
class KeptLetters {

    private final Map<Optional<Long>, Kept> letters = new HashMap<>();

    /** One letter on its way. */
    static final class Kept {
        private String typed = "";
        private Optional<DroppedFile> file = Optional.empty();
        private Optional<OpenLetter> letter = Optional.empty();
        private Optional<OpenLetter> before = Optional.empty();

        /** The words in the field, as pasted, typed, or read from the file. */
        String typed() {
            return typed;
        }

        void type(String words) {
            typed = words;
        }

        Optional<DroppedFile> file() {
            return file;
        }

        void file(Optional<DroppedFile> came) {
            file = came;
        }

        Optional<OpenLetter> letter() {
            return letter;
        }

        void letter(Optional<OpenLetter> read) {
            letter = read;
            before = Optional.empty();
        }

        /** The letter as it was read and answered before its words are being changed. */
        Optional<OpenLetter> before() {
            return before;
        }

        /** Leaves the letter to be changed and read again. */
        void putAside() {
            before = letter;
            letter = Optional.empty();
        }
    }

    /** @param referral the one that the letter goes to; empty for a new one */
    Kept of(Optional<Long> referral) {
        return letters.computeIfAbsent(referral, _ -> new Kept());
    }

    void forget(Optional<Long> referral) {
        letters.remove(referral);
    }
}
