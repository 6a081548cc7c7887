package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Article;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Section;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import limbqueue.shell.Pieces;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.Placed;
import limbqueue.timetable.SessionWeek;

/**
 * One week: a column a day, in it the sessions, in each the cases as blocks of a height that goes with their minutes.
 *
 * @param edits whether the person may close sessions and hold time of them
 * @param places whether the person may place cases
 * @param lists whether the person may see the lists of the days
 */
record WeekPanel(
        boolean edits,
        boolean places,
        boolean lists,
        Consumer<FilledSession> close,
        Consumer<FilledSession> open,
        Consumer<FilledSession> release,
        Consumer<FilledSession> hold,
        BiConsumer<FilledSession, Placed> choose) {

    /** Pixels of a minute: the words of a short case need two lines. */
    private static final double MINUTE = 1.5;

    /** The least that can be pressed (WCAG 2.2, success criterion 2.5.8). */
    private static final int LEAST = 24;

    Component of(SessionWeek week) {
        var days = Pieces.div("lq-week");
        for (var at = 0; at < 7; at++) {
            var day = week.monday().plusDays(at);
            if (day.getDayOfWeek().compareTo(DayOfWeek.FRIDAY) <= 0
                    || !week.on(day).isEmpty()) {
                days.add(day(week, day));
            }
        }
        return days;
    }

    private Component day(SessionWeek week, LocalDate day) {
        var head = Pieces.div("lq-day-head", new H2(SessionWords.day(day)));
        if (day.equals(week.today())) {
            head.add(Pieces.text("lq-quiet", "today"));
        }
        if (lists && !week.on(day).isEmpty()) {
            var list = new Anchor("sessions/day/" + day, "List");
            list.getElement().setAttribute("aria-label", "List of " + SessionWords.longDay(day));
            head.add(list);
        }
        var column = new Section(head);
        column.addClassName("lq-day");
        column.getElement().setAttribute("aria-label", SessionWords.longDay(day));
        if (week.on(day).isEmpty()) {
            column.add(Pieces.paragraph("lq-quiet", "No session."));
        }
        week.on(day).forEach(filled -> column.add(session(filled, week.today())));
        return column;
    }

    private Component session(FilledSession filled, LocalDate today) {
        var session = filled.kept().session();
        var box = new Article(new H3(SessionWords.title(session)));
        box.addClassName("lq-session");
        box.getElement()
                .setAttribute("data-session", String.valueOf(filled.kept().id()));
        box.getElement().setAttribute("data-kind", session.kind().name());
        box.add(Pieces.paragraph("lq-session-where", session.place() + ", " + session.operator()));
        if (!session.capabilities().isEmpty()) {
            box.add(Pieces.paragraph("lq-quiet", "With " + SessionWords.capabilities(session)));
        }
        filled.kept().closedBecause().ifPresent(because -> {
            box.addClassName("lq-session-closed");
            box.getElement().removeAttribute("data-kind");
            box.add(Pieces.paragraph("lq-strong", "Closed: " + because));
        });
        if (filled.kept().closedBecause().isEmpty() || !filled.patients().isEmpty()) {
            box.add(body(filled, today));
            box.add(Pieces.paragraph(
                    filled.over() > 0 ? "lq-session-taken lq-strong" : "lq-session-taken lq-quiet",
                    SessionWords.taken(filled)));
            SessionWords.held(session, today)
                    .ifPresent(words -> box.add(Pieces.paragraph("lq-session-taken lq-quiet", words)));
        }
        if (places && filled.kept().emergencyMinutes() > 0) {
            box.add(Pieces.small(
                    "Give the minutes back",
                    "Give the minutes back: " + SessionWords.where(filled.kept()),
                    () -> release.accept(filled)));
        }
        if (edits && !filled.kept().date().isBefore(today)) {
            box.add(deeds(filled));
        }
        return box;
    }

    private Component deeds(FilledSession filled) {
        var about = SessionWords.where(filled.kept());
        return filled.kept().session().closed()
                ? Pieces.small("Open again", "Open again: " + about, () -> open.accept(filled))
                : Pieces.div(
                        "lq-session-deeds",
                        Pieces.small("Hold time", "Hold time: " + about, () -> hold.accept(filled)),
                        Pieces.small("Close", "Close: " + about, () -> close.accept(filled)));
    }

    private Component body(FilledSession filled, LocalDate today) {
        var body = new Div();
        body.addClassName("lq-session-body");
        body.getStyle().set("min-height", filled.kept().session().minutes() * MINUTE + "px");
        filled.patients().forEach(placed -> body.add(block(filled, placed)));
        if (filled.kept().emergencyMinutes() > 0) {
            body.add(emergency(filled));
        }
        var free = filled.heldAndFree(today);
        if (free > 0 && !filled.kept().session().closed()) {
            var held = Pieces.text("lq-held", "Held, %d min".formatted(free));
            held.getStyle().set("height", Math.max(LEAST, free * MINUTE) + "px");
            body.add(held);
        }
        if (filled.over() > 0) {
            var end = Pieces.div("lq-session-end");
            end.getStyle().set("top", filled.kept().session().minutes() * MINUTE + "px");
            body.add(end);
        }
        return body;
    }

    private static Component emergency(FilledSession filled) {
        var minutes = filled.kept().emergencyMinutes();
        var block = Pieces.div("lq-block lq-block-emergency");
        block.setText("Emergency, %d min".formatted(minutes));
        block.getStyle().set("height", Math.max(LEAST, minutes * MINUTE) + "px");
        return block;
    }

    private Component block(FilledSession filled, Placed placed) {
        var words = SessionWords.block(filled, placed);
        var block = new NativeButton(words, _ -> choose.accept(filled, placed));
        block.addClassName("lq-block");
        block.setClassName("lq-block-over", filled.overOf(placed) > 0);
        block.setClassName("lq-block-told", placed.told());
        block.getElement().setAttribute("title", words + ": " + placed.step().words());
        block.getStyle().set("height", Math.max(LEAST, placed.minutes().expected() * MINUTE) + "px");
        if (places) {
            block.getElement()
                    .setAttribute("draggable", "true")
                    .setAttribute("data-drag", placed.referralId() + "/" + placed.step() + "/" + placed.version())
                    .setAttribute("data-into", placed.step().session().name())
                    .setAttribute("data-order", String.valueOf(placed.id()))
                    .setAttribute("aria-keyshortcuts", "Alt+ArrowUp Alt+ArrowDown");
        }
        return block;
    }
}
