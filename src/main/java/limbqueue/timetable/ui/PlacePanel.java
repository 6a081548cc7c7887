package limbqueue.timetable.ui;

import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import limbqueue.shell.CountedWords;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.OpenStep;

/** Who has no place yet, and the two fields and the key by which somebody is given one. */
final class PlacePanel extends Div {

    /** What is placed: the step as it was looked at. */
    interface Place {
        void place(OpenStep step, FilledSession session);
    }

    private final boolean places;
    private final Place place;
    private final Function<OpenStep, String> tier;
    private final ComboBox<OpenStep> step = new ComboBox<>("Case");
    private final ComboBox<FilledSession> session = new ComboBox<>("Session");
    private final Div fields = new Div();
    private final Div list = new Div();
    private List<OpenStep> steps = List.of();
    private List<FilledSession> sessions = List.of();

    /**
     * @param places whether the person may place anybody
     * @param tier how a tier is called
     */
    PlacePanel(boolean places, Function<OpenStep, String> tier, Place place) {
        this.places = places;
        this.tier = tier;
        this.place = place;
        var put = Pieces.primary("Place", this::place);
        step.setItemLabelGenerator(this::words);
        step.setWidthFull();
        step.addValueChangeListener(changed -> {
            offerSessions();
            if (changed.isFromClient() && changed.getValue() != null) {
                session.focus();
            }
        });
        session.setItemLabelGenerator(SessionWords::choice);
        session.setWidthFull();
        session.addValueChangeListener(changed -> {
            if (changed.isFromClient() && changed.getValue() != null) {
                put.focus();
            }
        });
        fields.addClassName("lq-stack");
        fields.add(step, session, new Div(put));
        fields.setVisible(places);
        list.addClassName("lq-to-place");
        add(Pieces.panel("lq-stack lq-place", "To place", fields, list));
    }

    /** Leaves what is chosen alone as long as what there is to choose from has not changed. */
    void show(List<OpenStep> waiting, List<FilledSession> toCome) {
        if (isAttached() && waiting.equals(steps) && toCome.equals(sessions) && list.getComponentCount() > 0) {
            return;
        }
        steps = List.copyOf(waiting);
        sessions = List.copyOf(toCome);
        var chosen = step.getValue();
        step.setItems(steps);
        if (chosen != null && steps.contains(chosen)) {
            step.setValue(chosen);
        }
        offerSessions();
        list.removeAll();
        if (steps.isEmpty()) {
            list.add(Pieces.paragraph("lq-quiet", "Every approved case has its places."));
            return;
        }
        var lines = new UnorderedList();
        steps.forEach(one -> lines.add(line(one)));
        list.add(Pieces.paragraph("lq-quiet", CountedWords.of(steps.size(), "step waits.", "steps wait.")), lines);
    }

    private ListItem line(OpenStep one) {
        var line = new ListItem(
                new Anchor("referrals/" + one.referralId() + "/preparation", who(one)),
                new Span("%s, %d min".formatted(one.step().words(), one.minutes())),
                Pieces.text("lq-quiet", "%s, by %s".formatted(tier.apply(one), DayWords.date(one.target()))));
        if (places) {
            line.getElement()
                    .setAttribute("draggable", "true")
                    .setAttribute("data-drag", one.referralId() + "/" + one.step() + "/" + one.version())
                    .setAttribute("data-into", one.step().session().name());
        }
        return line;
    }

    private void offerSessions() {
        var chosen = step.getValue();
        var before = session.getValue();
        var fitting = sessions.stream()
                .filter(one -> chosen != null
                        && one.kept().session().kind() == chosen.step().session())
                .toList();
        session.setItems(fitting);
        session.setEnabled(chosen != null);
        session.setHelperText(
                chosen != null && fitting.isEmpty()
                        ? "There is no open session of the %s. Enter one."
                                .formatted(chosen.step().session().words())
                        : "");
        fitting.stream()
                .filter(one ->
                        before != null && one.kept().id() == before.kept().id())
                .findFirst()
                .ifPresent(session::setValue);
    }

    private void place() {
        if (Objects.isNull(step.getValue())) {
            step.focus();
        } else if (Objects.isNull(session.getValue())) {
            session.focus();
        } else {
            place.place(step.getValue(), session.getValue());
        }
    }

    /** The case, for the next one to be chosen without the mouse. */
    void focusCase() {
        step.clear();
        step.focus();
    }

    private String words(OpenStep one) {
        return "%s, %s, %d min".formatted(who(one), one.step().words(), one.minutes());
    }

    private static String who(OpenStep one) {
        return one.patient().isBlank() ? one.reference() : one.patient();
    }
}
