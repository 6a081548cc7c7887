package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Entries;

/** A list on the form: not known, answered with "none", or with entries that can be added and removed. */
final class EntriesCell extends Div implements Place {

    private static final String NONE = "none";

    /** As many as the public format takes. */
    private static final int MOST_ENTRIES = 200;

    private final String path;
    private final FormField field;
    private final Entries entries;
    private final Draft draft;
    private final Listener listener;
    private final Div head = new Div();
    private final Div answers = new Div();
    private final Div cards = new Div();
    private final Told told;
    private final NativeButton add;
    private final Optional<LineField> line;

    /** Who is told what happens to the list. */
    interface Listener {

        /** A value of an entry changed, or became unknown. */
        void changed(String path, Optional<Object> value);

        /** Entries came or went, or there are none, so the places of the list are others now. */
        void restructured(EntriesCell list);

        /** The list is drawn anew after it was changed elsewhere. */
        void redrawn(EntriesCell list);
    }

    private List<FieldCell> cells = List.of();

    EntriesCell(FormField field, Entries entries, Draft draft, Listener listener) {
        this.path = field.path();
        this.field = field;
        this.entries = entries;
        this.draft = draft;
        this.listener = listener;
        addClassName("lq-entries");
        setId(FieldCell.idOf(path));
        getElement().setAttribute("role", "group").setAttribute("aria-label", field.label());
        told = new Told(FieldCell.idOf(path) + "-told", getElement());
        head.addClassName("lq-entries-head");
        cards.addClassName("lq-entries-cards");
        add = new NativeButton("Add " + entries.entry(), _ -> addEntry());
        add.addClassName("lq-button");
        line = EntryLine.hint(path).map(this::lineFor);
        answers.addClassName("lq-entries-answers");
        head.add(answers);
        line.ifPresent(head::add);
        head.add(add);
        add(head, told, cards);
        draw();
    }

    /** Where an entry is typed as one line. */
    private LineField lineFor(String hint) {
        var typed = new LineField();
        var element = typed.getElement();
        element.getClassList().add("lq-input-entry");
        element.setAttribute("data-line", path);
        element.setAttribute("placeholder", hint);
        element.setAttribute("aria-label", field.label() + ": " + hint);
        LikelyFields.way(path).ifPresent(way -> element.setAttribute("data-way", way));
        Suggestions.offer(typed, path);
        element.addEventListener(
                        "lq-line",
                        event -> enter(event.getEventData().get("event.detail").asString()))
                .addEventData("event.detail");
        return typed;
    }

    /** Adds what was typed as one line. */
    void enter(String typed) {
        EntryLine.read(path, Typed.visible(typed)).ifPresent(entry -> {
            var index = draft.sizeOf(path).orElse(0);
            if (entry.isNone()) {
                if (index == 0) {
                    draft.setNone(path);
                }
            } else if (index < MOST_ENTRIES) {
                entry.values().forEach((name, value) -> draft.set(path + "[" + index + "]." + name, value));
            } else {
                tell(
                        List.of("The list is full: " + MOST_ENTRIES + " entries. “" + typed + "” was not added."),
                        List.of());
                return;
            }
            draw();
            listener.restructured(this);
        });
    }

    @Override
    public String path() {
        return path;
    }

    @Override
    public void tell(List<String> problems, List<String> contradictions) {
        told.tell(problems, contradictions);
    }

    @Override
    public void goTo() {
        getElement()
                .executeJs("this.scrollIntoView({block: 'center'});"
                        + " this.querySelector('[data-line], input:checked, button')?.focus();");
    }

    /** The places of all entries. */
    List<FieldCell> cells() {
        return cells;
    }

    /** Shows the list as the draft has it now, after it was changed from elsewhere. */
    void refresh() {
        draw();
        listener.redrawn(this);
    }

    private void draw() {
        answers.removeAll();
        cards.removeAll();
        var size = draft.sizeOf(path).orElse(0);
        line.ifPresent(typed -> typed.getElement()
                .setAttribute("data-filled", String.valueOf(draft.sizeOf(path).isPresent())));
        if (size == 0) {
            var answer = new AnswerField(List.of(new Choice.Option(NONE, entries.none())));
            answer.getElement().setAttribute("aria-label", field.label());
            answer.setValue(draft.sizeOf(path).isPresent() ? NONE : "");
            answer.addValueChangeListener(event -> {
                if (event.isFromClient()) {
                    answered(NONE.equals(event.getValue()));
                }
            });
            if (line.isEmpty()) {
                answer.getElement().setAttribute("data-list", path);
                LikelyFields.way(path).ifPresent(way -> answer.getElement().setAttribute("data-way", way));
            }
            answers.add(answer);
        } else {
            var count = new Span(size == 1 ? "1 " + entries.entry() : size + " entries");
            count.addClassName("lq-entries-count");
            answers.add(count);
        }
        var drawn = new ArrayList<FieldCell>();
        for (var index = 0; index < size; index++) {
            cards.add(card(index, drawn));
        }
        cells = List.copyOf(drawn);
    }

    private Div card(int index, List<FieldCell> drawn) {
        var name = entries.entry() + " " + (index + 1);
        var card = new Div();
        card.addClassName("lq-entry");
        card.getElement().setAttribute("role", "group").setAttribute("aria-label", name);
        var title = new Span(name);
        title.addClassName("lq-entry-title");
        var remove = new NativeButton("Remove", _ -> removeEntry(index));
        remove.addClassName("lq-link");
        remove.getElement().setAttribute("aria-label", "Remove " + name);
        var top = new Div(title, remove);
        top.addClassName("lq-entry-head");
        card.add(top);
        var grid = new Div();
        grid.addClassName("lq-fields");
        for (var inner : entries.fields()) {
            var innerPath = path + "[" + index + "]." + inner.path();
            var cell = new FieldCell(
                    innerPath, inner, inner.label() + ", " + name, draft.get(innerPath), listener::changed);
            drawn.add(cell);
            grid.add(new LabelledField(inner, cell));
        }
        card.add(grid);
        return card;
    }

    private void answered(boolean none) {
        if (none) {
            draft.setNone(path);
        } else {
            draft.clear(path);
        }
        listener.restructured(this);
    }

    private void addEntry() {
        var index = draft.sizeOf(path).orElse(0);
        var first = path + "[" + index + "]." + entries.fields().getFirst().path();
        draft.set(first, "");
        draft.clear(first);
        draw();
        listener.restructured(this);
        cells.stream().filter(cell -> cell.path().equals(first)).findFirst().ifPresent(FieldCell::goTo);
    }

    private void removeEntry(int index) {
        draft.removeEntry(path, index);
        draw();
        listener.restructured(this);
        add.getElement().executeJs("this.focus()");
    }
}
