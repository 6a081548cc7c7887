package limbqueue.timetable.ui;

import com.vaadin.flow.component.textfield.TextField;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import limbqueue.shell.AskingDialog;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;

/**
 * What can be done with a session as a whole.
 *
 * @param said tells what was done, and shows the week as it is now
 */
record SessionActs(Sessions sessions, HeldTimes heldTimes, Consumer<String> said) {

    void close(FilledSession filled) {
        var because = new TextField("Why it is closed");
        because.setMaxLength(200);
        because.setRequiredIndicatorVisible(true);
        because.setWidthFull();
        var knowing = new AtomicBoolean();
        new AskingDialog("Close: " + SessionWords.where(filled.kept()), List.of(because), "Close the session", () -> {
                    var outcome = sessions.close(
                            filled.kept().id(), filled.kept().version(), because.getValue(), knowing.getAndSet(false));
                    return switch (outcome) {
                        case TimetableOutcome.Done _ -> {
                            said.accept(SessionWords.said(outcome, "Closed."));
                            yield Optional.empty();
                        }
                        case TimetableOutcome.AsksFirst(var who) -> {
                            knowing.set(true);
                            yield Optional.of(String.join(" ", who) + " Press again to close it all the same.");
                        }
                        case TimetableOutcome.Refused _, TimetableOutcome.Overtaken _ ->
                            Optional.of(SessionWords.said(outcome, ""));
                    };
                })
                .open();
    }

    void hold(FilledSession filled) {
        new HoldTimeDialog(heldTimes, filled, said).open();
    }

    void openAgain(FilledSession filled) {
        said.accept(SessionWords.said(
                sessions.open(filled.kept().id(), filled.kept().version()), "Open again."));
    }

    void release(FilledSession filled) {
        said.accept(SessionWords.said(
                sessions.release(filled.kept().id(), filled.kept().version()), "The minutes are given back."));
    }
}
