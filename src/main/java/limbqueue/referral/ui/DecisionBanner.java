package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import limbqueue.document.Draft;
import limbqueue.referral.DecisionRecord;

/** The decision that stands, on top of a referral that is no longer before the physician. */
class DecisionBanner extends Div {

    DecisionBanner(DecisionRecord decision, ReferralPage page) {
        addClassName("lq-decision-banner");
        add(Markup.text("lq-decision", DecisionWords.of(decision)));
        add(Markup.text(
                "lq-soft",
                decision.author() + ", " + TierWords.moment(decision.at()) + ", on the proposal "
                        + TierWords.inSentence(decision.proposedTier()) + " of " + TierWords.date(decision.asOf())
                        + ", policy " + decision.policy()));
        if (!decision.reason().isBlank()) {
            add(Markup.text("lq-quote", "“" + decision.reason() + "”"));
        }
        var changes = DocumentChanges.between(Draft.of(decision.document()), page.draft());
        if (!changes.isEmpty()) {
            add(Markup.text(
                    "lq-decision-since",
                    changes.size() == 1
                            ? "One value was changed since: "
                                    + changes.getFirst().field() + "."
                            : changes.size() + " values were changed since."));
        }
    }
}
