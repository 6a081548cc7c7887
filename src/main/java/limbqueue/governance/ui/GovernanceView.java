package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.governance.Governance;
import limbqueue.governance.GovernanceReport;
import limbqueue.governance.Period;
import limbqueue.practice.PracticeSettings;
import limbqueue.shell.DayWords;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
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
        var figure = new ReportFigure(auditTrail);
        var words = new GovernanceWords(settings);
        report.removeAll();
        report.add(
                new AgreementPanel(governance.rules(), figure, words).of(figures.agreement()),
                new OverruledPanel(words).of(figures.mostOverruled()),
                new OutcomesPanel(figure).of(figures.outcomes()),
                new WaitingPanel(settings.policy(), figure, words).of(figures),
                new EquityPanel(figure).of(figures.equity()));
    }
}
