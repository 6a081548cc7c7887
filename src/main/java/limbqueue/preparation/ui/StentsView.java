package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.NumberField;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.preparation.CoveredStent;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.StentStock;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Pieces;

/** The covered stents on the shelf: what there is, what is promised to a case, what has expired. */
@Route("stents")
@PageTitle("Stents · LimbQueue")
@Menu(order = 2.6, title = "Stents")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
class StentsView extends Div implements BeforeEnterObserver {

    /** A stent is soon useless when it expires within these days. */
    private static final int SOON_DAYS = 60;

    private final StentStock stock;
    private final Preparation preparation;
    private final boolean coordinator;
    private final Div message = new Div();

    StentsView(StentStock stock, Preparation preparation, CurrentPerson person) {
        this.stock = stock;
        this.preparation = preparation;
        this.coordinator = person.get().role() == Role.COORDINATOR;
        addClassNames("lq-list-view", "lq-stents");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        message.setText("");
        show();
    }

    private void show() {
        removeAll();
        var head = new Div(new H1("Covered stents"));
        head.addClassName("lq-list-head");
        if (coordinator) {
            head.add(Pieces.primary("Add stents", () -> adding().open()));
        }
        add(
                head,
                new Paragraph(
                        "A case with an iliac occlusion or a calcified iliac narrowing does not go to the room until"
                                + " one that fits is confirmed there."),
                message);
        var stents = stock.all();
        if (stents.isEmpty()) {
            add(Pieces.paragraph("lq-nothing", "No covered stent is in stock."));
            return;
        }
        add(table(stents, preparation.today()));
    }

    private Component table(List<CoveredStent> stents, LocalDate today) {
        var head = new NativeTableHeader();
        var names = new NativeTableRow();
        for (var name : List.of("Width", "Length", "Sheath", "May be used until", "Lot", "Where", "There are")) {
            names.add(heading(name, "col"));
        }
        if (coordinator) {
            names.add(heading("Count", "col"));
        }
        head.add(names);
        var body = new NativeTableBody();
        stents.forEach(stent -> body.add(row(stent, today)));
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-stent-table");
        table.add(head, body);
        return Pieces.div("lq-card", table);
    }

    private NativeTableRow row(CoveredStent stent, LocalDate today) {
        var row = new NativeTableRow();
        var expired = stent.expiredOn(today);
        var until = new NativeTableCell(Words.date(stent.expires()));
        if (expired) {
            until.add(Pieces.text("lq-expired", "expired"));
        } else if (stent.expiredOn(today.plusDays(SOON_DAYS))) {
            until.add(Pieces.text("lq-quiet lq-beside", Words.until(stent.expires(), today)));
        }
        var count = new NativeTableCell(stent.count() == 0 ? "used up" : String.valueOf(stent.count()));
        if (stent.promised() > 0) {
            count.add(Pieces.text("lq-quiet lq-beside", stent.promised() + " confirmed for cases"));
        }
        row.add(
                heading(number(stent.diameterMm()) + " mm", "row"),
                new NativeTableCell(number(stent.lengthMm()) + " mm"),
                new NativeTableCell(stent.sheathFrench() + " Fr"),
                until,
                new NativeTableCell(stent.lot()),
                new NativeTableCell(stent.place()),
                count);
        row.setClassName("lq-useless", expired || stent.count() == 0);
        if (coordinator) {
            row.add(new NativeTableCell(counting(stent)));
        }
        return row;
    }

    private Component counting(CoveredStent stent) {
        var about = number(stent.diameterMm()) + " x " + number(stent.lengthMm()) + " mm, lot " + stent.lot();
        var buttons = new Div();
        buttons.addClassName("lq-row-actions");
        if (stent.count() > 0) {
            buttons.add(Pieces.small(
                    "Use one",
                    "Use one of " + about,
                    () -> done(
                            stock.count(stent.id(), stent.version(), stent.count() - 1),
                            "One of " + about + " is used.")));
        }
        buttons.add(Pieces.small(
                "Count", "Count " + about, () -> counted(stent, about).open()));
        return buttons;
    }

    private AskingDialog counted(CoveredStent stent, String about) {
        var count = new IntegerField("How many there are now");
        count.setValue(stent.count());
        count.setWidthFull();
        return new AskingDialog(
                "Count " + about,
                List.of(count),
                "Save",
                () -> count.getOptionalValue()
                        .map(value -> refusal(
                                stock.count(stent.id(), stent.version(), value),
                                "Of " + about + " there are " + value + "."))
                        .orElse(Optional.of("Say how many there are, 0 to 1000.")));
    }

    private AskingDialog adding() {
        var diameter = new NumberField("Width, mm");
        var length = new NumberField("Length, mm");
        var sheath = new IntegerField("Sheath it needs, Fr");
        var count = new IntegerField("How many");
        var expires = Pieces.date("May be used until", preparation.today().plusYears(1));
        var lot = new TextField("Lot");
        var place = new TextField("Where it lies");
        lot.setWidthFull();
        place.setWidthFull();
        sheath.setValue(7);
        count.setValue(1);
        var fields = List.of(
                Pieces.div("lq-pair", diameter, length), Pieces.div("lq-pair", sheath, count), expires, lot, place);
        return new AskingDialog("Add covered stents", fields, "Add", () -> {
            if (diameter.isEmpty() || length.isEmpty() || sheath.isEmpty() || count.isEmpty() || expires.isEmpty()) {
                return Optional.of(
                        "Fill in width, length, sheath, number and the last day of use, as printed on the box.");
            }
            return refusal(
                    stock.add(
                            diameter.getValue(),
                            length.getValue(),
                            sheath.getValue(),
                            expires.getValue(),
                            lot.getValue(),
                            place.getValue(),
                            count.getValue()),
                    "Added: " + count.getValue() + " of " + number(diameter.getValue()) + " x "
                            + number(length.getValue()) + " mm, lot "
                            + lot.getValue().strip() + ".");
        });
    }

    private Optional<String> refusal(PreparationOutcome outcome, String said) {
        if (outcome instanceof PreparationOutcome.Refused(var why)) {
            return Optional.of(why);
        }
        done(outcome, said);
        return Optional.empty();
    }

    private void done(PreparationOutcome outcome, String said) {
        message.setText(
                switch (outcome) {
                    case PreparationOutcome.Done _ -> said;
                    case PreparationOutcome.Overtaken _ ->
                        "Somebody else counted at the same time. Look again; nothing was changed.";
                    case PreparationOutcome.Refused(var why) -> why;
                });
        show();
    }

    private static NativeTableHeaderCell heading(String text, String scope) {
        var cell = new NativeTableHeaderCell(text);
        cell.getElement().setAttribute("scope", scope);
        return cell;
    }

    private static String number(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
