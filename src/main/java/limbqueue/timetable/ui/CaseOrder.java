package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Placed;
import limbqueue.timetable.SessionOrder;
import limbqueue.timetable.SessionWeek;
import limbqueue.timetable.TimetableOutcome;

/** Moves a case earlier or later within its session: by Alt+Up and Alt+Down on it, and by two buttons. */
final class CaseOrder {

    private static final Pattern NUMBER = Pattern.compile("\\d{1,18}");

    private final Component page;
    private final SessionOrder order;
    private final Supplier<Optional<SessionWeek>> shown;
    private final Consumer<String> said;

    /**
     * @param shown the week on the page
     * @param said tells what was done, and shows the week as it is now
     */
    CaseOrder(Component page, SessionOrder order, Supplier<Optional<SessionWeek>> shown, Consumer<String> said) {
        this.page = page;
        this.order = order;
        this.shown = shown;
        this.said = said;
    }

    /** Hears the keys, which the browser tells with the id of the case that has the focus. */
    void listen() {
        page.getElement()
                .addEventListener(
                        "lq-order",
                        event -> pressed(
                                event.getEventData().get("event.detail.which").asString(),
                                event.getEventData().get("event.detail.earlier").asBoolean()))
                .addEventData("event.detail.which")
                .addEventData("event.detail.earlier");
    }

    /** @param before is done before the case is moved */
    Component buttons(Placed placed, Runnable before) {
        return new Div(
                Pieces.div(
                        "lq-row-actions",
                        button("Earlier", placed, true, before),
                        button("Later", placed, false, before)),
                Pieces.paragraph("lq-quiet", "In the week, Alt+Up and Alt+Down on a case do the same."));
    }

    private Component button(String words, Placed placed, boolean earlier, Runnable before) {
        return Pieces.small(words, "%s in its session: %s".formatted(words, placed.who()), () -> {
            before.run();
            move(placed, earlier, false);
        });
    }

    /** By the case as it is shown now: a key that is held down moves it on and on. */
    private void pressed(String which, boolean earlier) {
        if (NUMBER.matcher(which).matches()) {
            var id = Long.parseLong(which);
            shown.get().stream()
                    .flatMap(week -> week.sessions().stream())
                    .flatMap(session -> session.patients().stream())
                    .filter(one -> one.id() == id)
                    .findFirst()
                    .ifPresent(one -> move(one, earlier, false));
        }
    }

    private void move(Placed placed, boolean earlier, boolean agreed) {
        var outcome = order.move(placed.id(), placed.version(), earlier, agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            AskFirst.open("Move it all the same?", concerns, "Move", () -> move(placed, earlier, true));
            return;
        }
        said.accept(SessionWords.said(outcome, "Moved."));
        // The week was drawn anew, and the case with it.
        page.getElement()
                .executeJs("this.querySelector(`[data-order=\"${$0}\"]`)?.focus()", String.valueOf(placed.id()));
    }
}
