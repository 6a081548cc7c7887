package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Paragraph;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import limbqueue.access.Role;
import limbqueue.booking.StepKind;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.CountedWords;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.OpenStep;
import limbqueue.timetable.Placed;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.ShortNotice;
import limbqueue.timetable.TimetableOutcome;

/** What can be done with a case: it is given a place, told of, moved and taken out. */
final class CaseActs {

    private static final Pattern DRAGGED = Pattern.compile("(\\d{1,18})/([A-Z_]{1,30})/(\\d{1,9})");
    private static final Pattern NUMBER = Pattern.compile("\\d{1,18}");

    private final Appointments appointments;
    private final Sessions sessions;
    private final CaseOrder order;
    private final Role role;
    private final Consumer<String> said;
    private final Runnable placed;

    /**
     * @param said tells what was done, and shows the week as it is now
     * @param placed is done after a case has been given a place
     */
    CaseActs(
            Appointments appointments,
            Sessions sessions,
            CaseOrder order,
            Role role,
            Consumer<String> said,
            Runnable placed) {
        this.appointments = appointments;
        this.sessions = sessions;
        this.order = order;
        this.role = role;
        this.said = said;
        this.placed = placed;
    }

    /** Hears of what is dropped on a session, and the keys that change the order in one. */
    void listen(Component page) {
        page.getElement()
                .addEventListener(
                        "lq-place",
                        event -> dropped(
                                event.getEventData().get("event.detail.what").asString(),
                                event.getEventData().get("event.detail.session").asString()))
                .addEventData("event.detail.what")
                .addEventData("event.detail.session");
        order.listen();
    }

    private void dropped(String what, String session) {
        var dragged = DRAGGED.matcher(what);
        if (dragged.matches() && NUMBER.matcher(session).matches() && places()) {
            for (var step : StepKind.values()) {
                if (step.name().equals(dragged.group(2))) {
                    place(
                            Long.parseLong(dragged.group(1)),
                            step,
                            Integer.parseInt(dragged.group(3)),
                            Long.parseLong(session),
                            false);
                }
            }
        }
    }

    private boolean places() {
        return role == Role.COORDINATOR;
    }

    void place(OpenStep step, FilledSession into) {
        place(step.referralId(), step.step(), step.version(), into.kept().id(), false);
    }

    private void place(long referral, StepKind step, int version, long into, boolean agreed) {
        var outcome = appointments.place(referral, step, version, into, agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            AskFirst.open(
                    "Place it all the same?", concerns, "Place", () -> place(referral, step, version, into, true));
            return;
        }
        said.accept(SessionWords.said(outcome, "Placed: " + step.words() + "."));
        if (outcome instanceof TimetableOutcome.Done) {
            placed.run();
        }
    }

    /** What can be done with a case in a session. */
    void choose(FilledSession filled, Placed chosen) {
        var dialog = new Dialog();
        dialog.setHeaderTitle("%s, %s".formatted(chosen.who(), chosen.step().words()));
        dialog.setWidth("440px");
        var facts = facts(filled, chosen);
        dialog.add(facts);
        if (places()) {
            facts.add(order.buttons(chosen, dialog::close));
            if (!chosen.told()) {
                dialog.getFooter().add(deed(dialog, "The patient has been told", () -> told(chosen)));
            }
            dialog.getFooter()
                    .add(
                            deed(dialog, "Move", () -> move(filled, chosen)),
                            deed(dialog, "Take out", () -> takeOut(chosen, false)));
        }
        dialog.getFooter().add(new Button("Leave it", _ -> dialog.close()));
        dialog.open();
    }

    private static Button deed(Dialog dialog, String words, Runnable act) {
        return new Button(words, _ -> {
            dialog.close();
            act.run();
        });
    }

    private Div facts(FilledSession filled, Placed chosen) {
        var facts = Pieces.div(
                "lq-stack",
                new Paragraph(SessionWords.where(filled.kept())),
                new Paragraph("Expected at %s for %s; nine of ten take no longer than %d."
                        .formatted(
                                filled.startsFor(chosen).toLocalTime(),
                                CountedWords.of(chosen.minutes().expected(), "minute"),
                                Math.round(chosen.minutes().ninety()))),
                new Paragraph(
                        chosen.told()
                                ? "The patient has been told of it."
                                : "The patient has not been told of it yet."),
                Pieces.paragraph(
                        "lq-quiet",
                        "%s by %s."
                                .formatted(
                                        chosen.planned() ? "Accepted from the plan" : "Placed by hand",
                                        chosen.author())));
        if (role != Role.MANAGER) {
            facts.add(
                    new Anchor("referrals/" + chosen.referralId() + "/preparation", "Open the case"),
                    new Anchor("sessions/letter/" + chosen.id(), "Letter to the patient"));
        }
        return facts;
    }

    private void told(Placed chosen) {
        said.accept(
                SessionWords.said(appointments.told(chosen.id(), chosen.version()), chosen.who() + " has been told."));
    }

    private void move(FilledSession filled, Placed chosen) {
        var into = new ComboBox<FilledSession>("To which session");
        into.setItems(sessions.toCome().stream()
                .filter(one -> one.kept().session().kind() == chosen.step().session()
                        && one.kept().id() != filled.kept().id())
                .toList());
        into.setItemLabelGenerator(SessionWords::choice);
        into.setWidthFull();
        new AskingDialog(
                        "Move: %s, %s".formatted(chosen.who(), chosen.step().words()),
                        List.of(into),
                        "Move",
                        () -> into.getOptionalValue()
                                .map(to -> {
                                    place(
                                            chosen.referralId(),
                                            chosen.step(),
                                            chosen.version(),
                                            to.kept().id(),
                                            false);
                                    return Optional.<String>empty();
                                })
                                .orElse(Optional.of("Choose a session.")))
                .open();
    }

    private void takeOut(Placed chosen, boolean agreed) {
        var outcome = appointments.takeOut(chosen.id(), chosen.version(), agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            AskFirst.open("Take it out all the same?", concerns, "Take out", () -> takeOut(chosen, true));
        } else {
            said.accept(SessionWords.said(
                    outcome,
                    "%s, %s: taken out. %s"
                            .formatted(chosen.who(), chosen.step().words(), ShortNotice.FREED)));
        }
    }
}
