package limbqueue.referral.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.directory.Directory;
import limbqueue.document.Draft;
import limbqueue.referral.Merging;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.shell.Pieces;

/**
 * Other facts, tried out: the form of a referral before the physician, of which nothing is saved, with the proposal as it is
 * beside the one that the facts would lead to. Saved, they are a correction by whoever saves them.
 */
@Route("referrals/:" + ReferralView.ID + "/what-if")
@RolesAllowed(Role.IS_PHYSICIAN)
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/physician.css")
@StyleSheet("context://ui/one-screen.css")
class WhatIfView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    private final Referrals referrals;
    private final Merging merging;
    private final Directory directory;
    private final CurrentPerson person;
    private final Paragraph told = new Paragraph();
    private String title = "What if · LimbQueue";

    WhatIfView(Referrals referrals, Merging merging, Directory directory, CurrentPerson person) {
        this.referrals = referrals;
        this.merging = merging;
        this.directory = directory;
        this.person = person;
        addClassNames("lq-form-view", "lq-what-if");
        told.addClassName("lq-form-error");
        told.getElement().setAttribute("role", "alert");
        told.setVisible(false);
    }

    @Override
    public String getPageTitle() {
        return title;
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var id = event.getRouteParameters().getLong(ReferralView.ID).orElseThrow(NotFoundException::new);
        try {
            var referral = referrals.get(id);
            if (referral.state() != ReferralState.QUEUED || merging.wholeOf(id).isPresent()) {
                event.forwardTo("referrals/" + id);
                return;
            }
            show(ReferralPage.of(referrals, referral));
        } catch (ReferralNotFoundException missing) {
            event.rerouteToError(NotFoundException.class, missing.getMessage());
        }
    }

    private void show(ReferralPage present) {
        removeAll();
        title = "What if: " + present.referral().reference() + " · LimbQueue";
        var supposed = Draft.of(present.referral().document());
        var panel = new WhatIfPanel();
        var sections = new SectionList();
        var trial = new Trial(present, supposed, panel, sections);
        var form = new ReferralForm(supposed, Suggestions.from(directory), trial::changed);
        trial.form = List.of(form);
        form.getElement().addEventListener("lq-undo", event -> form.undo());
        form.getElement().addEventListener("lq-redo", event -> form.redo());
        var heading = new H1("What if: " + present.patient());
        var back = new Anchor("referrals/" + present.referral().id(), "Back, and save nothing");
        var save =
                Pieces.primary("Save as a correction by " + person.get().displayName(), () -> save(present, supposed));
        var actions = new Div(back, new Button("Undo", click -> form.undo()), save);
        actions.addClassName("lq-actions");
        var head = new Div(heading, Markup.text("lq-state", "Nothing is saved"), actions);
        head.addClassName("lq-form-head");
        var middle = new Div(told, form);
        middle.addClassName("lq-form-middle");
        var columns = new Div(sections, middle, panel);
        columns.addClassName("lq-form-columns");
        add(head, columns);
        trial.changed();
    }

    private void save(ReferralPage present, Draft supposed) {
        if (supposed.differencesFrom(present.draft()).isEmpty()) {
            tell("No fact is changed, so there is nothing to save.");
            return;
        }
        var referral = present.referral();
        switch (referrals.save(referral.id(), referral.version(), supposed.toJson())) {
            case SaveOutcome.Saved _ ->
                UI.getCurrent().navigate(ReferralView.class, JustDecided.parameters(referral.id()));
            case SaveOutcome.Conflict(var theirs, var _) ->
                tell(
                        "Not saved: " + theirs.savedBy()
                                + " saved another version meanwhile, or it was decided. What you"
                                + " changed is kept among its versions; go back, look again and correct what stands there now.");
        }
    }

    private void tell(String words) {
        told.setText(words);
        told.setVisible(true);
        told.scrollIntoView();
    }

    /** The facts as they are tried out. */
    private final class Trial {

        private final ReferralPage present;
        private final Draft supposed;
        private final WhatIfPanel panel;
        private final SectionList sections;

        /** Empty until it is built. */
        private List<ReferralForm> form = List.of();

        Trial(ReferralPage present, Draft supposed, WhatIfPanel panel, SectionList sections) {
            this.present = present;
            this.supposed = supposed;
            this.panel = panel;
            this.sections = sections;
        }

        private void changed() {
            var reading = supposed.read(referrals.today());
            var result = referrals.propose(reading);
            panel.show(present, supposed, result);
            for (var shown : form) {
                shown.tell(reading.problems(), result.contradictions());
                shown.showArteries(reading, result);
                shown.ask(result.questions(), question -> ProposalPanel.askBy(question, result.asOf()) + ".");
                sections.show(section -> shown.progress(section, reading.problems(), result.questions()));
            }
        }
    }
}
