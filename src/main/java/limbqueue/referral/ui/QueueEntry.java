package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.RouterLink;
import java.time.LocalDate;
import java.util.Optional;
import limbqueue.referral.Moved;
import limbqueue.referral.ReferralLine;

/** One referral of the queue in one line, all of it a link to its page. */
class QueueEntry extends RouterLink {

    QueueEntry(ReferralLine line, ReferralPage page, Optional<Moved> moved) {
        addClassName("lq-queue-entry");
        setRoute(ReferralView.class, JustDecided.parameters(line.id()));
        var today = page.today();
        add(
                urgency(line, today),
                patient(line, today),
                Markup.text("lq-queue-grade", GradeWords.inShort(page.proposal())),
                why(line, page, moved),
                open(line, today),
                Markup.text(
                        "lq-queue-waiting",
                        TimeWords.waited(page.proposal().urgency().waitingSince(), today)));
    }

    private static Span urgency(ReferralLine line, LocalDate today) {
        var cell = new Span(new UrgencyMark(line.proposedTier(), Optional.empty()));
        cell.addClassName("lq-queue-urgency");
        line.targetDate().ifPresent(target -> {
            cell.add(Markup.text("lq-queue-date", TierWords.date(target)));
            cell.add(Markup.text(
                    TimeWords.late(target, today) ? "lq-overdue" : "lq-due", TimeWords.until(target, today)));
        });
        return cell;
    }

    static Span patient(ReferralLine line, LocalDate today) {
        var cell = new Span(Markup.text("lq-queue-name", line.patient().isBlank() ? "Name not known" : line.patient()));
        cell.addClassName("lq-queue-patient");
        cell.add(line.born()
                .map(born -> Markup.text("lq-queue-age", TimeWords.age(born, today)))
                .orElseGet(() -> Markup.notKnown("age not known")));
        return cell;
    }

    static Span why(ReferralLine line, ReferralPage page, Optional<Moved> moved) {
        var cell = new Span(Markup.text("lq-queue-because", line.because()));
        cell.addClassName("lq-queue-why");
        moved.map(MovedMark::new).ifPresent(cell::add);
        for (var flag : line.flags()) {
            cell.add(Markup.text("lq-queue-flag", FlagWords.inShort(flag)));
        }
        if (!page.asked().isEmpty()) {
            cell.add(Markup.text("lq-queue-asked", "asked: " + page.asked() + "; changed nothing"));
        }
        cell.add(Markup.text("lq-queue-order", OrderWords.of(page)));
        return cell;
    }

    private static Span open(ReferralLine line, LocalDate today) {
        if (line.openQuestions() == 0) {
            return Markup.text("lq-queue-open lq-soft", "none open");
        }
        var cell = Markup.text("lq-queue-open", "");
        cell.add(Markup.text("lq-queue-questions", line.openQuestions() + " open"));
        line.askBy()
                .ifPresent(day -> cell.add(Markup.text(
                        TimeWords.late(day, today) ? "lq-ask-day lq-overdue" : "lq-ask-day",
                        TimeWords.late(day, today) ? "ask now" : "ask " + TimeWords.until(day, today))));
        return cell;
    }
}
