package limbqueue.invitation.ui;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import java.util.regex.Pattern;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.invitation.AppointmentLetters;
import limbqueue.invitation.AppointmentLetters.Written;
import limbqueue.shell.Pieces;

/** The letter that tells a patient of an appointment: read here, and printed as PDF. */
@Route("sessions/letter/:appointment")
@PageTitle("Appointment letter · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
class AppointmentLetterView extends Div implements BeforeEnterObserver {

    private static final Pattern NUMBER = Pattern.compile("\\d{1,18}");

    private final AppointmentLetters letters;

    AppointmentLetterView(AppointmentLetters letters) {
        this.letters = letters;
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
            var id = Long.parseLong(typed);
            show(id, letters.of(id));
        } catch (NotPossibleException not) {
            add(
                    new H1("Appointment letter"),
                    Pieces.paragraph("lq-strong", String.valueOf(not.getMessage())),
                    new Anchor("sessions", "The sessions"));
        }
    }

    private void show(long id, Written written) {
        var pdf = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                            var bytes = letters.pdf(id);
                            return new DownloadResponse(
                                    new ByteArrayInputStream(bytes),
                                    fileName(written),
                                    "application/pdf",
                                    bytes.length);
                        })
                        .inline(),
                "PDF");
        pdf.setTarget(AnchorTarget.BLANK);
        pdf.getElement().setAttribute("aria-label", "PDF of the letter to " + written.to());
        add(Pieces.div(
                "lq-list-head",
                new H1("Appointment letter to " + written.to()),
                Pieces.div("lq-list-actions", new Anchor("sessions", "The sessions"), pdf)));
        if (!written.told()) {
            add(
                    Pieces.paragraph(
                            "lq-strong",
                            "The patient has not been told of this time yet. Once the letter has left, note that in the sessions."));
        }
        if (!written.addressed()) {
            add(Pieces.paragraph(
                    "lq-strong",
                    "The referral has no address of the patient. Add it there, or write it on the envelope."));
        }
        var text = new Pre(written.parts().asText());
        text.addClassNames("lq-letter-text", "lq-card");
        add(text);
    }

    private static String fileName(Written written) {
        return written.reference().replaceAll("[^A-Za-z0-9-]", "-") + "-appointment.pdf";
    }
}
