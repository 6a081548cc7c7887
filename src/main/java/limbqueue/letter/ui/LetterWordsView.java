package limbqueue.letter.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Supplier;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.letter.LetterKind;
import limbqueue.letter.LetterWording;
import limbqueue.letter.LetterWords;
import limbqueue.letter.Parts;
import limbqueue.letter.WordingOutcome;
import limbqueue.letter.wording.Language;
import limbqueue.letter.wording.WordingProblem;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.Referrals;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.DayWords;
import limbqueue.shell.KeepsWhatIsTyped;
import limbqueue.shell.Pieces;

/** The words of letters: edited, checked, tried on a referral, published. */
@Route("letters/words")
@PageTitle("Words of letters · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/letterwords.css")
class LetterWordsView extends Div implements KeepsWhatIsTyped {

    /** A referral about which nothing is known. */
    private static final long NONE = 0;

    private final LetterWords words;
    private final TypedWords typed;
    private final boolean readsReferrals;

    private final Select<LetterKind> kind = new Select<>();
    private final Select<Language> language = new Select<>();
    private final ComboBox<ReferralLine> about = new ComboBox<>("Try it on");
    private final TextArea text = new TextArea("Words");
    private final Div said = new Div();
    private final Div state = new Div();
    private final Div problems = new Div();
    private final Pre letter = new Pre();
    private final Div below = new Div();
    private LetterWording now;

    LetterWordsView(LetterWords words, TypedWords typed, Referrals referrals, CurrentPerson person) {
        this.words = words;
        this.typed = typed;
        var role = person.get().role();
        this.readsReferrals = role == Role.COORDINATOR;
        addClassNames("lq-page", "lq-words");
        said.getElement().setAttribute("role", "status");
        said.addClassName("lq-words-said");
        state.addClassName("lq-quiet");
        problems.addClassName("lq-words-problems");
        problems.getElement().setAttribute("role", "alert");
        letter.addClassName("lq-letter-text");
        letter.getElement().setAttribute("tabindex", "0");
        letter.getElement().setAttribute("role", "region");
        letter.getElement().setAttribute("aria-label", "The letter as it would be");

        kind.setLabel("Letter");
        kind.setItems(LetterKind.values());
        kind.setItemLabelGenerator(LetterKind::words);
        kind.setValue(LetterKind.TRIAGED);
        language.setLabel("Language");
        language.setItems(words.languages());
        language.setItemLabelGenerator(Language::name);
        language.setValue(words.languages().getFirst());
        if (readsReferrals) {
            about.setItems(referrals.worklist());
        }
        about.setItemLabelGenerator(line -> line.reference() + " · " + line.patient());
        about.setClearButtonVisible(true);
        about.setPlaceholder("a referral of which nothing is known");
        about.setVisible(readsReferrals);
        about.addValueChangeListener(_ -> look());
        text.setValueChangeMode(ValueChangeMode.LAZY);
        text.setWidthFull();
        text.addClassName("lq-words-text");
        text.addValueChangeListener(change -> {
            if (change.isFromClient()) {
                keep();
                look();
            }
        });
        now = words.now(kind.getValue(), language.getValue().tag());
        kind.addValueChangeListener(_ -> show());
        language.addValueChangeListener(_ -> show());

        var head = Pieces.div(
                "lq-page-head",
                new H1("Words of letters"),
                readsReferrals ? new Anchor("letters", "Letters") : new Anchor("practice", "Practice"));
        var editor = Pieces.panel("lq-words-editor", "The words", state, text, problems, buttons());
        var preview = Pieces.panel("lq-words-preview", "The letter as it would be", about, letter);
        below.addClassName("lq-words-below");
        add(
                head,
                said,
                Pieces.div("lq-words-choice", kind, language, usual()),
                Pieces.div("lq-words-columns", editor, preview),
                below);
        show();
    }

    private Component usual() {
        var usual = new Select<Language>();
        usual.setLabel("Language where nobody has chosen another");
        usual.setItems(words.languages());
        usual.setItemLabelGenerator(Language::name);
        words.languages().stream()
                .filter(one -> one.tag().equals(words.language()))
                .findFirst()
                .ifPresent(usual::setValue);
        usual.setHelperText("Of letters to patients, and to doctors whose language the directory does not say.");
        usual.addValueChangeListener(change -> {
            try {
                words.chooseLanguage(change.getValue().tag());
                say("Letters are written in " + change.getValue().name()
                        + " where nobody has chosen another language.");
            } catch (NotPossibleException no) {
                say(Objects.requireNonNullElse(no.getMessage(), "This is not possible."));
            }
        });
        return usual;
    }

