package limbqueue.prospect.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.IntegerField;
import java.time.DayOfWeek;
import java.util.function.Consumer;
import limbqueue.access.AuditTrail;
import limbqueue.forecast.ForecastTable;
import limbqueue.forecast.WeeklySession;
import limbqueue.prospect.Simulation;
import limbqueue.shell.CountedWords;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;

/** What one more session in every week would bring. */
final class MorePanel {

    private static final int LEAST = 30;
    private static final int MOST = 720;

    private final AuditTrail auditTrail;
    private final Simulation simulation;
    private final Consumer<WeeklySession> tryIt;
    private final Select<DayOfWeek> day = new Select<>();
    private final IntegerField minutes = new IntegerField("Minutes");
    private final Div refusal = new Div();

    /** @param tryIt is given what shall be tried */
    MorePanel(AuditTrail auditTrail, Simulation simulation, Consumer<WeeklySession> tryIt) {
        this.auditTrail = auditTrail;
        this.simulation = simulation;
        this.tryIt = tryIt;
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        day.setLabel("Day");
        day.setItems(DayOfWeek.values());
        day.setItemLabelGenerator(ForecastWords::day);
        day.setValue(simulation.more().day());
        minutes.setMin(LEAST);
        minutes.setMax(MOST);
        minutes.setValue(simulation.more().minutes());
    }

    Section of() {
        var more = simulation.more();
        var table = ForecastTable.of(simulation.gains());
        var figures = new FigureTable("one more session a week", table.header(), table.rows());
        var form = Pieces.div("lq-forecast-choice", day, minutes, Pieces.primary("Try this session", this::ask));
        form.getElement().setAttribute("role", "group").setAttribute("aria-label", "One more session a week");
        return Pieces.panel(
                "lq-forecast-more",
                "What if there were one more session a week?",
                form,
                refusal,
                Pieces.div(
                        "lq-figure",
                        Pieces.div(
                                "lq-figure-head",
                                new H3("With a session of %s on every %s"
                                        .formatted(
                                                CountedWords.of(more.minutes(), "minute"),
                                                ForecastWords.day(more.day()))),
                                figures.csv(auditTrail)),
                        figures.onPage(),
                        Pieces.paragraph(
                                "lq-quiet",
                                "Over 12 weeks, the same patients with and without it: figures above 0 are a gain.")));
    }

    /** Leads whoever has tried a session back to where that was. */
    void focus() {
        day.focus();
    }

    private void ask() {
        if (minutes.isEmpty() || minutes.isInvalid()) {
            refusal.setText("Write the minutes of the session as a whole number from %d to %d.".formatted(LEAST, MOST));
            refusal.setVisible(true);
        } else {
            refusal.setVisible(false);
            tryIt.accept(new WeeklySession(day.getValue(), minutes.getValue()));
        }
    }
}
