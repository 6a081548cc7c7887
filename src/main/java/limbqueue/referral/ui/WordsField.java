package limbqueue.referral.ui;

import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.data.value.ValueChangeMode;
import java.util.Optional;
import java.util.function.Consumer;

/** The words that a decision needs. They are handed on with every keystroke, and a blank is told at the field. */
class WordsField extends TextArea {

    private final String blank;

    /**
     * @param blank what is told when nothing is written
     * @param typed takes the words with every keystroke
     */
    WordsField(String label, String text, String blank, Consumer<String> typed) {
        super(label);
        this.blank = blank;
        addClassName("lq-words");
        setRequiredIndicatorVisible(true);
        setManualValidation(true);
        setValueChangeMode(ValueChangeMode.EAGER);
        setMinRows(4);
        setMaxRows(14);
        setValue(text);
        addValueChangeListener(change -> {
            typed.accept(change.getValue());
            if (!change.getValue().isBlank()) {
                setInvalid(false);
            }
        });
    }

    /** Takes the focus with the first line in sight. */
    void focusAtStart() {
        focus();
        getElement()
                .executeJs("setTimeout(() => { this.inputElement.setSelectionRange(0, 0); this.scrollToStart(); })");
    }

    /** The words, if there are any; else says so at the field. */
    Optional<String> complete() {
        var words = getValue().strip();
        if (words.isEmpty()) {
            setErrorMessage(blank);
            setInvalid(true);
            focus();
            return Optional.empty();
        }
        return Optional.of(words);
    }
}