    private Div buttons() {
        return Pieces.div(
                "lq-row-actions",
                Pieces.primary("Publish…", this::publish),
                new Button("Back to the shipped words…", _ -> backToShipped()),
                new Button("Undo what is typed", _ -> {
                    typed.forget(kind.getValue(), tag());
                    say("The field shows the words that count.");
                    show();
                }));
    }

    private String tag() {
        return language.getValue().tag();
    }

    private void show() {
        now = words.now(kind.getValue(), tag());
        text.setValue(typed.of(kind.getValue(), tag()).orElse(now.text()));
        look();
        below.removeAll();
        below.add(
                new PlaceholderTable(kind.getValue()),
                new WordingHistory(words.history(kind.getValue(), tag()), this::take));
    }

    /** Puts an earlier text into the field; it counts once it is published. */
    private void take(String earlier) {
        text.setValue(earlier);
        keep();
        look();
        say("The earlier words are in the field. They count once they are published.");
        text.focus();
    }

    /** Checks the words, and shows the letter they would make. */
    private void look() {
        state.setText(counts() + (changed() ? " What is typed here is not published yet." : ""));
        var wrong = words.check(kind.getValue(), tag(), text.getValue());
        tell(wrong);
        text.setInvalid(!wrong.isEmpty());
        letter.setText(wrong.isEmpty() ? made().map(Parts::asText).orElse("") : "Mend the words first.");
    }

    private Optional<Parts> made() {
        var line = readsReferrals ? about.getOptionalValue() : Optional.<ReferralLine>empty();
        return line.map(ReferralLine::id).orElse(NONE) == NONE
                ? words.preview(kind.getValue(), tag(), text.getValue())
                : words.preview(
                        kind.getValue(),
                        tag(),
                        text.getValue(),
                        line.orElseThrow().id());
    }

    private String counts() {
        if (now.version() == 0) {
            return "The shipped words count.";
        }
        var by = ", by " + now.author().orElse("") + ", "
                + now.at().map(DayWords::moment).orElse("") + ".";
        return now.shipped()
                ? "The shipped words count again, since version " + now.version() + by
                : "Version " + now.version() + " counts" + by;
    }

    private boolean changed() {
        return !text.getValue().stripTrailing().equals(now.text().stripTrailing());
    }

    private void tell(List<WordingProblem> wrong) {
        problems.removeAll();
        if (!wrong.isEmpty()) {
            var list = new UnorderedList();
            wrong.forEach(problem -> list.add(
                    new ListItem((problem.line() == 0 ? "" : "Line " + problem.line() + ": ") + problem.what())));
            problems.add(new Paragraph("These words cannot be published:"), list);
        }
    }

    @Override
    public boolean keep() {
        if (changed()) {
            typed.keep(kind.getValue(), tag(), text.getValue());
        } else {
            typed.forget(kind.getValue(), tag());
        }
        return true;
    }

    private void publish() {
        var wrong = words.check(kind.getValue(), tag(), text.getValue());
        tell(wrong);
        if (!wrong.isEmpty()) {
            text.focus();
            return;
        }
        ask(
                "Publish the words of “" + kind.getValue().words() + "”?",
                "Letters written from now on have these words. Those written before stay as they are. What is said of who"
                        + " decides, and of what must not wait, is added to every letter.",
                "Publish",
                () -> words.publish(kind.getValue(), tag(), now.version(), text.getValue()));
    }

    private void backToShipped() {
        ask(
                "Back to the shipped words of “" + kind.getValue().words() + "”?",
                "Letters written from now on have the words that come with LimbQueue. Yours stay in the history.",
                "Go back",
                () -> words.backToShipped(kind.getValue(), tag(), now.version()));
    }

    private void ask(String title, String what, String deed, Supplier<WordingOutcome> act) {
        new AskingDialog(title, List.of(new Paragraph(what)), deed, () -> after(act.get())).open();
    }

    private Optional<String> after(WordingOutcome outcome) {
        return switch (outcome) {
            case WordingOutcome.Published(var published) -> {
                typed.forget(kind.getValue(), tag());
                say("Version " + published.version() + " of “" + kind.getValue().words() + "” is published.");
                show();
                yield Optional.empty();
            }
            case WordingOutcome.Unchanged _ -> Optional.of("Nothing differs from the words that count already.");
            case WordingOutcome.NotRight(var wrong) ->
                Optional.of(wrong.getFirst().what());
            case WordingOutcome.Overtaken(var theirs) -> {
                now = theirs;
                look();
                yield Optional.of("Meanwhile " + theirs.author().orElse("somebody")
                        + " has published other words. Yours are still in the field. Read theirs in the history, and"
                        + " publish yours again if they are to count.");
            }
        };
    }

    private void say(String what) {
        said.setText(what);
    }
}
