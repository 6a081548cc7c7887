package limbqueue.referral.ui;

import com.vaadin.flow.component.AbstractField;
import com.vaadin.flow.component.HasValue;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Day;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Given;
import limbqueue.referral.ui.FieldKind.Text;
import limbqueue.referral.ui.FieldKind.YesNo;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** The control of one single value, what stands behind it, and beneath it what is wrong with the value. */
final class FieldCell extends Div implements Place {

    private final String path;
    private final FieldKind kind;
    private final AbstractField<?, String> control;
    private final BiConsumer<String, Optional<Object>> changed;
    private final Told told;
    private final Span understood = new Span();

    /**
     * @param path of the value
     * @param name what assistive technology calls the control
     * @param value as the document has it
     * @param changed told the path and the new value, which is empty when it became unknown
     */
    FieldCell(
            String path,
            FormField field,
            String name,
            Optional<JsonNode> value,
            BiConsumer<String, Optional<Object>> changed) {
        this.path = path;
        this.kind = field.kind();
        this.changed = changed;
        this.control = controlFor(kind);
        addClassName("lq-cell");

        var element = control.getElement();
        element.setAttribute("id", idOf(path));
        element.setAttribute("data-path", path);
        element.setAttribute("aria-label", name);
        LikelyFields.way(path).ifPresent(way -> element.setAttribute("data-way", way));
        Suggestions.offer(control, path);
        told = new Told(idOf(path) + "-told", element);

        control.setValue(value.map(known -> shown(kind, known)).orElse(""));
        HasValue.ValueChangeListener<AbstractField.ComponentValueChangeEvent<?, String>> listener = event -> {
            var came = Optional.ofNullable(event.getValue()).orElse("");
            var typed = Typed.visible(came);
            if (!typed.equals(came)) {
                control.setValue(typed);
            }
            showUnderstood(typed);
            changed.accept(path, read(kind, typed));
        };
        listen(control, listener);

        add(control);
        if (kind instanceof Amount amount && !amount.unit().isEmpty()) {
            var unit = new Span(amount.unit());
            unit.addClassName("lq-unit");
            unit.getElement().setAttribute("aria-hidden", "true");
            add(unit);
            element.setAttribute("aria-label", name + ", " + amount.unit());
        }
        if (kind instanceof Day) {
            understood.addClassName("lq-understood");
            add(understood);
            showUnderstood(control.getValue());
        }
        add(told);
    }

    /** Shows {@code value}, which came from elsewhere than this control. */
    void show(Optional<JsonNode> value) {
        control.setValue(value.map(known -> shown(kind, known)).orElse(""));
        showUnderstood(control.getValue());
    }

    /** What the control shows. */
    String shown() {
        return Optional.ofNullable(control.getValue()).orElse("");
    }

    /** Takes in what was typed here on a page that is gone. */
    void enter(String came) {
        var typed = Typed.visible(came);
        control.setValue(typed);
        showUnderstood(typed);
        changed.accept(path, read(kind, typed));
    }

    /** The id of the control at {@code path}. */
    static String idOf(String path) {
        return "field-" + path.replaceAll("[^A-Za-z0-9]+", "-");
    }

    @Override
    public String path() {
        return path;
    }

    @Override
    public void tell(List<String> problems, List<String> contradictions) {
        told.tell(problems, contradictions);
        setClassName("lq-cell-problem", !problems.isEmpty());
        setClassName("lq-cell-contradiction", problems.isEmpty() && !contradictions.isEmpty());
    }

    @Override
    public void goTo() {
        control.getElement().executeJs("this.scrollIntoView({block: 'center'}); this.focus();");
    }

    private static <F extends AbstractField<F, String>> void listen(
            AbstractField<F, String> field,
            HasValue.ValueChangeListener<AbstractField.ComponentValueChangeEvent<?, String>> listener) {
        field.addValueChangeListener(event -> {
            if (event.isFromClient()) {
                listener.valueChanged(event);
            }
        });
    }

    private static AbstractField<?, String> controlFor(FieldKind kind) {
        return switch (kind) {
            case YesNo _ -> AnswerField.yesOrNo();
            case Choice choice -> new AnswerField(choice.options());
            case Amount _ -> line("lq-input-amount", "decimal");
            case Day day -> {
                var line = line(day.time() ? "lq-input-moment" : "lq-input-day", "text");
                line.getElement().setAttribute("placeholder", day.time() ? "dd.mm.yyyy hh:mm" : "dd.mm.yyyy");
                yield line;
            }
            case Text(var lines) when lines == 1 -> line("lq-input-line", "text");
            case Text(var lines) -> new LinesField(lines);
            case Given _ -> {
                var line = line("lq-input-line", "text");
                line.getElement().setAttribute("readonly", true);
                yield line;
            }
            case Entries _ -> throw new IllegalArgumentException("a list is not a single value");
        };
    }

    private static LineField line(String className, String inputMode) {
        var line = new LineField();
        line.getElement().getClassList().add(className);
        line.getElement().setAttribute("inputmode", inputMode);
        return line;
    }

    /** The value that {@code typed} gives a field of this kind; empty when nothing was typed. */
    static Optional<Object> read(FieldKind kind, String typed) {
        return typed.isBlank() ? Optional.empty() : Optional.of(valueOf(kind, typed));
    }

    private static Object valueOf(FieldKind kind, String typed) {
        return switch (kind) {
            case YesNo _ ->
                switch (typed) {
                    case AnswerField.YES -> true;
                    case AnswerField.NO -> false;
                    default -> typed;
                };
            case Amount _ -> Typed.amount(typed);
            case Day day -> Typed.day(typed, day.time());
            case Choice _, Text _, Given _, Entries _ -> typed;
        };
    }

    /** The text that stands for {@code value} in a field of this kind. */
    static String shown(FieldKind kind, JsonNode value) {
        if (value.isNull()) {
            return "";
        }
        if (kind instanceof YesNo && value.isBoolean()) {
            return value.booleanValue() ? AnswerField.YES : AnswerField.NO;
        }
        return value.isString() ? value.stringValue() : value.toString();
    }

    /** Says a day typed in figures back in words, so that day and month cannot be mistaken. */
    private void showUnderstood(@Nullable String typed) {
        if (kind instanceof Day day && typed != null) {
            var iso = Typed.day(typed, day.time());
            var words = TierWords.date(iso.length() > 10 ? iso.substring(0, 10) : iso);
            understood.setText(words.equals(iso) || words.equals(typed.strip()) ? "" : words);
        }
    }
}
