package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.governance.Outcomes;
import limbqueue.governance.RangePicture;
import limbqueue.preparation.CaseOutcome;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;

/** How recorded cases went, against what had been flagged. */
final class OutcomesPanel {

    private final ReportFigure figure;

    OutcomesPanel(ReportFigure figure) {
        this.figure = figure;
    }

    Component of(Outcomes outcomes) {
        var panel = Pieces.panel("lq-outcomes", "Outcome against what was flagged");
        if (outcomes.all().cases() == 0) {
            panel.add(ReportFigure.nothing(
                    "No case was recorded in this period. A case is recorded on its page of preparation, once it went "
                            + "to the room."));
            return panel;
        }
        var lines = Stream.concat(
                        Stream.of(
                                new Outcomes.Flagged("", outcomes.all()),
                                new Outcomes.Flagged("", outcomes.unflagged())),
                        outcomes.byFlag().stream())
                .toList();
        var names = new ArrayList<>(List.of("All recorded cases", "Nothing flagged"));
        outcomes.byFlag().forEach(flagged -> names.add(GovernanceWords.name(flagged.flag())));
        var rows = new ArrayList<RangePicture.Row>();
        var cells = new ArrayList<List<String>>();
        for (var at = 0; at < lines.size(); at++) {
            var line = lines.get(at).line();
            if (line.cases() > 0 && rows.size() < ReportFigure.ROWS) {
                rows.add(ReportFigure.row(names.get(at), line.notAsPlanned()));
            }
            var row = new ArrayList<>(List.of(names.get(at), String.valueOf(line.cases())));
            for (var outcome : CaseOutcome.values()) {
                row.add(String.valueOf(line.counts().get(outcome)));
            }
            row.add(Figures.percent(line.notAsPlanned().share()));
            row.add(Figures.interval(line.notAsPlanned()));
            cells.add(List.copyOf(row));
        }
        var header = new ArrayList<>(List.of("Flagged", "Cases"));
        for (var outcome : CaseOutcome.values()) {
            header.add(GovernanceWords.sentence(outcome.words()));
        }
        header.addAll(List.of("Not as planned", "95 % interval"));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "The red flags of the proposal that was decided on; a case with several counts for each of them. That a flagged "
                        + "case went another way does not say that the flag was the cause."));
        panel.add(figure.of(
                "Not done as planned, by flag",
                new RangePicture(
                        "outcomes-by-flag",
                        "Not done as planned, by flag",
                        ReportFigure.WILSON,
                        "Share not as planned",
                        true,
                        rows),
                new FigureTable("outcomes by flag", List.copyOf(header), cells),
                false));
        return panel;
    }
}
