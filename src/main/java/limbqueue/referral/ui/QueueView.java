package limbqueue.referral.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Moved;
import limbqueue.referral.Moves;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.Referrals;
import limbqueue.referral.SecondLooks;
import limbqueue.shell.CsvLink;
import limbqueue.shell.Notice;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/** The physician's queue: who must go to hospital today on top, then every tier with its longest waiting first. */
@Route("queue")
@PageTitle("Queue · LimbQueue")
@Menu(order = 1, title = "Queue")
@RolesAllowed(Role.IS_PHYSICIAN)
@StyleSheet("context://ui/physician.css")
@StyleSheet("context://ui/sameday.css")
@StyleSheet("context://ui/one-screen.css")
@JavaScript("context://ui/queue.js")
@JavaScript("context://ui/keys.js")
class QueueView extends Div implements BeforeEnterObserver {

    private static final int NOTICE_MILLIS = 8000;

    private final Referrals referrals;
    private final SecondLooks secondLooks;
    private final KeptWords kept;
    private final AuditTrail auditTrail;
    private final Moves moves;

    QueueView(Referrals referrals, SecondLooks secondLooks, KeptWords kept, AuditTrail auditTrail, Moves moves) {
        this.referrals = referrals;
        this.secondLooks = secondLooks;
        this.moves = moves;
        this.auditTrail = auditTrail;
        this.kept = kept;
        addClassName("lq-queue");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        removeAll();
        JustDecided.from(event.getLocation().getQueryParameters(), referrals).ifPresent(this::add);
        show();
    }

    private void show() {
        var lines = referrals.queue();
        var moved = moves.unseen();
        var heading = new H1("Queue");
        heading.add(Markup.text("lq-count", lines.size() == 1 ? "1 referral" : lines.size() + " referrals"));
        var head = Markup.div(
                "lq-queue-head", heading, new CsvLink(auditTrail, "queue", CSV_HEADER, () -> csv(referrals.queue())));
        add(head);
        if (lines.isEmpty()) {
            moved(moved);
            add(Markup.paragraph(
                    "lq-empty",
                    "The queue is empty. Every referral that reached you has been answered; new ones appear here as the"
                            + " office submits them."));
            return;
        }
        add(Markup.div(
                "lq-queue-how",
                Markup.paragraph(
                        "lq-notice",
                        "Most urgent first, then target date, then longest waiting since the first hospital put it off, then"
                                + " getting worse; what was asked moves nobody. Keys: j and k move, Enter opens. A ? marks a grade that could still change."),
                new Notice(TriageResult.NOTICE)));
        var tiers = new EnumMap<Tier, List<ReferralLine>>(Tier.class);
        lines.forEach(line -> tiers.computeIfAbsent(line.proposedTier(), tier -> new ArrayList<>())
                .add(line));
        var sameDay = tiers.remove(Tier.SAME_DAY);
        if (sameDay != null) {
            add(sameDay(sameDay, moved));
        }
        moved(moved);
        if (!tiers.isEmpty()) {
            add(columns());
        }
        tiers.forEach((tier, waiting) -> add(group(tier, waiting, moved)));
    }

    private void moved(List<Moved> moved) {
        if (!moved.isEmpty()) {
            add(new MovedPanel(
                    moved,
                    referrals.proposed(moved.stream().map(Moved::referralId).toList()),
                    this::seen));
        }
    }

    private void seen(Moved moved) {
        moves.seen(moved);
        removeAll();
        show();
    }

    private static Optional<Moved> of(ReferralLine line, List<Moved> moved) {
        return moved.stream().filter(one -> one.referralId() == line.id()).findFirst();
    }

    private Section sameDay(List<ReferralLine> lines, List<Moved> moved) {
        var list = new OrderedList();
        var waiting = secondLooks.waiting();
        for (var line : lines) {
            var page = page(line);
            list.add(SecondLookMark.on(
                    new SameDayEntry(
                            line,
                            page,
                            of(line, moved),
                            () -> DecisionDialog.sendToHospital(page, kept, decision -> decide(page, decision))
                                    .open()),
                    waiting.contains(line.id())));
        }
        var section = new Section(new H2("Same day: send to hospital now (" + lines.size() + ")"), list);
        section.addClassName("lq-same-day");
        return section;
    }

    private Section group(Tier tier, List<ReferralLine> lines, List<Moved> moved) {
        var list = new OrderedList();
        var waiting = secondLooks.waiting();
        for (var line : lines) {
            list.add(SecondLookMark.on(
                    new ListItem(new QueueEntry(line, page(line), of(line, moved))), waiting.contains(line.id())));
        }
        var section = new Section(new H2(TierWords.of(tier) + " (" + lines.size() + ")"), list);
        section.addClassName("lq-tier-group");
        return section;
    }

    /** What the columns are; every cell says it again in words, so it is hidden from those who listen. */
    private static Div columns() {
        var columns = Markup.div("lq-queue-columns");
        columns.getElement().setAttribute("aria-hidden", "true");
        for (var column :
                List.of("Urgency and target", "Patient", "Rutherford", "Why, and red flags", "Questions", "Waiting")) {
            columns.add(Markup.text("lq-caption", column));
        }
        return columns;
    }

    private static final List<String> CSV_HEADER = List.of(
            "Urgency",
            "Target date",
            "Patient",
            "Born",
            "Reference",
            "Referrer",
            "Why",
            "Red flags",
            "Open questions",
            "Received");

    private static List<List<String>> csv(List<ReferralLine> lines) {
        return lines.stream()
                .map(line -> List.of(
                        TierWords.of(line.proposedTier()),
                        line.targetDate().map(LocalDate::toString).orElse(""),
                        line.patient(),
                        line.born().map(LocalDate::toString).orElse(""),
                        line.reference(),
                        line.referrer(),
                        line.because(),
                        line.flags().stream().map(FlagWords::inShort).collect(Collectors.joining(", ")),
                        String.valueOf(line.openQuestions()),
                        line.received().toString()))
                .toList();
    }

    private ReferralPage page(ReferralLine line) {
        return ReferralPage.of(referrals, referrals.get(line.id()));
    }

    private void decide(ReferralPage page, Decision decision) {
        var id = page.referral().id();
        switch (referrals.decide(id, page.referral().version(), decision)) {
            case DecideOutcome.Decided _, DecideOutcome.AwaitsSecondLook _ -> {
                kept.forget(id);
                UI.getCurrent().navigate(QueueView.class, JustDecided.asking(id));
            }
            case DecideOutcome.Changed changed -> {
                tell(page.referral().reference()
                        + changed.decided()
                                .map(theirs -> ": " + theirs.author() + " decided first. " + DecisionWords.of(theirs)
                                        + ". What you typed is kept.")
                                .orElse(" changed since the queue was shown. Look at it, then send again; what you"
                                        + " typed is kept."));
                UI.getCurrent().navigate(ReferralView.class, JustDecided.parameters(id));
            }
            case DecideOutcome.Refused refused -> tell(refused.why() + " What you typed is kept.");
        }
    }

    private static void tell(String text) {
        Notification.show(text, NOTICE_MILLIS, Notification.Position.TOP_CENTER);
    }
}
