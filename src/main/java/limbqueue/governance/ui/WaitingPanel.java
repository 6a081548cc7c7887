package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import limbqueue.governance.GovernanceReport;
import limbqueue.governance.RangePicture;
import limbqueue.governance.Spread;
import limbqueue.governance.Waiting;
import limbqueue.shell.DayWords;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** How long patients waited, by the tier decided. */
final class WaitingPanel {

    private final Policy policy;
    private final ReportFigure figure;
    private final GovernanceWords words;

    /** @param policy whose days are drawn beside the waits */
    WaitingPanel(Policy policy, ReportFigure figure, GovernanceWords words) {
        this.policy = policy;
        this.figure = figure;
        this.words = words;
    }

    Component of(GovernanceReport figures) {
        var panel = Pieces.panel("lq-waiting", "Waiting times by tier");
        var lines = figures.waiting().byTier();
        if (lines.isEmpty()) {
            panel.add(ReportFigure.nothing("Nobody's wait ended in this period, and nobody was waiting at its end."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Days from the reception, or from the earlier day on which another hospital put treatment off, to the "
                        + "procedure or to being sent to hospital; by the tier decided. Percentiles by p(N + 1), as in the "
                        + "handbook of NIST: with 9 waits the 90th percentile is the longest. Late is who was done after the "
                        + "target date of the decision."));
        panel.add(figure.of(
                "Days waited",
                new RangePicture(
                        "waiting-by-tier",
                        "Days waited, by tier",
                        "The dot is the median, the line reaches from the 10th to the 90th percentile, the bar across is the "
                                + "days that the policy in force gives the tier.",
                        "Days",
                        false,
                        lines.stream()
                                .flatMap(line -> line.days().stream()
                                        .map(days -> new RangePicture.Row(
                                                words.tier(line.tier()),
                                                days.tenth(),
                                                days.median(),
                                                days.ninetieth(),
                                                allowed(line.tier()))))
                                .toList()),
                new FigureTable(
                        "waiting times by tier",
                        List.of(
                                "Tier",
                                "Ended",
                                "10th percentile",
                                "Median",
                                "75th",
                                "90th",
                                "Late",
                                "Share late",
                                "95 % interval",
                                "Waiting on " + DayWords.date(figures.period().to()),
                                "of them late"),
                        lines.stream().map(this::cells).toList()),
                false));
        return panel;
    }

    private OptionalDouble allowed(Tier tier) {
        var days = policy.days().get(tier);
        return days == null ? OptionalDouble.empty() : OptionalDouble.of(days);
    }

    private List<String> cells(Waiting.Line line) {
        return List.of(
                words.tier(line.tier()),
                String.valueOf(line.ended()),
                days(line.days(), Spread::tenth),
                days(line.days(), Spread::median),
                days(line.days(), Spread::threeQuarters),
                days(line.days(), Spread::ninetieth),
                String.valueOf(line.late().of()),
                Figures.percent(line.late().share()),
                Figures.interval(line.late()),
                String.valueOf(line.waiting()),
                String.valueOf(line.overdue()));
    }

    private static String days(Optional<Spread> spread, Function<Spread, Double> which) {
        return spread.map(which).map(Figures::days).orElse("–");
    }
}
