package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.governance.Agreement;
import limbqueue.governance.Equity;
import limbqueue.governance.Governance;
import limbqueue.governance.GovernanceReport;
import limbqueue.governance.Outcomes;
import limbqueue.governance.Overruling;
import limbqueue.governance.Period;
import limbqueue.governance.Proportion;
import limbqueue.governance.RangePicture;
import limbqueue.governance.Spread;
import limbqueue.governance.Waiting;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseOutcome;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.DayWords;
import limbqueue.shell.DrawnPicture;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/** How well proposals serve, over a period: each picture with its table, and each table to take away. */
@Route("governance")
@PageTitle("Governance · LimbQueue")
@Menu(title = "Governance", order = 55)
@RolesAllowed({Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/governance.css")
class GovernanceView extends Section implements BeforeEnterObserver {

    private static final String FROM = "from";
    private static final String TO = "to";

    /** As many rows as a picture of rules or flags has: more than that nobody compares at a glance. */
    private static final int ROWS_OF_A_PICTURE = 12;

    private static final String WILSON =
            "The dot is the share, the line its 95 % confidence interval by Wilson's method: the "
                    + "longer the line, the fewer the decisions.";

    private final Governance governance;
    private final PracticeSettings settings;
    private final AuditTrail auditTrail;
    private final DatePicker from = Pieces.date("From");
    private final DatePicker to = Pieces.date("To");
    private final Div message = new Div();
    private final Div report = Pieces.div("lq-governance-report");

    GovernanceView(Governance governance, PracticeSettings settings, AuditTrail auditTrail) {
        this.governance = governance;
        this.settings = settings;
        this.auditTrail = auditTrail;
        addClassNames("lq-page", "lq-governance");
        message.addClassName("lq-form-error");
        message.getElement().setAttribute("role", "alert");
        message.setVisible(false);
        add(head(), new Notice(TriageResult.NOTICE), message, report);
    }

    private Component head() {
        var chooser = Pieces.div("lq-period", from, to, Pieces.primary("Show", this::choose));
        chooser.getElement().setAttribute("role", "group").setAttribute("aria-label", "Period");
        return Pieces.div("lq-page-head", new H1("Governance"), chooser);
    }

    private void choose() {
        if (from.isEmpty() || to.isEmpty()) {
            say("Choose both days, as 26/11/2026.");
        } else if (Period.of(from.getValue(), to.getValue()).isEmpty()) {
            say("The first day lies after the last. Choose a first day up to " + DayWords.date(to.getValue()) + ".");
        } else {
            getUI().ifPresent(ui -> ui.navigate(
                    GovernanceView.class,
                    QueryParameters.simple(Map.of(
                            FROM, from.getValue().toString(), TO, to.getValue().toString()))));
        }
    }

    private void say(String words) {
        message.setText(words);
        message.setVisible(true);
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var asked = event.getLocation().getQueryParameters();
        var last = Period.lastYear(governance.today());
        var period = Period.of(
                        day(asked, FROM).orElse(last.from()), day(asked, TO).orElse(last.to()))
                .orElse(last);
        from.setValue(period.from());
        to.setValue(period.to());
        message.setVisible(false);
        show(governance.report(period));
    }

    private static Optional<LocalDate> day(QueryParameters asked, String name) {
        try {
            return asked.getSingleParameter(name)
                    .map(LocalDate::parse)
                    // What the calendar of the page and of the database both have.
                    .filter(day -> day.getYear() >= 1900 && day.getYear() <= 2999);
        } catch (DateTimeParseException noDay) {
            return Optional.empty();
        }
    }

    private void show(GovernanceReport figures) {
        report.removeAll();
        report.add(
                agreement(figures),
                overruled(figures.mostOverruled()),
                outcomes(figures.outcomes()),
                waiting(figures),
                equity(figures.equity()));
    }

    // Agreement.

    private Component agreement(GovernanceReport figures) {
        var agreement = figures.agreement();
        var panel = Pieces.panel("lq-agreement", "Proposal and decision");
        if (agreement.all().all() == 0) {
            panel.add(nothing("No physician decided on a proposal in this period."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-figure-says",
                "Physicians agreed with " + agreement.all().of() + " of "
                        + counted(agreement.all().all(), "proposal", "proposals") + ", "
                        + Figures.percent(agreement.all().share()) + " ("
                        + Figures.interval(agreement.all()) + ")."));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Agreed is who approved what was proposed, and who sent to hospital a patient for whom the same day was proposed. "
                        + "A changed tier or a changed category is not. Questions asked and referrals returned judge no "
                        + "proposal. " + WILSON));
        panel.add(shares(
                "agreement-by-tier", "Agreement by tier proposed", "Tier proposed", agreement.byTier(), this::tier));
        panel.add(shares(
                "agreement-by-person", "Agreement by person", "Person", agreement.byPerson(), Function.identity()));
        panel.add(byRule(agreement));
        return panel;
    }

    private <T> Component shares(
            String id, String title, String of, List<Agreement.Line<T>> lines, Function<T, String> words) {
        return figure(
                title,
                new RangePicture(
                        id,
                        title,
                        WILSON,
                        "Share agreed with",
                        true,
                        lines.stream()
                                .map(line -> row(words.apply(line.of()), line.agreed()))
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
        var says = governance.rules();
        var title = "Overruled by rule";
        return figure(
                title,
                new RangePicture(
                        "overruled-by-rule",
                        title,
                        "The rules surest to be overruled, by the lower end of the interval. " + WILSON,
                        "Share overruled",
                        true,
                        agreement.byRule().stream()
                                .limit(ROWS_OF_A_PICTURE)
                                .map(line -> row(name(line.of()), line.overruled()))
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

    // What was overruled.

    private Component overruled(List<Overruling> rules) {
        var panel = Pieces.panel("lq-overruled", "Rules most overruled, with the reasons given");
        if (rules.isEmpty()) {
            panel.add(nothing("Nothing was overruled in this period."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "A rule counts as overruled when a proposal in which it spoke was, whatever else spoke in it. The latest five "
                        + "reasons of each; names of patients are taken out."));
        var list = new OrderedList();
        list.addClassName("lq-overruled-rules");
        rules.forEach(rule -> {
            var reasons = new UnorderedList();
            rule.reasons()
                    .forEach(reason -> reasons.add(new ListItem(
                            Pieces.text("lq-quiet", DayWords.date(reason.day()) + ", " + change(reason) + ": "),
                            Pieces.text("lq-reason", "“" + reason.words() + "”"))));
            list.add(new ListItem(
                    Pieces.div(
                            "lq-overruled-rule",
                            Pieces.text("lq-strong", name(rule.rule())),
                            Pieces.text(
                                    "lq-overruled-count",
                                    rule.overruled().of() + " of "
                                            + rule.overruled().all() + ", "
                                            + Figures.percent(rule.overruled().share()) + " ("
                                            + Figures.interval(rule.overruled()) + ")")),
                    Pieces.paragraph("lq-quiet", rule.says()),
                    reasons));
        });
        panel.add(list);
        return panel;
    }

    private String change(Overruling.Reason reason) {
        return reason.proposed() == reason.decided()
                ? tier(reason.decided()) + ", another category"
                : tier(reason.proposed()) + " to " + tier(reason.decided()).toLowerCase(Locale.ROOT);
    }

    // Outcomes.

    private Component outcomes(Outcomes outcomes) {
        var panel = Pieces.panel("lq-outcomes", "Outcome against what was flagged");
        if (outcomes.all().cases() == 0) {
            panel.add(nothing(
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
        outcomes.byFlag().forEach(flagged -> names.add(name(flagged.flag())));
        var rows = new ArrayList<RangePicture.Row>();
        var cells = new ArrayList<List<String>>();
        for (var at = 0; at < lines.size(); at++) {
            var line = lines.get(at).line();
            if (line.cases() > 0 && rows.size() < ROWS_OF_A_PICTURE) {
                rows.add(row(names.get(at), line.notAsPlanned()));
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
            header.add(sentence(outcome.words()));
        }
        header.addAll(List.of("Not as planned", "95 % interval"));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "The red flags of the proposal that was decided on; a case with several counts for each of them. That a flagged "
                        + "case went another way does not say that the flag was the cause."));
        panel.add(figure(
                "Not done as planned, by flag",
                new RangePicture(
                        "outcomes-by-flag", "Not done as planned, by flag", WILSON, "Share not as planned", true, rows),
                new FigureTable("outcomes by flag", List.copyOf(header), cells),
                false));
        return panel;
    }

    // Waiting.

    private Component waiting(GovernanceReport figures) {
        var panel = Pieces.panel("lq-waiting", "Waiting times by tier");
        var lines = figures.waiting().byTier();
        if (lines.isEmpty()) {
            panel.add(nothing("Nobody's wait ended in this period, and nobody was waiting at its end."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Days from the reception, or from the earlier day on which another hospital put treatment off, to the "
                        + "procedure or to being sent to hospital; by the tier decided. Percentiles by p(N + 1), as in the "
                        + "handbook of NIST: with 9 waits the 90th percentile is the longest. Late is who was done after the "
                        + "target date of the decision."));
        panel.add(figure(
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
                                                tier(line.tier()),
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
        var days = settings.policy().days().get(tier);
        return days == null ? OptionalDouble.empty() : OptionalDouble.of(days);
    }

    private List<String> cells(Waiting.Line line) {
        return List.of(
                tier(line.tier()),
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

    // Equity.

    private Component equity(Equity equity) {
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
            panel.add(nothing("Fewer than 10 waits ended in that half year, too few to show."));
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
        panel.add(figure(
                "Days waited, by group",
                new RangePicture(
                        "waiting-by-group",
                        "Days waited, by group",
                        "The dot is the median, the line reaches from the 25th to the 75th percentile. Only groups of 10 and more.",
                        "Days",
                        false,
                        rows.stream().limit(2L * ROWS_OF_A_PICTURE).toList()),
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

    // Pieces.

    /** @param folded whether the table is opened by whoever wants it */
    private Component figure(String title, RangePicture picture, FigureTable table, boolean folded) {
        var drawn = picture.rows().isEmpty()
                ? Pieces.div(
                        "lq-picture",
                        nothing("There is nothing to draw yet: no wait has ended, or the groups are too small."))
                : new DrawnPicture(picture.svg());
        var head = Pieces.div("lq-figure-head", new H3(title), table.csv(auditTrail));
        var both = Pieces.div("lq-figure-both", drawn);
        if (folded) {
            var details = new NativeDetails(counted(table.rows().size(), "rule", "rules") + " as a table");
            details.setContent(table.onPage());
            both.add(details);
            both.addClassName("lq-figure-tall");
        } else {
            both.add(table.onPage());
        }
        return Pieces.div("lq-figure", head, both);
    }

    private static RangePicture.Row row(String words, Proportion proportion) {
        var interval = proportion.interval();
        return new RangePicture.Row(
                words, interval.low(), proportion.share().orElse(0), interval.high(), OptionalDouble.empty());
    }

    private static Component nothing(String words) {
        return Pieces.paragraph("lq-nothing", words);
    }

    private String tier(Tier tier) {
        return sentence(TierPhrase.of(tier, settings.policy()));
    }

    /** The id of a rule as words. */
    private static String name(String rule) {
        return sentence(rule.replace('-', ' '));
    }

    private static String sentence(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    private static String counted(int count, String one, String many) {
        return count + " " + (count == 1 ? one : many);
    }
}
