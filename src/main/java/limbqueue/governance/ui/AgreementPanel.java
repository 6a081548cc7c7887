package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import limbqueue.governance.Agreement;
import limbqueue.governance.RangePicture;
import limbqueue.shell.CountedWords;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;

/** How often physicians agreed with what was proposed: by tier, by person and by rule. */
final class AgreementPanel {

    private final Map<String, String> says;
    private final ReportFigure figure;
    private final GovernanceWords words;

    /** @param says what each rule says, by its id */
    AgreementPanel(Map<String, String> says, ReportFigure figure, GovernanceWords words) {
        this.says = says;
        this.figure = figure;
        this.words = words;
    }

    Component of(Agreement agreement) {
        var panel = Pieces.panel("lq-agreement", "Proposal and decision");
        if (agreement.all().all() == 0) {
            panel.add(ReportFigure.nothing("No physician decided on a proposal in this period."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-figure-says",
                "Physicians agreed with " + agreement.all().of() + " of "
                        + CountedWords.of(agreement.all().all(), "proposal", "proposals") + ", "
                        + Figures.percent(agreement.all().share()) + " ("
                        + Figures.interval(agreement.all()) + ")."));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Agreed is who approved what was proposed, and who sent to hospital a patient for whom the same day was proposed. "
                        + "A changed tier or a changed category is not. Questions asked and referrals returned judge no "
                        + "proposal. " + ReportFigure.WILSON));
        panel.add(shares(
                "agreement-by-tier", "Agreement by tier proposed", "Tier proposed", agreement.byTier(), words::tier));
        panel.add(shares(
                "agreement-by-person", "Agreement by person", "Person", agreement.byPerson(), Function.identity()));
        panel.add(byRule(agreement));
        return panel;
    }

    private <T> Component shares(
            String id, String title, String of, List<Agreement.Line<T>> lines, Function<T, String> words) {
        return figure.of(
                title,
                new RangePicture(
                        id,
                        title,
                        ReportFigure.WILSON,
                        "Share agreed with",
                        true,
                        lines.stream()
                                .map(line -> ReportFigure.row(words.apply(line.of()), line.agreed()))
                                .toList()),
                new FigureTable(
                        title.toLowerCase(Locale.ROOT),
                        List.of(of, "Decisions", "Agreed", "Share", "95 % interval"),
                        lines.stream()
                                .map(line -> List.of(
                                        words.apply(line.of()),
                                        String.valueOf(line.agreed().all()),
                                        String.valueOf(line.agreed().of()),
                                        Figures.percent(line.agreed().share()),
                                        Figures.interval(line.agreed())))
                                .toList()),
                false);
    }

    private Component byRule(Agreement agreement) {
        var title = "Overruled by rule";
        return figure.of(
                title,
                new RangePicture(
                        "overruled-by-rule",
                        title,
                        "The rules surest to be overruled, by the lower end of the interval. " + ReportFigure.WILSON,
                        "Share overruled",
                        true,
                        agreement.byRule().stream()
                                .limit(ReportFigure.ROWS)
                                .map(line -> ReportFigure.row(GovernanceWords.name(line.of()), line.overruled()))
                                .toList()),
                new FigureTable(
                        "agreement by rule",
                        List.of("Rule", "Decisions", "Agreed", "Overruled", "Share overruled", "95 % interval", "Says"),
                        agreement.byRule().stream()
                                .map(line -> List.of(
                                        line.of(),
                                        String.valueOf(line.agreed().all()),
                                        String.valueOf(line.agreed().of()),
                                        String.valueOf(line.overruled().of()),
                                        Figures.percent(line.overruled().share()),
                                        Figures.interval(line.overruled()),
                                        says.getOrDefault(line.of(), "")))
                                .toList()),
                true);
    }
}
