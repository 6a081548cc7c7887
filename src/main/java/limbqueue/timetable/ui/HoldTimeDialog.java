package limbqueue.timetable.ui;

import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.textfield.IntegerField;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.booking.HeldTime;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.CountedWords;
import limbqueue.shell.Pieces;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.TimetableOutcome;

/** Asks how much of a session is held for urgent cases, and until when. */
final class HoldTimeDialog {

    private final HeldTimes heldTimes;
    private final FilledSession filled;
    private final Consumer<String> done;
    private final IntegerField minutes;
    private final IntegerField release;
    private final Checkbox following = new Checkbox("Later sessions like it hold the same");

    /** @param done called with what was done */
    HoldTimeDialog(HeldTimes heldTimes, FilledSession filled, Consumer<String> done) {
        this.heldTimes = heldTimes;
        this.filled = filled;
        this.done = done;
        var session = filled.kept().session();
        minutes = minutes(session.minutes());
        minutes.setValue(session.held().minutes());
        release = releaseDays();
        release.setValue(session.held().releaseDays());
    }

    /** @param most more cannot be typed */
    static IntegerField minutes(int most) {
        var field = new IntegerField("Minutes held");
        field.setMin(0);
        field.setMax(most);
        field.setWidthFull();
        return field;
    }

    static IntegerField releaseDays() {
        var field = new IntegerField("Released, days before");
        field.setMin(0);
        field.setMax(HeldTime.MOST_RELEASE_DAYS);
        field.setWidthFull();
        return field;
    }

    void open() {
        new AskingDialog(
                        "Hold time: " + SessionWords.where(filled.kept()),
                        List.of(
                                Pieces.div("lq-pair", minutes, release),
                                following,
                                new Paragraph(
                                        "Held minutes are for cases of the same day and of 5 days. At the end of the day of"
                                                + " release others may have what is left; 0 days hold them to the last.")),
                        "Hold",
                        this::hold)
                .open();
    }

    private Optional<String> hold() {
        var most = filled.kept().session().minutes();
        if (minutes.isEmpty() || minutes.isInvalid() || release.isEmpty() || release.isInvalid()) {
            return Optional.of("Write minutes from 0 to %d, and days from 0 to %d, as whole numbers."
                    .formatted(most, HeldTime.MOST_RELEASE_DAYS));
        }
        var outcome = heldTimes.hold(
                filled.kept().id(),
                filled.kept().version(),
                minutes.getValue(),
                release.getValue(),
                following.getValue());
        if (!(outcome instanceof TimetableOutcome.Done)) {
            return Optional.of(SessionWords.said(outcome, ""));
        }
        done.accept(SessionWords.said(outcome, "Held: %s.".formatted(CountedWords.of(minutes.getValue(), "minute"))));
        return Optional.empty();
    }
}
