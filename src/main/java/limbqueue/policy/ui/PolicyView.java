package limbqueue.policy.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.policy.DraftOutcome;
import limbqueue.policy.PolicyDraft;
import limbqueue.policy.PolicyDrafts;
import limbqueue.policy.PolicyPreview;
import limbqueue.policy.PolicyPreviews;
import limbqueue.policy.TypedPolicy;
import limbqueue.practice.LeadPhysicians;
import limbqueue.practice.Policies;
import limbqueue.referral.Referrals;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.DayWords;
import limbqueue.shell.KeepsWhatIsTyped;
import limbqueue.shell.Pieces;

/** The policy: written by the lead physician, read by every physician and the manager, who names the lead. */
@Route("policy")
@PageTitle("Policy · LimbQueue")
@RolesAllowed({Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/policy.css")
class PolicyView extends Div implements KeepsWhatIsTyped {

    private final Policies policies;
    private final PolicyDrafts drafts;
    private final PolicyPreviews previews;
    private final LeadPhysicians lead;
    private final Referrals referrals;
    private final Person me;

    private final Div said = new Div();
    private final Div refusal = new Div();
    private final Div content = new Div();
    private final Div preview = new Div();
    private final Div state = new Div();

    private Optional<PolicyFields> fields = Optional.empty();
    private Optional<Long> draft = Optional.empty();
    /** As last saved, or as the fields began. */
    private TypedPolicy saved = new TypedPolicy(Map.of());

    PolicyView(
            Policies policies,
            PolicyDrafts drafts,
            PolicyPreviews previews,
            LeadPhysicians lead,
            Referrals referrals,
            CurrentPerson person) {
        this.policies = policies;
        this.drafts = drafts;
        this.previews = previews;
        this.lead = lead;
        this.referrals = referrals;
        this.me = person.get();
        addClassNames("lq-page", "lq-policy");
        said.getElement().setAttribute("role", "status");
        said.addClassName("lq-policy-said");
        state.getElement().setAttribute("role", "status");
        state.addClassName("lq-quiet");
        refusal.addClassName("lq-form-error");
        refusal.getElement().setAttribute("role", "alert");
        refusal.setVisible(false);
        var head = Pieces.div(
                "lq-page-head",
                new H1("Policy"),
                me.role() == Role.MANAGER
                        ? new Anchor("practice", "The practice")
                        : new Anchor("reminders", "Intervals of reminders and calls"));
        add(head, said, content);
        show();
    }

    private void show() {
        content.removeAll();
        preview.removeAll();
        refusal.setVisible(false);
        fields = Optional.empty();
        if (me.role() == Role.MANAGER) {
            content.add(naming());
        } else if (lead.leads()) {
            content.add(editor());
            content.add(preview);
        } else {
            content.add(Pieces.paragraph(
                    "lq-policy-who",
                    lead.named().map(Person::displayName).orElse("Somebody else")
                            + " leads, and writes the policy. Here it is to be read."));
        }
        content.add(new HistoryPanel(policies.versions(), policies.inForce()));
    }

    private Section naming() {
        var choice = new Select<Person>();
        choice.setLabel("Lead physician");
        choice.setItems(lead.physicians());
        choice.setItemLabelGenerator(person -> person == null ? "Every physician" : person.displayName());
        choice.setEmptySelectionAllowed(true);
        choice.setEmptySelectionCaption("Every physician");
        lead.named().ifPresent(choice::setValue);
        choice.setHelperText("Who alone writes and publishes the policy. Where nobody is named, every physician may.");
        choice.setWidth("min(420px, 100%)");
        var save = Pieces.primary(
                "Name as lead",
                () -> attempt(() -> {
                    lead.name(choice.getOptionalValue());
                    say(choice.getOptionalValue().map(Person::displayName).orElse("Every physician")
                            + " leads from now on.");
                }));
        return Pieces.panel("lq-stack", "Who leads", choice, refusal, new Div(save));
    }

    private Section editor() {
        var current = drafts.current();
        draft = current.map(PolicyDraft::id);
        saved = current.map(PolicyDraft::typed).orElseGet(drafts::beginning);
        var inputs = new PolicyFields(policies.inForce(), today(), this::keepAndTell);
        inputs.show(saved);
        fields = Optional.of(inputs);
        state.setText(current.map(PolicyView::savedBy)
                .orElse("No draft yet: the fields show what is in force. The first change begins one."));
        var show = Pieces.primary("Preview on open referrals", this::preview);
        var publish = new Button("Publish…", _ -> publish());
        var discard = new Button("Discard the draft", _ -> discard());
        var panel = Pieces.panel(
                "lq-policy-editor",
                "Draft of the next version",
                state,
                inputs,
                refusal,
                Pieces.div("lq-row-actions", show, publish, discard));
        if (current.isPresent()) {
            inputs.tell(numbersOnly(saved.read(today()).problems()));
        }
        return panel;
    }

    @Override
    public boolean keep() {
        return fields.isEmpty() || keepDraft();
    }

    private void keepAndTell() {
        if (keepDraft()) {
            fields.orElseThrow().tell(numbersOnly(saved.read(today()).problems()));
        }
        preview.removeAll();
    }

    /** What is still to be written is no mistake until the draft is to be published. */
    private static Map<String, String> numbersOnly(Map<String, String> problems) {
        var told = new LinkedHashMap<>(problems);
        told.remove(TypedPolicy.REASON);
        return told;
    }

    /** @return whether what is typed is the draft */
    private boolean keepDraft() {
        var typed = fields.orElseThrow().typed();
        if (typed.equals(saved)) {
            return true;
        }
        var kept = new boolean[1];
        attempt(() -> {
            switch (drafts.save(draft, typed)) {
                case DraftOutcome.Saved now -> {
                    draft = Optional.of(now.draft().id());
                    saved = typed;
                    state.setText(savedBy(now.draft()));
                    kept[0] = true;
                }
                case DraftOutcome.Overtaken other -> tell(other.theirs());
            }
        });
        return kept[0];
    }

    /** Keeps what was typed in the fields, and lets this person choose which of the two stays. */
    private void tell(Optional<PolicyDraft> theirs) {
        draft = theirs.map(PolicyDraft::id);
        refusal.removeAll();
        refusal.add(
                new Paragraph(theirs.map(other -> other.author() + " changed the draft while you were typing, "
                                + DayWords.moment(other.at()) + ".")
                        .orElse("The draft was published or discarded by somebody else while you were typing.")),
                new Paragraph(
                        "Yours is still in the fields, and is kept. The next change puts it in the place of theirs, or"
                                + " take theirs."),
                new Button("Take theirs", _ -> show()));
        refusal.setVisible(true);
    }

    private void preview() {
        preview.removeAll();
        if (!keepDraft()) {
            return;
        }
        refusal.setVisible(false);
        previewed(false).ifPresent(now -> preview.add(new PreviewPanel(now)));
        preview.getChildren()
                .findFirst()
                .ifPresent(panel -> panel.getElement()
                        .executeJs("this.querySelector('h2').focus(); this.scrollIntoView({block: 'nearest'})"));
    }

    /** @param whole whether the reason must be there too */
    private Optional<PolicyPreview> previewed(boolean whole) {
        var read = saved.read(today());
        var problems = whole ? read.problems() : numbersOnly(read.problems());
        fields.orElseThrow().tell(problems);
        if (!problems.isEmpty()) {
            refuse("Mend the fields that are marked. " + String.join(" ", problems.values()));
            return Optional.empty();
        }
        return Optional.of(
                previews.of(read.policy().orElseThrow(), read.validFrom().orElseThrow()));
    }

    private void publish() {
        if (!keepDraft()) {
            return;
        }
        refusal.setVisible(false);
        if (draft.isEmpty()) {
            refuse("Nothing differs from what is in force. Change something first.");
            return;
        }
        var step = draft.get();
        previewed(true)
                .ifPresent(now -> new AskingDialog(
                                "Publish " + saved.get(TypedPolicy.NAME).strip() + "?",
                                List.of(
                                        new Paragraph("It counts from " + DayWords.date(now.asOf()) + ". Of "
                                                + now.lines().size() + " open referrals "
                                                + PolicyWords.summary(
                                                        now.moving().size(),
                                                        now.otherWorkUp().size(),
                                                        now.staying().size())
                                                + "."),
                                        new Paragraph(
                                                "Those that move come up in the queue with the difference. A version is never"
                                                        + " changed or taken back; another one can follow it.")),
                                "Publish",
                                () -> published(step))
                        .open());
    }

    private Optional<String> published(long step) {
        try {
            var version = drafts.publish(step);
            say(version.policy().id() + " is published and counts from " + DayWords.date(version.validFrom()) + ".");
            show();
            return Optional.empty();
        } catch (NotPossibleException no) {
            return Optional.of(Objects.requireNonNullElse(no.getMessage(), "It cannot be published."));
        }
    }

    private void discard() {
        draft.ifPresentOrElse(
                step -> attempt(() -> {
                    drafts.discard(step);
                    say("The draft is put away. The fields show what is in force.");
                    show();
                }),
                this::show);
    }

    private void attempt(Runnable act) {
        refusal.setVisible(false);
        try {
            act.run();
        } catch (NotPossibleException no) {
            refuse(Objects.requireNonNullElse(no.getMessage(), "This is not possible."));
        }
    }

    private void refuse(String why) {
        refusal.removeAll();
        refusal.setText(why);
        refusal.setVisible(true);
    }

    private void say(String words) {
        said.setText(words);
    }

    private LocalDate today() {
        return referrals.today();
    }

    private static String savedBy(PolicyDraft draft) {
        return "Draft saved by " + draft.author() + ", " + DayWords.moment(draft.at()) + ".";
    }
}
