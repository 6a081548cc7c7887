package limbqueue.dispatch.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.Channel;
import limbqueue.dispatch.DeskLine;
import limbqueue.dispatch.DeskPile;
import limbqueue.dispatch.Dispatch;
import limbqueue.dispatch.DispatchState;
import limbqueue.dispatch.Dispatches;
import limbqueue.letter.LetterCorrections;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Pieces;

/** The words of one letter beside the list, and what can be done about it. */
final class LetterPreview extends Section {

    private static final String BEING_CORRECTED = "Its words are being corrected by hand.";

    private final transient Dispatches dispatches;
    private final transient LetterCorrections corrections;
    private final boolean acts;
    private final transient Runnable changed;
    private transient Optional<DeskLine> shown = Optional.empty();
    private transient Optional<NativeButton> correct = Optional.empty();

    /**
     * @param acts whether the person may do anything
     * @param changed called when something was done
     */
    LetterPreview(Dispatches dispatches, LetterCorrections corrections, boolean acts, Runnable changed) {
        this.dispatches = dispatches;
        this.corrections = corrections;
        this.acts = acts;
        this.changed = changed;
        addClassNames("lq-card", "lq-letter-preview");
        getElement().setAttribute("aria-label", "The letter");
        setVisible(false);
    }

    void show(DeskLine line) {
        shown = Optional.of(line);
        removeAll();
        var letter = line.letter();
        var close = new Button("Close", _ -> close());
        close.addThemeVariants(ButtonVariant.LUMO_SMALL);
        var text = new Pre(letter.text());
        text.addClassName("lq-letter-text");
        add(
                Pieces.div(
                        "lq-letter-preview-head",
                        new H2(letter.kind().words() + ": " + letter.patient() + ", " + letter.reference()),
                        close),
                Pieces.paragraph("lq-desk-state", DeskWords.way(line) + ". " + DeskWords.state(line)));
        line.dispatch().filter(_ -> acts).ifPresent(way -> add(actions(line, way)));
        add(text);
        var corrected = corrections.of(letter.id());
        if (!corrected.isEmpty()) {
            add(new ChangesShown(corrected));
        }
        setVisible(true);
        // Under a long list on a narrow window it would be shown where nobody looks.
        getElement().executeJs("this.scrollIntoView({block: 'nearest'})");
    }

    void close() {
        shown = Optional.empty();
        setVisible(false);
    }

    /** Shows the same letter as it stands now. */
    void renew(List<DeskLine> lines) {
        shown.ifPresent(old -> lines.stream()
                .filter(line -> line.letter().id() == old.letter().id()
                        && line.dispatch()
                                .map(Dispatch::id)
                                .equals(old.dispatch().map(Dispatch::id)))
                .findFirst()
                .ifPresentOrElse(
                        line -> {
                            if (!line.equals(old)) {
                                show(line);
                            }
                        },
                        this::close));
    }

    private Div actions(DeskLine line, Dispatch way) {
        var pile = line.pile();
        var actions = Pieces.div("lq-row-actions");
        if (pile == DeskPile.TO_SEND) {
            actions.add(Pieces.small("Hold", "Hold this letter back", () -> hold(way)));
        }
        if (pile == DeskPile.TO_CHECK || pile == DeskPile.FAILED) {
            actions.add(Pieces.small(
                    "Release",
                    "Release this letter, by what the directory says now",
                    () -> refused(() -> dispatches.release(way)).ifPresent(this::tell)));
        }
        if (line.letter().sentAt().isEmpty() && way.state() != DispatchState.SENDING) {
            var button = Pieces.small("Correct", "Correct the words of this letter by hand", () -> correct(way));
            correct = Optional.of(button);
            actions.add(button);
        }
        actions.add(Pieces.small(
                pile == DeskPile.SENT || pile == DeskPile.BOUNCED ? "Send again" : "Send another way",
                "Send this letter to an address that you give",
                () -> send(way)));
        return actions;
    }

    /** A letter that would leave by itself is held first, so that it does not leave while somebody types. */
    private void correct(Dispatch way) {
        if (way.state() == DispatchState.TO_SEND) {
            var not = refused(() -> dispatches.hold(way, BEING_CORRECTED));
            if (not.isPresent()) {
                tell(not.get());
                return;
            }
        }
        new CorrectionDialog(corrections, corrections.open(way.letterId()), () -> {
                    changed.run();
                    correct.ifPresent(NativeButton::focus);
                })
                .open();
    }

    private void hold(Dispatch way) {
        var reason = new TextArea("Why it is held");
        reason.setWidthFull();
        new AskingDialog(
                        "Hold the letter back",
                        List.of(reason),
                        "Hold",
                        () -> refused(() -> dispatches.hold(way, reason.getValue())))
                .open();
    }

    private void send(Dispatch way) {
        var channel = new Select<Channel>();
        channel.setLabel("By");
        channel.setItems(Channel.values());
        channel.setItemLabelGenerator(Channel::word);
        channel.setWidthFull();
        var address = new TextField("To");
        address.setWidthFull();
        channel.addValueChangeListener(change -> {
            // The post carries it to what is printed on it.
            address.setVisible(change.getValue() != Channel.POST);
            address.setValue(
                    change.getValue() == way.channel() && change.getValue() != Channel.POST
                            ? way.address()
                            : dispatches
                                    .known(way.letterId(), change.getValue())
                                    .lines()
                                    .findFirst()
                                    .orElse(""));
        });
        channel.setValue(way.channel());
        new AskingDialog(
                        "Send the letter",
                        List.of(channel, address),
                        "Send",
                        () -> refused(() -> dispatches.send(way, channel.getValue(), address.getValue())))
                .open();
    }

    /** Does it, and says why not where it is not possible. */
    private Optional<String> refused(Runnable act) {
        try {
            act.run();
        } catch (NotPossibleException not) {
            return Optional.of(Objects.requireNonNullElse(not.getMessage(), "This is not possible just now."));
        }
        changed.run();
        return Optional.empty();
    }

    private void tell(String why) {
        var told = Pieces.div("lq-form-error");
        told.getElement().setAttribute("role", "alert");
        told.setText(why);
        addComponentAtIndex(1, told);
    }
}
