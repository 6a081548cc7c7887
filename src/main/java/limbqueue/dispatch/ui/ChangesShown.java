package limbqueue.dispatch.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.dom.Element;
import java.util.List;
import limbqueue.letter.LetterCorrection;
import limbqueue.letter.WordChanges;
import limbqueue.shell.Pieces;

/** What people changed in a letter by hand: who, when, and both texts in one, with what is gone and what is new. */
final class ChangesShown extends Div {

    /** @param corrections newest first */
    ChangesShown(List<LetterCorrection> corrections) {
        addClassName("lq-desk-changes");
        add(new H3("Corrected by hand"));
        corrections.forEach(correction -> {
            add(Pieces.paragraph("lq-strong", correction.author() + ", " + DeskWords.moment(correction.at())));
            add(changes(correction));
        });
    }

    private static Div changes(LetterCorrection correction) {
        var text = Pieces.div("lq-letter-text");
        for (var run : WordChanges.between(correction.before(), correction.after())) {
            text.getElement()
                    .appendChild(
                            switch (run.kind()) {
                                case SAME -> new Element("span").setText(run.words());
                                case GONE -> marked("del", "removed: ", run.words());
                                case NEW -> marked("ins", "added: ", run.words());
                            });
        }
        return text;
    }

    /** Not every program that reads aloud tells the two elements apart. */
    private static Element marked(String tag, String heard, String words) {
        var said = new Element("span").setText(heard);
        said.getClassList().add("lq-only-heard");
        return new Element(tag).appendChild(said, new Element("span").setText(words));
    }
}
