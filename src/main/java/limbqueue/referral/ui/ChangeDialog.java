package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.select.Select;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionKind;
import limbqueue.triage.Policy;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;

/**
 * Changes the proposal: another tier, another Rutherford category, and always a reason. Same day is not among the tiers: it
 * is never a place in the queue, so it has a button of its own that asks whom the physician told.
 */
class ChangeDialog extends Dialog {

    private final ReferralPage page;
    private final KeptWords kept;
    private final RadioButtonGroup<Tier> tiers = new RadioButtonGroup<>("Urgency");
    private final Map<Side, Select<Rutherford>> categories = new EnumMap<>(Side.class);
    private final WordsField reason;

    ChangeDialog(ReferralPage page, Policy policy, KeptWords kept, Consumer<Decision> decide) {
        this.page = page;
        this.kept = kept;
        var id = page.referral().id();
        addClassName("lq-decision-dialog");
        setHeaderTitle("Change the proposal");
        setCloseOnOutsideClick(false);
        setWidth("44rem");

        var proposed = page.proposal().urgency().tier();
        var choice = kept.choice(id);
        tiers.setItems(Arrays.stream(Tier.values())
                .filter(tier -> tier != Tier.SAME_DAY)
                .toList());
        tiers.setItemLabelGenerator(tier -> TierWords.of(tier)
                + policy.targetDate(
                                tier,
                                page.document()
                                        .received()
                                        .orElse(page.proposal().asOf()))
                        .map(day -> ", by " + TierWords.date(day))
                        .orElse("")
                + (tier == proposed ? " (proposed)" : ""));
        tiers.addClassName("lq-tiers");
        tiers.setManualValidation(true);
        tiers.setHelperText("For the same day, close this and use Send to hospital now.");
        choice.flatMap(KeptWords.Choice::tier)
                .or(() -> Optional.of(proposed).filter(tier -> tier != Tier.SAME_DAY))
                .ifPresent(tiers::setValue);
        tiers.addValueChangeListener(change -> chosen());

        var legs = Markup.div("lq-dialog-legs");
        for (var side : GradeWords.AS_PATIENT_FACES) {
            var select = category(side);
            choice.map(made -> made.categories().get(side)).ifPresent(select::setValue);
            select.addValueChangeListener(change -> chosen());
            categories.put(side, select);
            legs.add(select);
        }

        reason = new WordsField(
                "Reason",
                kept.words(id, DecisionKind.CHANGED).orElse(""),
                "Write why the proposal is changed; the reason is kept with the decision.",
                typed -> kept.keep(id, DecisionKind.CHANGED, typed));
        add(Markup.div("lq-dialog-content", tiers, legs, reason));

        var button = new Button(
                "Approve with this change",
                click -> change().ifPresent(decision -> {
                    close();
                    decide.accept(decision);
                }));
        button.addThemeVariants(ButtonVariant.PRIMARY);
        button.addClassName("lq-decide");
        getFooter().add(new Button("Cancel, keep what is typed", click -> close()), button);
    }

    @Override
    public void open() {
        super.open();
        focusTiers();
    }

    private void focusTiers() {
        // The group itself takes no focus; its buttons are there once the dialog has drawn them.
        tiers.getElement()
                .executeJs("setTimeout(() => (this.querySelector('vaadin-radio-button[checked]')"
                        + " || this.querySelector('vaadin-radio-button')).focus(), 50)");
    }

    private Select<Rutherford> category(Side side) {
        var proposed = page.proposal().legs().of(side).rutherford().category();
        var select = new Select<Rutherford>();
        select.setLabel("Rutherford, " + GradeWords.side(side) + " leg");
        select.setItems(Rutherford.values());
        select.setItemLabelGenerator(category -> TierWords.category(category) + ", " + category.description()
                + (category == proposed ? " (proposed)" : ""));
        select.setValue(proposed);
        return select;
    }

    private void chosen() {
        tiers.setInvalid(false);
        kept.keep(page.referral().id(), new KeptWords.Choice(tiers.getOptionalValue(), differing()));
    }

    private Map<Side, Rutherford> differing() {
        var differing = new EnumMap<Side, Rutherford>(Side.class);
        categories.forEach((side, select) -> select.getOptionalValue()
                .filter(category ->
                        category != page.proposal().legs().of(side).rutherford().category())
                .ifPresent(category -> differing.put(side, category)));
        return differing;
    }

    /** The change, once it is one; else says at the field what is missing. */
    private Optional<Decision> change() {
        var tier = tiers.getOptionalValue();
        var differing = differing();
        if (tier.isEmpty()) {
            return refuse("Choose how soon.");
        }
        if (tier.get() == page.proposal().urgency().tier() && differing.isEmpty()) {
            return refuse(
                    "This is the proposal as it stands: choose another urgency or category, or close and approve.");
        }
        return reason.complete().map(why -> new Decision.Change(tier.get(), differing, why));
    }

    private Optional<Decision> refuse(String why) {
        tiers.setErrorMessage(why);
        tiers.setInvalid(true);
        focusTiers();
        return Optional.empty();
    }
}
