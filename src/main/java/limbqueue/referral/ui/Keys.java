package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import java.util.Locale;

/** What each key does on the page of a referral before the physician. */
enum Keys {
    APPROVE("a", "approve the proposal"),
    CHANGE("c", "change urgency or grade; asks for the reason"),
    ASK("i", "ask for information; asks what"),
    RETURN("r", "return to the referring doctor; asks for the reason"),
    SEND("h", "send to hospital now; asks whom you told"),
    TAKE_BACK("u", "take back what you decided last, for ten minutes"),
    NEXT("n", "the next referral of the queue"),
    PREVIOUS("p", "the previous referral"),
    LETTER("l", "the letter as it came"),
    WHAT_IF("w", "what if: change facts without saving"),
    BACKGROUND("b", "history, medicines, imaging, timeline; and back"),
    QUEUE("q", "back to the queue"),
    KEYS("?", "this list");

    private final String key;
    private final String does;

    Keys(String key, String does) {
        this.key = key;
        this.does = does;
    }

    String key() {
        return key;
    }

    /** As printed on a keyboard. */
    String cap() {
        return key.toUpperCase(Locale.ROOT);
    }

    String does() {
        return does;
    }

    /** Whether something is decided, so that it must not happen before the page has been seen. */
    boolean decides() {
        return switch (this) {
            case APPROVE, CHANGE, ASK, RETURN, SEND -> true;
            case TAKE_BACK, NEXT, PREVIOUS, LETTER, WHAT_IF, BACKGROUND, QUEUE, KEYS -> false;
        };
    }

    /** Shows the key on a button and lets it press the button, see {@code frontend/keys.js}. */
    void on(Button button) {
        var cap = Markup.text("lq-key", cap());
        cap.getElement().setAttribute("aria-hidden", "true");
        button.setSuffixComponent(cap);
        button.getElement().setAttribute("data-key", key).setAttribute("aria-keyshortcuts", cap());
        if (decides()) {
            button.getElement().setAttribute("data-decides", true);
        }
    }
}
