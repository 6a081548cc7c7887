package limbqueue.dispatch.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.data.value.ValueChangeMode;
import java.util.List;
import limbqueue.letter.CorrectableLetter;
import limbqueue.letter.CorrectionOutcome.Corrected;
import limbqueue.letter.CorrectionOutcome.NotRight;
import limbqueue.letter.CorrectionOutcome.Overtaken;
import limbqueue.letter.CorrectionOutcome.Unchanged;
import limbqueue.letter.LetterCorrections;
import limbqueue.shell.Pieces;

/** The words of one letter, changed by hand. It stays open, with what was typed, until they can stand. */
final class CorrectionDialog extends Dialog {

    private final transient LetterCorrections corrections;
    private final transient Runnable corrected;
    private final TextArea body = new TextArea("What the letter says");
    private final Div refusal = Pieces.div("lq-form-error");
    private final Div theirs = Pieces.div("lq-desk-theirs");
    private transient CorrectableLetter letter;

    /** @param corrected called when the letter says something else */
    CorrectionDialog(LetterCorrections corrections, CorrectableLetter letter, Runnable corrected) {
        this.corrections = corrections;
        this.corrected = corrected;
        this.letter = letter;
        setHeaderTitle("Correct the letter by hand");
        setWidth("760px");
        // A stray key or click would lose what is typed.
        setCloseOnEsc(false);
        setCloseOnOutsideClick(false);
        body.setWidthFull();
        body.addClassName("lq-desk-body");
        body.setValue(letter.body());
        body.setValueChangeMode(ValueChangeMode.ON_CHANGE);
        body.setHelperText("A blank line begins a paragraph. A line that begins with “- ” is an entry of a list,"
                + " one with “> ” is quoted.");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        theirs.setVisible(false);
        var standing =
                Pieces.div("lq-desk-standing", Pieces.paragraph("lq-strong", "Stays at its end, as in every letter"));
        letter.standing().forEach(sentence -> standing.add(Pieces.paragraph("lq-quiet", sentence)));
        add(Pieces.div("lq-stack", refusal, theirs, body, standing));
        getFooter().add(new Button("Cancel", _ -> close()), Pieces.primary("Save the correction", this::save));
        body.focus();
    }

    private void save() {
        switch (corrections.correct(letter.id(), letter.version(), body.getValue())) {
            case Corrected _ -> {
                close();
                corrected.run();
            }
            case Unchanged _ -> refuse(List.of("The letter says this already. Change something, or cancel."));
            case NotRight(var why) -> refuse(why);
            case Overtaken(var correction, var now) -> {
                letter = now;
                refuse(List.of(correction.author() + " has corrected this letter meanwhile, "
                        + DeskWords.moment(correction.at())
                        + ". What you typed is still here, under the letter as it stands now. Take over what"
                        + " should stay, and save once more."));
                theirs.removeAll();
                var words = new Pre(now.body());
                words.addClassName("lq-letter-text");
                theirs.add(Pieces.paragraph("lq-strong", "As it stands now"), words);
                theirs.setVisible(true);
            }
        }
    }

    private void refuse(List<String> why) {
        refusal.removeAll();
        why.forEach(sentence -> refusal.add(Pieces.paragraph("lq-line", sentence)));
        refusal.setVisible(true);
        refusal.getElement().executeJs("this.scrollIntoView({block: 'nearest'})");
    }
}
