package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.dom.Element;
import java.util.ArrayList;
import java.util.List;
import limbqueue.referral.ui.WordsInLetter.Place;

/** The letter as it came, with the words marked that a fact rests on. */
class LetterDialog extends Dialog {

    private LetterDialog(ReferralPage page, String lead, List<Place> marked) {
        addClassName("lq-letter-dialog");
        setHeaderTitle("Letter as it came: " + page.patient());
        setWidth("52rem");
        var close = new Button("Close", click -> close());
        close.setAutofocus(true);
        getFooter().add(close);
        var said = Markup.paragraph("lq-dialog-lead", lead);
        said.getElement().setAttribute("role", "status");
        add(said, page.value("letterText").map(text -> words(text, marked)).orElseGet(Div::new));
    }

    static LetterDialog whole(ReferralPage page) {
        return new LetterDialog(
                page,
                page.value("letterText").isPresent()
                        ? "Nothing is marked: open it from a fact to see the words that it rests on."
                        : "No letter text is held. Files that came with the referral stand under Background.",
                List.of());
    }

    /** @param facts whose words are marked */
    static LetterDialog at(ReferralPage page, List<EvidenceWords.Fact> facts) {
        var letter = page.value("letterText").orElse("");
        var marked = new ArrayList<Place>();
        var found = new ArrayList<String>();
        var notFound = new ArrayList<String>();
        for (var fact : facts) {
            var places = WordsInLetter.of(letter, fact.path(), page.draft());
            marked.addAll(places);
            (places.isEmpty() ? notFound : found).add(fact.sentence());
        }
        var lead = new ArrayList<String>();
        if (!found.isEmpty()) {
            lead.add("Marked: what the letter says of " + String.join("; ", found) + ".");
        }
        if (!notFound.isEmpty()) {
            lead.add("No words were found in the letter for " + String.join("; ", notFound)
                    + ": somebody entered it from elsewhere, or read it otherwise.");
        }
        return new LetterDialog(page, String.join(" ", lead), WordsInLetter.inOrder(marked));
    }

    private static Div words(String text, List<Place> marked) {
        var words = Markup.div("lq-letter-words");
        words.getElement()
                .setAttribute("role", "region")
                .setAttribute("aria-label", "The letter")
                .setAttribute("tabindex", "0")
                .setAttribute("dir", "auto");
        var at = 0;
        for (var place : marked) {
            words.add(new Span(text.substring(at, place.start())));
            var mark = new Element("mark");
            mark.setText(text.substring(place.start(), place.end()));
            words.getElement().appendChild(mark);
            at = place.end();
        }
        words.add(new Span(text.substring(at)));
        if (!marked.isEmpty()) {
            words.getElement()
                    .executeJs("setTimeout(() => this.querySelector('mark').scrollIntoView({block: 'center'}), 60)");
        }
        return words;
    }
}
