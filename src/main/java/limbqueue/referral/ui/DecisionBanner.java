package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.html.Div;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Supplier;
import limbqueue.document.Draft;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Recomputed;

/** The decision that stands, on top of a referral that is no longer before the physician. */
class DecisionBanner extends Div {

    /** @param recompute works the proposal of the decision out again, for those who may */
    DecisionBanner(DecisionRecord decision, ReferralPage page, Optional<Supplier<Recomputed>> recompute) {
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
        recompute.ifPresent(again -> add(recomputing(again)));
    }

    private static Div recomputing(Supplier<Recomputed> again) {
        var outcome = Markup.text("lq-recomputed", "");
        outcome.getElement().setAttribute("role", "status");
        var button = new Button("Recompute", _ -> outcome.setText(words(again.get())));
        button.addThemeVariants(ButtonVariant.LUMO_SMALL);
        return Markup.div("lq-recompute", button, outcome);
    }

    static String words(Recomputed outcome) {
        return switch (outcome) {
            case Recomputed.Same(var book, var policy, var asOf) ->
                "Recomputed with the rule book and policy of its day: the same. " + by(book, policy, asOf);
            case Recomputed.Different(var book, var policy, var asOf, var proposal) ->
                "Recomputed with the rule book and policy of its day: not the same; the program has changed since. "
                        + by(book, policy, asOf);
            case Recomputed.NotPossible(var why) -> "Cannot be recomputed. " + why;
        };
    }

    private static String by(String book, String policy, LocalDate asOf) {
        return "(Rule book " + book + ", policy " + policy + ", " + TierWords.date(asOf) + ".)";
    }
}
