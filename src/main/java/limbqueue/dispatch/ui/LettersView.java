package limbqueue.dispatch.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.grid.GridVariant;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.dispatch.DaysPost;
import limbqueue.dispatch.DeskLine;
import limbqueue.dispatch.DeskPile;
import limbqueue.dispatch.Dispatches;
import limbqueue.letter.Letter;
import limbqueue.letter.LetterCorrections;
import limbqueue.letter.Letters;
import limbqueue.live.Changes;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Pieces;

/** Letters to referring doctors and patients in piles: what is to be checked, what leaves, and what became of it. */
@Route("letters")
@PageTitle("Letters")
@Menu(order = 3, title = "Letters")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/dispatch.css")
class LettersView extends Div implements BeforeEnterObserver {

    /** The address names a letter, or a referral whose letter most needs somebody. */
    private static final String LETTER = "letter";

    private static final String ABOUT = "about";

    private static final List<DeskPile> NEEDIEST =
            List.of(DeskPile.BOUNCED, DeskPile.FAILED, DeskPile.TO_CHECK, DeskPile.TO_SEND, DeskPile.SENT);

    private final Dispatches dispatches;
    private final Letters letters;
    private final boolean acts;
    private final Grid<DeskLine> grid = new Grid<>();
    private final Span count = new Span();
    private final Span nothing = Pieces.text("lq-nothing", "");
    private final Div notice = Pieces.div("lq-desk-notice");
    private final Div piles = Pieces.div("lq-filters");
    private final Map<DeskPile, NativeButton> chips = new EnumMap<>(DeskPile.class);
    private final LetterPreview preview;
    private final PostPanel post;
    private List<DeskLine> lines = List.of();
    private Optional<DeskPile> chosen = Optional.empty();
    private transient Optional<Predicate<DeskLine>> asked = Optional.empty();

    LettersView(
            Dispatches dispatches,
            DaysPost daysPost,
            Letters letters,
            LetterCorrections corrections,
            CurrentPerson person,
            Changes changes,
            StandingSignIn signIn) {
        this.dispatches = dispatches;
        this.letters = letters;
        this.acts = person.get().role() == Role.COORDINATOR;
        this.preview = new LetterPreview(dispatches, corrections, acts, this::show);
        this.post = new PostPanel(dispatches, daysPost, this::show);
        addClassName("lq-list-view");
        count.addClassName("lq-quiet");
        count.getElement().setAttribute("role", "status");
        piles.getElement().setAttribute("role", "group");
        piles.getElement().setAttribute("aria-label", "Piles of letters");
        for (var pile : DeskPile.values()) {
            var chip = new NativeButton(pile.words(), _ -> choose(pile));
            chip.addClassName("lq-chip");
            chips.put(pile, chip);
            piles.add(chip);
        }
        columns();
        var head = Pieces.div("lq-list-head", new H1("Letters"), count);
        add(head, notice);
        if (acts) {
            head.add(new Anchor("letters/words", "Words of letters"));
            add(post);
        }
        add(
                Pieces.div("lq-list-bar", piles),
                Pieces.div("lq-desk", Pieces.div("lq-desk-list", nothing, grid), preview));
        KeptUpToDate.whileShown(this, changes, signIn, _ -> show());
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var address = event.getLocation().getQueryParameters();
        asked = number(address, LETTER)
                .<Predicate<DeskLine>>map(id -> line -> line.letter().id() == id)
                .or(() -> number(address, ABOUT).map(id -> line -> line.letter().referralId() == id));
        if (isAttached()) {
            show();
        }
    }

    private static Optional<Long> number(QueryParameters address, String name) {
        return address.getSingleParameter(name)
                .filter(typed -> typed.matches("\\d{1,18}"))
                .map(Long::valueOf);
    }

    private void choose(DeskPile pile) {
        chosen = Optional.of(pile);
        preview.close();
        show();
    }

