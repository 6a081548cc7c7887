package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import limbqueue.governance.Equity;
import limbqueue.governance.RangePicture;
import limbqueue.shell.DayWords;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;

/** Who waits how long, in groups that are large enough to be shown. */
final class EquityPanel {

    private final ReportFigure figure;

    EquityPanel(ReportFigure figure) {
        this.figure = figure;
    }

    Component of(Equity equity) {
        var half = DayWords.date(equity.half().from()) + " to "
                + DayWords.date(equity.half().to());
        var panel = Pieces.panel("lq-equity", "Who waits how long");
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Waits that ended from " + half
                        + ": the last whole half of a calendar year in the period chosen or before it, "
                        + "since figures of periods that overlap could be subtracted from one another. Groups of fewer than 10 are "
                        + "not shown, nor what would give them away."));
        if (equity.all().isEmpty()) {
            panel.add(ReportFigure.nothing("Fewer than 10 waits ended in that half year, too few to show."));
            return panel;
        }
        var rows = new ArrayList<RangePicture.Row>();
        var cells = new ArrayList<List<String>>();
        equity.all().ifPresent(all -> {
            rows.add(row("All", all));
            cells.add(cells("All", all));
        });
        for (var grouping : equity.groupings()) {
            grouping.groups().forEach(group -> {
                group.figures().ifPresent(figures -> rows.add(row(group.words(), figures)));
                cells.add(group.figures()
                        .map(figures -> cells(group.words(), figures))
                        .orElseGet(() -> {
                            var words = group.none() ? "0" : Figures.NOT_SHOWN;
                            return List.of(group.words(), words, "–", "–", "–", "–");
                        }));
            });
        }
        panel.add(figure.of(
                "Days waited, by group",
                new RangePicture(
                        "waiting-by-group",
                        "Days waited, by group",
                        "The dot is the median, the line reaches from the 25th to the 75th percentile. Only groups of 10 and more.",
                        "Days",
                        false,
                        rows.stream().limit(2L * ReportFigure.ROWS).toList()),
                new FigureTable(
                        "waiting times by group",
                        List.of(
                                "Group",
                                "Waits ended",
                                "25th percentile",
                                "Median",
                                "75th",
                                "Median wait as part of the days allowed"),
                        cells),
                false));
        return panel;
    }

    private static RangePicture.Row row(String words, Equity.Figures figures) {
        var days = figures.days();
        return new RangePicture.Row(words, days.quarter(), days.median(), days.threeQuarters(), OptionalDouble.empty());
    }

    private static List<String> cells(String words, Equity.Figures figures) {
        return List.of(
                words,
                String.valueOf(figures.count()),
                Figures.days(figures.days().quarter()),
                Figures.days(figures.days().median()),
                Figures.days(figures.days().threeQuarters()),
                figures.ofAllowed()
                        .map(part -> Figures.ofAllowed(part.median()))
                        .orElse("–"));
    }
}
