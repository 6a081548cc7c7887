package limbqueue.intake.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Span;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.intake.Answer;
import limbqueue.intake.OpenLetter;
import limbqueue.intake.Proposal;
import limbqueue.intake.Proposal.Part;
import limbqueue.intake.Proposal.Standing;
import limbqueue.referral.ui.FormWords;
import tools.jackson.databind.JsonNode;

/** One proposal with the buttons that answer it. */
final class ProposalRow extends ListItem {

    private static final int LONGEST_QUOTE = 90;

    private final OpenLetter letter;
    private final Proposal proposal;
    private final LocalDate today;
    private final Runnable answered;

    private final Div what = new Div();
    private final Span state = new Span();
    private final NativeButton accept = new NativeButton();
    private final NativeButton refuse = new NativeButton();
    private final NativeButton correct = new NativeButton("Correct");
    private final Div editors = new Div();

    /** @param answered called after each answer and correction */
    ProposalRow(OpenLetter letter, Proposal proposal, LocalDate today, Runnable answered) {
        this.letter = letter;
        this.proposal = proposal;
        this.today = today;
        this.answered = answered;
        setId(LetterWords.idOf(proposal.number()));
        addClassName("lq-proposed");
        setClassName("lq-proposed-contradiction", proposal.contradicts());
        getElement().setAttribute("data-proposal", true);
        what.addClassName("lq-proposed-what");
        state.addClassName("lq-proposed-state");

        accept.setText(proposal.contradicts() ? "Take the letter’s" : "Accept");
        accept.addClickListener(_ -> answer(Answer.ACCEPTED));
        refuse.setText(proposal.contradicts() ? "Keep the form’s" : "Refuse");
        refuse.addClickListener(_ -> answer(Answer.REFUSED));
        correct.addClickListener(_ -> openEditors());
        button(accept, "accept");
        button(refuse, "refuse");
        button(correct, "correct");
        correct.getElement().setAttribute("aria-expanded", "false");

        editors.addClassName("lq-proposed-editors");
        editors.setVisible(false);
        var buttons = new Div(state, accept, refuse, correct);
        buttons.addClassName("lq-proposed-buttons");
        add(what, buttons, editors);
        show();
    }

    private static void button(NativeButton button, String act) {
        button.addClassName("lq-button");
        button.getElement().setAttribute("data-act", act);
    }

    /** What is proposed, in a sentence for whoever does not see the row. */
    private String name() {
        return proposal.entry()
                .map(entry -> FormWords.entry(entry.list()) + ": "
                        + proposal.parts().stream().map(this::value).collect(Collectors.joining(", ")))
                .orElseGet(() -> {
                    var part = proposal.parts().getFirst();
                    return FormWords.inSentence(part.path()) + ": " + value(part);
                });
    }

    private String value(Part part) {
        return letter.value(part)
                .map(value -> FormWords.value(part.path(), value))
                .orElse("not known");
    }

    void show() {
        what.removeAll();
        if (proposal.entry().isPresent()) {
            showEntry(proposal.entry().get());
        } else {
            showField(proposal.parts().getFirst());
        }
        var quote = new Span("“" + quote() + "”");
        quote.addClassName("lq-proposed-quote");
        what.add(quote);
        for (var part : proposal.parts()) {
            for (var problem : letter.problems(part, today)) {
                var told = new Span(problem);
                told.addClassName("lq-problem");
                what.add(told);
            }
        }
        var answer = letter.answer(proposal);
        state.setText(
                switch (answer) {
                    case OPEN -> "";
                    case ACCEPTED -> "accepted";
                    case REFUSED -> "refused";
                });
        getElement().setAttribute("data-answer", answer.name().toLowerCase(Locale.ROOT));
        pressed(accept, answer == Answer.ACCEPTED, name());
        pressed(refuse, answer == Answer.REFUSED, name());
        correct.setAriaLabel("Correct " + name());
    }

