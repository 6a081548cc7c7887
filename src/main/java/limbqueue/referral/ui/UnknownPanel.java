package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;

/** What is not known and could change something, most decisive first, with the day by which to ask. */
class UnknownPanel extends Section {

    UnknownPanel(ReferralPage page) {
        addClassNames("lq-panel", "lq-unknown");
        var questions = page.proposal().questions();
        var heading = new H2("Not known (" + questions.size() + ")");
        heading.addClassName("lq-panel-title");
        add(heading);
        if (questions.isEmpty()) {
            add(Markup.paragraph("lq-soft", "Nothing that could change the proposal."));
            return;
        }
        var list = new OrderedList();
        for (var question : questions) {
            var late = TimeWords.late(question.askBy(), page.today());
            list.add(new ListItem(
                    Markup.text("lq-question", question.ask()),
                    Markup.text(
                            late ? "lq-ask-day lq-overdue" : "lq-ask-day",
                            "ask by " + TierWords.date(question.askBy()) + "; could reveal "
                                    + TierWords.inSentence(question.couldReveal()))));
        }
        add(list);
    }
}
