package limbqueue.referral.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.Location;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.file.ReferralFiles;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.LastSeen;
import limbqueue.referral.Merging;
import limbqueue.referral.Recomputation;
import limbqueue.referral.Recomputed;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.shell.ReferralAside;
import org.springframework.beans.factory.ObjectProvider;

/** One referral on one page: who, how soon and why, both legs, flags, what is unknown; and the physician's decision. */
@Route("referrals/:" + ReferralView.ID)
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/physician.css")
@StyleSheet("context://ui/one-screen.css")
@JavaScript("context://ui/keys.js")
class ReferralView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    static final String ID = "id";

    private final Referrals referrals;
    private final Recomputation recomputation;
    private final PracticeSettings settings;
    private final CurrentPerson person;
    private final KeptWords kept;
    private final ObjectProvider<ReferralAside> asides;
    private final Merging merging;
    private final ReferralFiles files;
    private final LastSeen lastSeen;
    private String title = "Referral · LimbQueue";

    ReferralView(
            Referrals referrals,
            Recomputation recomputation,
            PracticeSettings settings,
            CurrentPerson person,
            KeptWords kept,
            ObjectProvider<ReferralAside> asides,
            Merging merging,
            ReferralFiles files,
            LastSeen lastSeen) {
        this.referrals = referrals;
        this.recomputation = recomputation;
        this.settings = settings;
        this.person = person;
        this.kept = kept;
        this.asides = asides;
        this.merging = merging;
        this.files = files;
        this.lastSeen = lastSeen;
        addClassName("lq-referral");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var id = event.getRouteParameters().get(ID).flatMap(JustDecided::number);
        if (id.isEmpty()) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
            return;
        }
        try {
            var page = ReferralPage.of(referrals, referrals.get(id.get()));
            title = page.referral().reference() + " · LimbQueue";
            removeAll();
            JustDecided.from(event.getLocation().getQueryParameters(), referrals)
                    .ifPresent(this::add);
            show(page);
        } catch (ReferralNotFoundException missing) {
            event.rerouteToError(NotFoundException.class, missing.getMessage());
        }
    }

    @Override
    public String getPageTitle() {
        return title;
    }

    private void show(ReferralPage page) {
        var id = page.referral().id();
        var decisions = referrals.decisions(id);
        asides.orderedStream()
                .flatMap(aside -> aside.of(id, () -> again(id)).stream())
                .forEach(this::add);
        if (page.referral().state() != ReferralState.QUEUED && !decisions.isEmpty()) {
            var decision = decisions.getFirst();
            Supplier<Recomputed> again = () -> recomputation.recompute(decision.id());
            add(new DecisionBanner(
                    decision, page, person.get().role() == Role.PHYSICIAN ? Optional.of(again) : Optional.empty()));
        }
        referrals.reopening(id).ifPresent(reopening -> add(new ReopenedPanel(reopening, decisions)));
        var toBeDecided = page.referral().state() == ReferralState.QUEUED
                && person.get().role() == Role.PHYSICIAN
                && merging.wholeOf(id).isEmpty();
        setClassName("lq-one-screen", toBeDecided);
        removeClassName("lq-turned-over");
        if (toBeDecided) {
            showOnOneScreen(page, decisions);
        } else {
            showAll(page, decisions);
        }
        getElement().executeJs("window.limbqueueKeys.shown(this, $0)", String.valueOf(id));
    }

    private void showAll(ReferralPage page, List<DecisionRecord> decisions) {
        var unknown = Still.of(new UnknownPanel(page));
        var pressures = Markup.div("lq-column", Still.of(LegsPanel.pressuresAndPulses(page)));
        var flags = Markup.div("lq-column lq-column-flags", flags(page));
        // What is not known stands in the column that has room for it.
        (FlagsPanel.isShort(page) ? flags : pressures).add(unknown);
        pressures.add(LegsPanel.arteries(page));
        var middle = Markup.div(
                "lq-middle",
                Still.of(Markup.div("lq-column", LegsPanel.gradesAndComplaints(page), new WorkUpPanel(page))),
                pressures,
                flags);
        var timeline = referrals.timeline(page.referral().id());
        var lower = Markup.div("lq-lower", background(page), Still.of(new LifePanel(decisions, timeline)));
        add(new WhoHeader(page), Still.of(new UrgencyPanel(page)), middle, Still.of(new PlanPanel(page)), lower);
    }

    /** All that a decision rests on, side by side; the rest behind a key. */
    private void showOnOneScreen(ReferralPage page, List<DecisionRecord> decisions) {
        var seen = Still.of(new SinceSeenPanel(page, lastSeen.look(page.referral())));
        var earlier = Still.of(LifePanel.ofDecisions(decisions));
        // What is short stands below the picture, what is long in the columns that run on.
        var picture = Markup.div(
                "lq-column lq-column-picture", LegsPanel.arteries(page), Still.of(LegsPanel.besideThePicture(page)));
        var flow = Markup.div("lq-flow", flags(page));
        (seen.isShort() ? picture : flow).add(seen);
        flow.add(
                Still.of(UnknownPanel.inShort(page)),
                Still.of(WorkUpPanel.inShort(page)),
                Still.of(PlanPanel.inShort(page)));
        (decisions.isEmpty() ? picture : flow).add(earlier);
        var legs = Still.of(Markup.div("lq-column lq-column-legs", LegsPanel.gradesAndComplaints(page)));
        var behind = Markup.div("lq-lower lq-behind");
        var head = new WhoHeader(page);
        head.add(steps(page, behind));
        add(
                head,
                Still.of(new UrgencyPanel(page)),
                Markup.div("lq-board", legs, picture, flow),
                behind,
                new DecisionBar(page, settings.policy(), kept, decision -> decide(page, decision)));
    }

    private BackgroundPanels background(ReferralPage page) {
        var background = new BackgroundPanels(page);
        var came = merging.filesOf(page.referral().id());
        if (!came.isEmpty()) {
            background.add(Markup.panel("lq-files-panel", "Files", new FileList(came, files)));
        }
        return background;
    }

    private FlagsPanel flags(ReferralPage page) {
        return new FlagsPanel(page, facts -> LetterDialog.at(page, facts).open());
    }

    /** Where this referral stands in the queue, and what can be opened. */
    private Div steps(ReferralPage page, Div behind) {
        var id = page.referral().id();
        var queue = referrals.queue().stream().map(ReferralLine::id).toList();
        var at = queue.indexOf(id);
        var previous = step(Keys.PREVIOUS, "Previous", () -> goTo(queue.get(at - 1)));
        previous.setEnabled(at > 0);
        var next = step(Keys.NEXT, "Next", () -> goTo(queue.get(at + 1)));
        next.setEnabled(at + 1 < queue.size());
        var steps = Markup.div(
                "lq-steps",
                Markup.text("lq-steps-place", (at + 1) + " of " + queue.size() + " in the queue"),
                previous,
                next,
                step(Keys.LETTER, "Letter", () -> LetterDialog.whole(page).open()),
                step(
                        Keys.WHAT_IF,
                        "What if",
                        () -> UI.getCurrent().navigate(WhatIfView.class, JustDecided.parameters(id))),
                step(Keys.BACKGROUND, "Background", () -> turnOver(page, behind)),
                step(Keys.QUEUE, "Queue", () -> UI.getCurrent().navigate(QueueView.class)),
                step(Keys.KEYS, "Keys", () -> new KeysDialog().open()));
        steps.getElement().setAttribute("role", "group").setAttribute("aria-label", "Steps");
        return steps;
    }

    private static Button step(Keys key, String words, Runnable act) {
        var button = new Button(words, click -> act.run());
        button.addThemeVariants(ButtonVariant.LUMO_SMALL);
        key.on(button);
        return button;
    }

    /** Shows what lies behind the board, or the board again. */
    private void turnOver(ReferralPage page, Div behind) {
        if (behind.getElement().getChildCount() == 0) {
            var timeline = referrals.timeline(page.referral().id());
            behind.add(background(page), Still.of(LifePanel.ofTimeline(timeline)));
        }
        setClassName("lq-turned-over", !hasClassName("lq-turned-over"));
    }

    /** The next page of the same kind, without a way around by the browser. */
    private void goTo(long id) {
        var ui = UI.getCurrent();
        ui.getPage().getHistory().pushState(null, new Location("referrals/" + id));
        again(id);
        ui.getPage().setTitle(title);
    }

    private void again(long id) {
        var page = ReferralPage.of(referrals, referrals.get(id));
        title = page.referral().reference() + " · LimbQueue";
        removeAll();
        show(page);
    }

    private void decide(ReferralPage page, Decision decision) {
        var id = page.referral().id();
        if (!referrals.propose(page.draft().read(referrals.today())).equals(page.proposal())) {
            showChanged(
                    page,
                    ReferralPage.of(referrals, referrals.get(id)),
                    referrals.decidedSince(id, page.referral().version()));
            return;
        }
        var before = referrals.queue().stream().map(ReferralLine::id).toList();
        switch (referrals.decide(id, page.referral().version(), decision)) {
            case DecideOutcome.Decided _ -> {
                kept.forget(id);
                goOn(NextInQueue.after(id, before, referrals.queue()), JustDecided.asking(id));
            }
            case DecideOutcome.Changed changed ->
                showChanged(page, ReferralPage.of(referrals, changed.now()), changed.decided());
            case DecideOutcome.AwaitsSecondLook _ -> {
                kept.forget(id);
                again(id);
            }
            case DecideOutcome.Refused refused -> showRefused(page, refused.why());
        }
    }

    private static void goOn(Optional<ReferralLine> next, QueryParameters confirmation) {
        var ui = UI.getCurrent();
        next.ifPresentOrElse(
                line -> ui.navigate(ReferralView.class, JustDecided.parameters(line.id()), confirmation),
                () -> ui.navigate(QueueView.class, confirmation));
    }

    private void showChanged(ReferralPage read, ReferralPage now, Optional<DecisionRecord> decided) {
        removeAll();
        Section changes = new ChangesPanel(read, now, decided);
        add(changes);
        show(now);
        changes.scrollIntoView();
    }

    private void showRefused(ReferralPage page, String why) {
        removeAll();
        var refusal = Markup.panel(
                "lq-changes",
                "Nothing was decided",
                Markup.paragraph("lq-changes-lead", why + " What you typed is kept."));
        refusal.getElement().setAttribute("role", "alert");
        add(refusal);
        show(page);
        refusal.scrollIntoView();
    }
}
