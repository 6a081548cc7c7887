package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Header;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseSheets;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.TriageResult;

/** One case under preparation: the gate to the room, the work-up, the booking, the stents, and what became of it. */
@Route("referrals/:" + CaseView.ID + "/preparation")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
class CaseView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    static final String ID = "id";

    private final Preparation preparation;
    private final CaseSheets sheets;
    private final PracticeSettings settings;
    private final GatePanel gate;
    private final WorkUpPanel workUp;
    private final NeededStentsPanel stents;
    private final ProcedurePanels procedure;
    private final Div message = new Div();
    private String title = "Preparation · LimbQueue";

    CaseView(Preparation preparation, CaseSheets sheets, PracticeSettings settings, CurrentPerson person) {
        this.preparation = preparation;
        this.sheets = sheets;
        this.settings = settings;
        var steps = new CaseSteps(preparation, message, this::show);
        var typing = new ResultsDialog(preparation, steps);
        this.gate = new GatePanel(preparation, steps, person.get().role() == Role.PHYSICIAN);
        this.workUp = new WorkUpPanel(preparation, steps, typing);
        this.stents = new NeededStentsPanel(preparation, steps, typing);
        this.procedure = new ProcedurePanels(preparation, steps);
        addClassNames("lq-page", "lq-case");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status").setAttribute("tabindex", "-1");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        try {
            var id = Long.parseLong(event.getRouteParameters().get(ID).orElse(""));
            message.setText("");
            show(preparation.get(id));
        } catch (NumberFormatException | ReferralNotFoundException missing) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
        }
    }

    @Override
    public String getPageTitle() {
        return title;
    }

    private void show(PreparationCase prepared) {
        removeAll();
        title = prepared.proposed().referral().reference() + ", preparation · LimbQueue";
        var side = Pieces.div("lq-stack", procedure.booking(prepared), stents.of(prepared), procedure.plan(prepared));
        add(
                head(prepared),
                message,
                gate.of(prepared),
                Pieces.div(
                        "lq-case-columns",
                        Pieces.div("lq-stack", workUp.of(prepared), workUp.history(prepared)),
                        side));
        if (prepared.inRoom() || prepared.record().isPresent()) {
            side.addComponentAsFirst(procedure.outcome(prepared));
        }
    }

    private Component head(PreparationCase prepared) {
        var proposed = prepared.proposed();
        var referral = proposed.referral();
        var facts = Pieces.div("lq-case-facts");
        proposed.document()
                .patient()
                .born()
                .ifPresent(born -> facts.add(Pieces.text("lq-case-fact", "born " + Words.date(born))));
        facts.add(
                Pieces.text("lq-case-fact", referral.reference()),
                Pieces.text("lq-case-fact", Words.of(referral.state())),
                Pieces.text(
                        "lq-strong",
                        Words.tier(proposed.tier(), settings.policy())
                                + proposed.targetDate()
                                        .map(day -> ", by " + Words.date(day))
                                        .orElse("")));
        var links = Pieces.div(
                "lq-case-links",
                new Anchor("referrals/" + referral.id(), "The referral"),
                new Anchor("referrals/" + referral.id() + "/chasing", "Records and calls"),
                new Anchor("preparation", "All cases"),
                sheet(prepared));
        var name = new H1(prepared.patient().isEmpty() ? "Name not known" : prepared.patient());
        var head = new Header(Pieces.div("lq-case-who", name, facts, new Notice(TriageResult.NOTICE)), links);
        head.addClassName("lq-case-head");
        return head;
    }

    private Component sheet(PreparationCase prepared) {
        var id = prepared.id();
        var file = prepared.proposed().referral().reference().replaceAll("[^A-Za-z0-9-]", "-") + "-case-sheet.pdf";
        var link = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                            var bytes = sheets.pdf(id);
                            return new DownloadResponse(
                                    new ByteArrayInputStream(bytes), file, "application/pdf", bytes.length);
                        })
                        .inline(),
                "Case sheet (PDF)");
        link.setTarget(AnchorTarget.BLANK);
        link.addClassName("lq-print");
        return link;
    }
}
