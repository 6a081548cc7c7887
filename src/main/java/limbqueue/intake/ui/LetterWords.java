package limbqueue.intake.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import limbqueue.intake.OpenLetter;

/** The text of a letter, in which the words that something rests on are marked and lead to it. */
final class LetterWords extends Div {

    private static final String UNCLEAR = "unclear-";

    /** @param id of the element of what rests on the words, see {@link #idOf} and {@link #idOfUnclear} */
    private record Mark(int start, int end, String id) {}

    LetterWords(OpenLetter letter) {
        addClassName("lq-read-letter-words");
        getElement()
                .setAttribute("role", "region")
                .setAttribute("aria-label", "The letter")
                .setAttribute("tabindex", "0")
                .setAttribute("dir", "auto");
        var text = letter.text();
        var marks = marks(letter);
        var bounds = new TreeSet<Integer>();
        bounds.add(0);
        bounds.add(text.length());
        for (var mark : marks) {
            bounds.add(mark.start());
            bounds.add(mark.end());
        }
        for (var start : bounds) {
            var end = bounds.higher(start);
            if (end != null) {
                var ids = marks.stream()
                        .filter(mark -> mark.start() <= start && mark.end() >= end)
                        .map(Mark::id)
                        .distinct()
                        .toList();
                add(piece(text.substring(start, end), ids));
            }
        }
    }

    static String idOf(int proposal) {
        return "proposal-" + proposal;
    }

    static String idOfUnclear(int unclear) {
        return UNCLEAR + unclear;
    }

    private static List<Mark> marks(OpenLetter letter) {
        var length = letter.text().length();
        var marks = new ArrayList<Mark>();
        for (var proposal : letter.proposals()) {
            for (var part : proposal.parts()) {
                for (var words : part.words()) {
                    marks.add(new Mark(words.start(), words.end(), idOf(proposal.number())));
                }
            }
        }
        for (var i = 0; i < letter.unclear().size(); i++) {
            var unclear = letter.unclear().get(i);
            marks.add(new Mark(unclear.start(), unclear.end(), idOfUnclear(i)));
        }
        marks.removeIf(mark -> mark.start() < 0 || mark.end() > length || mark.start() >= mark.end());
        return marks;
    }

    private static Span piece(String words, List<String> ids) {
        var piece = new Span(words);
        if (!ids.isEmpty()) {
            piece.addClassName("lq-read-words");
            piece.setClassName("lq-read-question", ids.stream().allMatch(id -> id.startsWith(UNCLEAR)));
            piece.getElement()
                    .setAttribute("data-for", String.join(" ", ids))
                    .setAttribute("role", "button")
                    .setAttribute("tabindex", "0");
        }
        return piece;
    }
}
