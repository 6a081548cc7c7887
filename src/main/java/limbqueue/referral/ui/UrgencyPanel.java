package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.Section;
import java.util.List;
import limbqueue.shell.Notice;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Reason;

/** How soon, by which day, why, and what the unknowns still allow. The notice stands beside it always. */
class UrgencyPanel extends Section {

    UrgencyPanel(ReferralPage page) {
        addClassNames("lq-panel", "lq-urgency-panel");
        var urgency = page.proposal().urgency();
        var heading = new H2("Proposed urgency");
        heading.addClassName("lq-panel-title");
        var mark = new UrgencyMark(urgency.tier(), urgency.targetDate());
        mark.addClassName("lq-urgency-big");
        var when = Markup.div("lq-urgency-when", mark);
        urgency.targetDate()
                .ifPresent(target -> when.add(Markup.text(
                        TimeWords.late(target, page.today()) ? "lq-overdue" : "lq-due",
                        TimeWords.until(target, page.today()))));
        var why = Markup.div("lq-urgency-why", Markup.paragraph("lq-because", urgency.because()));
        if (urgency.possible().size() > 1) {
            why.add(Markup.paragraph(
                    "lq-possible", "What is not known still allows " + TierWords.possible(urgency.possible()) + "."));
        }
        var line =
                new Div(new Div(heading, when), why, new Notice(page.proposal().notice()));
        line.addClassName("lq-urgency-line");
        add(line);
        var flags = page.proposal().redFlags();
        if (!flags.isEmpty()) {
            // Where the flags themselves stand further down, on a narrow screen.
            var names = Markup.div("lq-flag-names", Markup.text("lq-caption", "Red flags"));
            flags.forEach(flag -> names.add(Markup.text("lq-queue-flag", FlagWords.inShort(flag.code()))));
            add(names);
        }
        ReasonList.of("Why", general(page), page.draft()).ifPresent(this::add);
    }

    /** The reasons that do not rest on one leg alone; those stand with the legs. */
    private static List<Reason> general(ReferralPage page) {
        return page.proposal().reasons().stream()
                .filter(reason -> !AnatomyWords.isAnatomic(reason))
                .filter(reason -> !LegsPanel.restsOn(reason, Side.LEFT) && !LegsPanel.restsOn(reason, Side.RIGHT))
                .toList();
    }
}