    private static void pressed(NativeButton button, boolean pressed, String name) {
        button.setAriaLabel(button.getText() + ": " + name);
        button.getElement().setAttribute("aria-pressed", String.valueOf(pressed));
    }

    private void showField(Part part) {
        if (part.there().isEmpty()) {
            what.add(labelled(FormWords.label(part.path()), value(part)));
            return;
        }
        // No heading of a part of the form stands above it.
        var lead = new Span(FormWords.partOf(part.path()).title() + ": " + FormWords.label(part.path()));
        lead.addClassName("lq-proposed-label");
        what.add(lead, beside(part.path(), part.there().get(), value(part)));
    }

    private void showEntry(Proposal.Entry entry) {
        var lead = new Span(FormWords.entry(entry.list()));
        lead.addClassName("lq-proposed-label");
        what.add(lead);
        var none = proposal.parts().stream()
                .flatMap(part -> part.there().stream())
                .anyMatch(there -> there.isArray() && there.isEmpty());
        for (var part : proposal.parts()) {
            what.add(labelled(FormWords.label(part.path()), value(part)));
            if (!none && part.standing() == Standing.DIFFERENT) {
                part.there().ifPresent(there -> what.add(beside(part.path(), there, value(part))));
            }
        }
        if (none) {
            what.add(beside(entry.list(), emptyList(), FormWords.entry(entry.list())));
        }
    }

    private JsonNode emptyList() {
        return proposal.parts().getFirst().there().orElseThrow();
    }

    private static Span labelled(String label, String value) {
        var name = new Span(label);
        name.addClassName("lq-proposed-label");
        var words = new Span(value);
        words.addClassName("lq-proposed-value");
        words.getElement().setAttribute("dir", "auto");
        var both = new Span(name, words);
        both.addClassName("lq-proposed-field");
        return both;
    }

    private static Span beside(String path, JsonNode there, String letter) {
        var both = new Span(aside("On the form", FormWords.value(path, there)), aside("In the letter", letter));
        both.addClassName("lq-proposed-beside");
        return both;
    }

    private static Span aside(String where, String value) {
        var name = new Span(where);
        name.addClassName("lq-quiet");
        var words = new Span(value);
        words.getElement().setAttribute("dir", "auto");
        return new Span(name, words);
    }

    private String quote() {
        var text = letter.text();
        var quoted = proposal.parts().stream()
                .flatMap(part -> part.words().stream())
                .filter(words -> words.start() >= 0 && words.end() <= text.length() && words.start() < words.end())
                .distinct()
                .map(words -> text.substring(words.start(), words.end())
                        .replaceAll("\\s+", " ")
                        .strip())
                .distinct()
                .collect(Collectors.joining(" … "));
        return quoted.length() <= LONGEST_QUOTE ? quoted : quoted.substring(0, LONGEST_QUOTE) + "…";
    }

    private void answer(Answer answer) {
        letter.answer(proposal, letter.answer(proposal) == answer ? Answer.OPEN : answer);
        show();
        answered.run();
    }

    private void openEditors() {
        var open = !editors.isVisible();
        editors.setVisible(open);
        correct.getElement().setAttribute("aria-expanded", String.valueOf(open));
        if (!open) {
            return;
        }
        editors.removeAll();
        for (var part : proposal.parts()) {
            var editor = new FormWords.Editor(part.path(), letter.value(part), (_, value) -> correct(part, value));
            if (editor.isThere()) {
                var label = new Span(FormWords.label(part.path()));
                label.addClassName("lq-proposed-label");
                editors.add(new Div(label, editor));
            }
        }
        editors.getElement()
                .executeJs("this.querySelector('input:checked, input:not([type=radio]), select, textarea')?.focus()");
    }

    private void correct(Part part, Optional<Object> value) {
        letter.correct(part, value);
        show();
        answered.run();
    }
}