    private void show() {
        lines = dispatches.lines();
        var opened = asked.flatMap(
                which -> lines.stream().filter(which).min(Comparator.comparing(line -> NEEDIEST.indexOf(line.pile()))));
        asked = Optional.empty();
        opened.ifPresent(line -> chosen = Optional.of(line.pile()));
        // Before anybody chooses, what is to be done comes first.
        var pile = chosen.orElseGet(this::firstToDo);
        chips.forEach((each, chip) -> {
            var number = lines.stream().filter(line -> line.pile() == each).count();
            chip.setText(each.words() + " " + number);
            chip.getElement().setAttribute("aria-pressed", String.valueOf(each == pile));
        });
        var shown = lines.stream().filter(line -> line.pile() == pile).toList();
        grid.setItems(shown);
        grid.setVisible(!shown.isEmpty());
        nothing.setVisible(shown.isEmpty());
        nothing.setText(lines.isEmpty() ? "No letter has been written yet." : "No letter lies here.");
        var unsent = lines.stream()
                .map(DeskLine::letter)
                .filter(letter -> letter.sentAt().isEmpty())
                .map(Letter::id)
                .distinct()
                .count();
        count.setText(
                unsent == 0 ? "All letters are sent" : unsent == 1 ? "1 letter to send" : unsent + " letters to send");
        notice.removeAll();
        dispatches
                .notSetUp()
                .ifPresent(
                        why -> notice.add(
                                Pieces.paragraph(
                                        "lq-notice",
                                        why
                                                + " Letters stay here until then: print them, send them yourself, and mark them as sent.")));
        if (acts) {
            post.show();
        }
        preview.renew(lines);
        opened.ifPresent(preview::show);
    }

    private DeskPile firstToDo() {
        for (var pile : DeskPile.values()) {
            if (lines.stream().anyMatch(line -> line.pile() == pile)) {
                return pile;
            }
        }
        return DeskPile.TO_SEND;
    }

    private void columns() {
        grid.addThemeVariants(GridVariant.LUMO_COMPACT, GridVariant.LUMO_NO_BORDER);
        grid.addClassName("lq-worklist");
        grid.setAllRowsVisible(true);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.addComponentColumn(line -> twoLines(
                        Pieces.text("lq-strong", line.letter().kind().words()),
                        DeskWords.day(line.letter().dated())))
                .setHeader("Letter")
                .setWidth("8.5rem")
                .setFlexGrow(0);
        grid.addComponentColumn(line -> twoLines(
                        new Anchor(
                                "referrals/" + line.letter().referralId(),
                                line.letter().patient()),
                        line.letter().reference()))
                .setHeader("Patient")
                .setWidth("8.5rem")
                .setFlexGrow(1);
        grid.addComponentColumn(line -> twoLines(
                        new Span(line.letter().recipient().lines().findFirst().orElse("")), DeskWords.way(line)))
                .setHeader("To, by")
                .setWidth("10rem")
                .setFlexGrow(2);
        grid.addComponentColumn(line -> {
                    var state = new Span(DeskWords.state(line));
                    state.addClassName("lq-desk-state");
                    return state;
                })
                .setHeader("Where it stands")
                .setWidth("15rem")
                .setFlexGrow(4);
        grid.addComponentColumn(this::reading)
                .setHeader("Read")
                .setWidth("6rem")
                .setFlexGrow(0);
        if (acts) {
            grid.addComponentColumn(this::mark)
                    .setHeader("By hand")
                    .setWidth("8.5rem")
                    .setFlexGrow(0);
        }
    }

    private static Div twoLines(Component first, String second) {
        return Pieces.div("lq-two-lines", first, Pieces.text("lq-quiet", second));
    }

    private Component reading(DeskLine line) {
        var letter = line.letter();
        var text = new NativeButton("Text", _ -> preview.show(line));
        text.addClassName("lq-link");
        text.getElement().setAttribute("aria-label", "Text of the letter about " + letter.patient());
        var pdf = new Anchor(LetterFile.of(letter, letters), "PDF");
        pdf.setTarget(AnchorTarget.BLANK);
        pdf.getElement().setAttribute("aria-label", "PDF of the letter about " + letter.patient());
        return Pieces.div("lq-letter-actions", text, pdf);
    }

    private Component mark(DeskLine line) {
        var letter = line.letter();
        if (line.pile() == DeskPile.SENT) {
            return new Span();
        }
        var mark = new Button("Mark as sent", _ -> markSent(letter));
        mark.addThemeVariants(ButtonVariant.LUMO_SMALL);
        mark.setAriaLabel("Mark the letter about " + letter.patient() + " as sent");
        return mark;
    }

    private void markSent(Letter letter) {
        try {
            dispatches.markSent(letter.id());
            Notification.show(
                    "Letter about " + letter.reference() + " to "
                            + letter.recipient().lines().findFirst().orElse("the referrer") + " marked as sent.",
                    5000,
                    Notification.Position.BOTTOM_START);
        } catch (NotPossibleException not) {
            Notification.show(
                    Objects.requireNonNullElse(not.getMessage(), "This letter cannot leave."),
                    8000,
                    Notification.Position.BOTTOM_START);
        }
        show();
    }
}
