package limbqueue.letter.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.grid.GridVariant;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Objects;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;

/** Letters to referring doctors and patients: to read, to open as PDF, and to mark as sent. */
@Route("letters")
@PageTitle("Letters")
@Menu(order = 3, title = "Letters")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
class LettersView extends Div {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private final Letters letters;
    private final Grid<Letter> grid = new Grid<>();
    private final Span count = new Span();
    private final Span nothing = new Span("No letter has been written yet.");

    LettersView(Letters letters, CurrentPerson person) {
        this.letters = letters;
        addClassName("lq-list-view");
        count.addClassName("lq-quiet");
        count.getElement().setAttribute("role", "status");
        var head = new Div(new H1("Letters"), count);
        if (person.get().role() == Role.COORDINATOR) {
            head.add(new Anchor("letter-words", "Words of letters"));
        }
        head.addClassName("lq-list-head");
        nothing.addClassName("lq-nothing");
        columns();
        add(head, nothing, grid);
    }

    @Override
    protected void onAttach(AttachEvent attachEvent) {
        super.onAttach(attachEvent);
        show();
    }

    private void show() {
        var all = letters.all();
        grid.setItems(all);
        grid.setVisible(!all.isEmpty());
        nothing.setVisible(all.isEmpty());
        var unsent = all.stream().filter(letter -> letter.sentAt().isEmpty()).count();
        count.setText(
                unsent == 0 ? "All letters are sent" : unsent == 1 ? "1 letter to send" : unsent + " letters to send");
    }

    private void columns() {
        grid.addThemeVariants(GridVariant.LUMO_COMPACT, GridVariant.LUMO_NO_BORDER);
        grid.addClassName("lq-worklist");
        grid.setAllRowsVisible(true);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.addColumn(letter -> DATE.format(letter.dated()))
                .setHeader("Dated")
                .setAutoWidth(true)
                .setFlexGrow(0);
        grid.addColumn(letter -> letter.kind().words())
                .setHeader("Letter")
                .setAutoWidth(true)
                .setFlexGrow(0);
        grid.addComponentColumn(letter -> {
                    var link = new Anchor("referrals/" + letter.referralId(), letter.patient());
                    var reference = new Span(letter.reference());
                    reference.addClassName("lq-quiet");
                    var lines = new Div(link, reference);
                    lines.addClassName("lq-two-lines");
                    return lines;
                })
                .setHeader("Patient")
                .setFlexGrow(1);
        grid.addComponentColumn(letter -> {
                    var channel = new Span(letter.channel());
                    channel.addClassName("lq-quiet");
                    var lines = new Div(
                            new Span(letter.recipient().lines().findFirst().orElse("")), channel);
                    lines.addClassName("lq-two-lines");
                    return lines;
                })
                .setHeader("To, by")
                .setFlexGrow(2);
        grid.addComponentColumn(this::reading)
                .setHeader("Read")
                .setAutoWidth(true)
                .setFlexGrow(0);
        grid.addComponentColumn(this::dispatch)
                .setHeader("Sent")
                .setAutoWidth(true)
                .setFlexGrow(0);
    }

    private Component reading(Letter letter) {
        var text = new NativeButton("Text", _ -> read(letter));
        text.addClassName("lq-link");
        text.getElement().setAttribute("aria-label", "Text of the letter about " + letter.patient());
        var pdf = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                            var bytes = letters.pdf(letter.id());
                            return new DownloadResponse(
                                    new ByteArrayInputStream(bytes), fileName(letter), "application/pdf", bytes.length);
                        })
                        .inline(),
                "PDF");
        pdf.setTarget(AnchorTarget.BLANK);
        pdf.getElement().setAttribute("aria-label", "PDF of the letter about " + letter.patient());
        var both = new Div(text, pdf);
        both.addClassName("lq-letter-actions");
        return both;
    }

    private Component dispatch(Letter letter) {
        if (letter.sentAt().isPresent()) {
            var when = new Span(MOMENT.format(letter.sentAt().get()));
            var by = new Span(letter.sentBy().map(person -> "by " + person).orElse(""));
            by.addClassName("lq-quiet");
            var lines = new Div(when, by);
            lines.addClassName("lq-two-lines");
            return lines;
        }
        return letters.leavesFrom(letter.id())
                .filter(Instant.now()::isBefore)
                .<Component>map(from -> {
                    var waits = new Span("not before " + MOMENT.format(from));
                    waits.addClassName("lq-quiet");
                    var lines = new Div(markButton(letter), waits);
                    lines.addClassName("lq-two-lines");
                    return lines;
                })
                .orElseGet(() -> markButton(letter));
    }

    private Button markButton(Letter letter) {
        var mark = new Button("Mark as sent", _ -> markSent(letter));
        mark.addThemeVariants(ButtonVariant.LUMO_SMALL);
        mark.setAriaLabel("Mark the letter about " + letter.patient() + " as sent");
        return mark;
    }

    private void read(Letter letter) {
        var dialog = new Dialog(letter.kind().words() + ": " + letter.patient() + ", " + letter.reference());
        dialog.addClassName("lq-letter-dialog");
        var text = new Pre(letter.text());
        text.addClassName("lq-letter-text");
        dialog.add(text);
        if (letter.sentAt().isEmpty()) {
            dialog.getFooter().add(new Button("Mark as sent", _ -> {
                dialog.close();
                markSent(letter);
            }));
        }
        var close = new Button("Close", _ -> dialog.close());
        close.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        dialog.getFooter().add(close);
        dialog.open();
    }

    private void markSent(Letter letter) {
        try {
            letters.markSent(letter.id());
        } catch (NotPossibleException not) {
            Notification.show(
                    Objects.requireNonNullElse(not.getMessage(), "This letter cannot leave."),
                    8000,
                    Notification.Position.BOTTOM_START);
            show();
            return;
        }
        Notification.show(
                "Letter about " + letter.reference() + " to "
                        + letter.recipient().lines().findFirst().orElse("the referrer") + " marked as sent.",
                5000,
                Notification.Position.BOTTOM_START);
        show();
    }

    private static String fileName(Letter letter) {
        return letter.reference().replaceAll("[^A-Za-z0-9-]", "-") + "-"
                + letter.kind().fileName() + ".pdf";
    }
}
