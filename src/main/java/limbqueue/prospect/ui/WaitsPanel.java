package limbqueue.prospect.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.select.Select;
import java.util.List;
import java.util.Locale;
import limbqueue.access.AuditTrail;
import limbqueue.governance.ForecastPicture;
import limbqueue.governance.RangePicture;
import limbqueue.prospect.Basis;
import limbqueue.prospect.Simulation;
import limbqueue.prospect.TierOutlook;
import limbqueue.shell.DrawnPicture;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;
import limbqueue.triage.Tier;

/** All tiers over 12 weeks, and one of them week by week. */
final class WaitsPanel {

    private final AuditTrail auditTrail;
    private final Basis.Given basis;
    private final Simulation simulation;
    private final Div weeks = Pieces.div("lq-forecast-weeks");

    WaitsPanel(AuditTrail auditTrail, Basis.Given basis, Simulation simulation) {
        this.auditTrail = auditTrail;
        this.basis = basis;
        this.simulation = simulation;
    }

    /** @param first the tier that is shown week by week at first */
    Section of(Tier first) {
        var tiers = List.copyOf(basis.situation().coming().keySet());
        var tier = new Select<Tier>();
        tier.setLabel("Week by week");
        tier.setItems(tiers);
        tier.setItemLabelGenerator(Tier::words);
        tier.setValue(first);
        tier.addValueChangeListener(event -> week(event.getValue()));
        week(first);
        var overview = new FigureTable(
                "forecast by tier",
                List.of(
                        "Tier",
                        "Waiting now",
                        "New in a week",
                        "Target dates",
                        "Probability of missing one",
                        "Dates missed",
                        "Waiting at the end",
                        "Waiting at the end, 80 % range"),
                TierOutlook.of(basis, simulation).stream()
                        .map(ForecastWords::overview)
                        .toList());
        return Pieces.panel(
                "lq-forecast-waits",
                "Waits and missed dates in 12 weeks",
                Pieces.div(
                        "lq-figure",
                        Pieces.div("lq-figure-head", new H3("All tiers"), overview.csv(auditTrail)),
                        overview.onPage()),
                Pieces.div("lq-forecast-choice", tier),
                weeks);
    }

    private void week(Tier tier) {
        var days = basis.situation().policy().days().getOrDefault(tier, 0);
        var all = new FigureTable(
                "forecast by week",
                simulation.table().header(),
                simulation.table().rows());
        // The tier stands above the table.
        var shown = new FigureTable(
                "forecast " + tier.words().toLowerCase(Locale.ROOT),
                all.header().subList(1, all.header().size()),
                all.rows().stream()
                        .filter(row -> row.getFirst().equals(tier.words()))
                        .map(row -> row.subList(1, row.size()))
                        .toList());
        weeks.removeAll();
        weeks.add(Pieces.div(
                "lq-figure",
                Pieces.div("lq-figure-head", new H3(tier.words()), all.csv(auditTrail)),
                Pieces.div(
                        "lq-forecast-pictures",
                        drawn(ForecastPicture.waits(tier, simulation.lines(), days)),
                        drawn(ForecastPicture.missed(tier, simulation.lines()))),
                shown.onPage()));
    }

    private static Div drawn(RangePicture picture) {
        var drawn = new Div(new H3(picture.title()));
        drawn.add(
                picture.rows().isEmpty()
                        ? Pieces.paragraph(
                                "lq-nothing", "There is nothing to draw: nobody of this tier is treated in any run.")
                        : new DrawnPicture(picture.svg()));
        drawn.add(Pieces.paragraph("lq-quiet", picture.description()));
        return drawn;
    }
}
