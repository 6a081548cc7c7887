package limbqueue.letter.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.letter.AppointmentLetters;
import limbqueue.letter.AppointmentLetters.Telling;
import limbqueue.shell.Pieces;

/** Leads to the letter that tells a patient of an appointment; where there is none yet, it is written from here. */
@Route("sessions/letter/:appointment")
@PageTitle("Appointment letter · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
class AppointmentLetterView extends Div implements BeforeEnterObserver {

    private static final Pattern NUMBER = Pattern.compile("\\d{1,18}");
    private static final DateTimeFormatter WHEN = DateTimeFormatter.ofPattern("EEEE d MMMM uuuu 'at' HH:mm", Locale.UK);

    private final AppointmentLetters letters;
    private final boolean writes;

    AppointmentLetterView(AppointmentLetters letters, CurrentPerson person) {
        this.letters = letters;
        this.writes = person.get().role() == Role.COORDINATOR;
        addClassName("lq-list-view");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        removeAll();
        var typed = event.getRouteParameters().get("appointment").orElse("");
        try {
            if (!NUMBER.matcher(typed).matches()) {
                throw new NotPossibleException(
                        "The address names no appointment. Open the letter from the list of a day.");
            }
            var appointment = Long.parseLong(typed);
            var telling = letters.of(appointment);
            telling.letter()
                    .ifPresentOrElse(
                            letter -> event.forwardTo("letters", named(letter)), () -> none(appointment, telling));
        } catch (NotPossibleException not) {
            refuse(not);
        }
    }

    private static QueryParameters named(long letter) {
        return QueryParameters.of("letter", String.valueOf(letter));
    }

    private void none(long appointment, Telling telling) {
        add(
                Pieces.div(
                        "lq-list-head",
                        new H1("Appointment letter to " + telling.to()),
                        Pieces.div("lq-list-actions", new Anchor("sessions", "The sessions"))),
                Pieces.paragraph("lq-line", WHEN.format(telling.starts()) + ", " + telling.place() + "."));
        if (!telling.addressed()) {
            add(Pieces.paragraph(
                    "lq-strong",
                    "The referral has no address of the patient. Add it there before the letter is written, or hand"
                            + " the letter over."));
        }
        add(Pieces.paragraph(
                "lq-strong",
                telling.told()
                        ? "The patient has been told of this time, and no letter tells of it."
                        : "The patient has not been told of this time yet. The letter is written when that is noted in the"
                                + " sessions; write it now if it is the letter that tells the patient."));
        if (writes) {
            add(Pieces.primary("Write the letter", () -> write(appointment)));
        }
    }

    private void write(long appointment) {
        try {
            var letter = letters.write(appointment);
            UI.getCurrent().navigate("letters", named(letter));
        } catch (NotPossibleException not) {
            removeAll();
            refuse(not);
        }
    }

    private void refuse(NotPossibleException not) {
        add(
                new H1("Appointment letter"),
                Pieces.paragraph("lq-strong", String.valueOf(not.getMessage())),
                new Anchor("sessions", "The sessions"));
    }
}
