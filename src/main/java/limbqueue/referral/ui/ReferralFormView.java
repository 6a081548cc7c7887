package limbqueue.referral.ui;

import com.vaadin.flow.component.DetachEvent;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.notification.Notification;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.BeforeLeaveEvent;
import com.vaadin.flow.router.BeforeLeaveObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.directory.Directory;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.document.Reading;
import limbqueue.file.ReferralFiles;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.Merging;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.referral.SubmitOutcome;
import limbqueue.shell.EntryWatch;
import limbqueue.shell.KeepsWhatIsTyped;
import limbqueue.triage.TriageResult;
import org.springframework.beans.factory.ObjectProvider;

/** One referral as it is entered, with the proposal beside it. */
@Route("referrals/:id/edit")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
class ReferralFormView extends Div
        implements BeforeEnterObserver, BeforeLeaveObserver, HasDynamicTitle, KeepsWhatIsTyped {

    private final Referrals referrals;
    private final Merging merging;
    private final ObjectProvider<EntryWatch> watches;
    private final Directory directory;
    private final CurrentPerson currentPerson;
    private final ReferralFiles files;

    private final H1 title = new H1();
    private final Span saveLine = new Span();
    private final Section mend = new Section();
    private final Section notTakenIn = new Section();
    private final Button undo = new Button("Undo", _ -> withForm(ReferralForm::undo));
    private final Button redo = new Button("Redo", _ -> withForm(ReferralForm::redo));

    private String pageTitle = "Referral";
    private Optional<Editing> editing = Optional.empty();
    private List<Problem> shownProblems = List.of();
    private List<EntryWatch.Watching> watching = List.of();
    private boolean inConflict;
    private boolean handedOver;

    /**
     * What is being edited.
     *
     * @param saved the referral as last saved
     * @param draft what is typed now
     */
    private record Editing(Referral saved, Draft draft, ReferralForm form, SectionList sections, ProposalPanel panel) {

        boolean hasChanges() {
            return !draft.toJson().equals(Draft.of(saved.document()).toJson());
        }

        Editing with(Referral nowSaved) {
            return new Editing(nowSaved, draft, form, sections, panel);
        }
    }

    ReferralFormView(
            Referrals referrals,
            Merging merging,
            ObjectProvider<EntryWatch> watches,
            Directory directory,
            CurrentPerson currentPerson,
            ReferralFiles files) {
        this.files = files;
        this.referrals = referrals;
        this.merging = merging;
        this.watches = watches;
        this.directory = directory;
        this.currentPerson = currentPerson;
        addClassName("lq-form-view");
        saveLine.addClassName("lq-save-line");
        saveLine.getElement().setAttribute("role", "status");
        mend.addClassName("lq-mend");
        mend.setVisible(false);
        mend.getElement().setAttribute("aria-label", "To mend");
        notTakenIn.addClassName("lq-mend");
        notTakenIn.setVisible(false);
        notTakenIn.getElement().setAttribute("aria-label", "Typed before, and not put in");
        undo.addThemeVariants(ButtonVariant.LUMO_TERTIARY);
        redo.addThemeVariants(ButtonVariant.LUMO_TERTIARY);
    }

    @Override
    public String getPageTitle() {
        return pageTitle;
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var id = event.getRouteParameters().getLong("id").orElseThrow(NotFoundException::new);
        try {
            if (merging.wholeOf(id).isPresent()) {
                // A part rests: it is read, and not entered.
                event.forwardTo("referrals/" + id);
                return;
            }
            open(referrals.get(id));
        } catch (ReferralNotFoundException unknown) {
            event.rerouteToError(NotFoundException.class, unknown.getMessage());
        }
    }

    @Override
    public void beforeLeave(BeforeLeaveEvent event) {
        if (!keep()) {
            event.postpone();
        }
    }

    @Override
    public boolean keep() {
        var kept = handedOver || save();
        if (kept) {
            editing.map(Editing::saved).ifPresent(this::letTheBrowserForget);
        }
        return kept;
    }

    private void letTheBrowserForget(Referral referral) {
        getUI().ifPresent(ui -> ui.getPage().executeJs("sessionStorage.removeItem($0)", shelf(referral)));
    }

    /** Under which name the browser keeps what is not known to be saved: nobody else's page reads it. */
    private String shelf(Referral referral) {
        return "lq-typed-" + currentPerson.get().id() + "-" + referral.id();
    }

    @Override
    protected void onDetach(DetachEvent detachEvent) {
        super.onDetach(detachEvent);
        if (!handedOver && !inConflict) {
            editing.filter(Editing::hasChanges)
                    .ifPresent(now -> referrals.save(
                            now.saved().id(), now.saved().version(), now.draft().toJson()));
        }
    }

    private void open(Referral referral) {
        removeAll();
        editing = Optional.empty();
        pageTitle = "Referral " + referral.reference();
        if (TierWords.isOpen(referral.state())) {
            edit(referral, Draft.of(referral.document()));
        } else {
            var page = new Anchor("referrals/" + referral.id(), "Open the referral");
            add(
                    new H1(pageTitle),
                    new Paragraph(TierWords.of(referral.state())
                            + ": a referral that has been decided is not changed any more."),
                    page);
        }
    }

    private void edit(Referral referral, Draft draft) {
        removeAll();
        var panel = new ProposalPanel(this::goTo);
        var form = new ReferralForm(draft, Suggestions.from(directory), this::changed);
        var sections = new SectionList();
        listen(form);
        form.getElement().setAttribute("data-shelf", shelf(referral));
        editing = Optional.of(new Editing(referral, draft, form, sections, panel));

        var state = new Span(TierWords.of(referral.state()));
        state.addClassName("lq-state");
        var head = new Div(title, state, saveLine, actions(referral));
        head.addClassName("lq-form-head");

        var middle = new Div();
        middle.addClassName("lq-form-middle");
        asked(referral).ifPresent(middle::add);
        watching =
                watches.orderedStream().map(watch -> watch.watch(referral.id())).toList();
        watching.forEach(watch -> middle.add(watch.component()));
        middle.add(mend, notTakenIn, letterAndFiles(referral, draft), form, foot());

        var columns = new Div(sections, middle, panel);
        columns.addClassName("lq-form-columns");
        add(head, columns);

        saveLine.setText("Saved " + TierWords.moment(referral.savedAt()) + " by " + referral.savedBy());
        propose();
        form.getElement().callJsFunction("leftOver");
        if (referral.state() == ReferralState.DRAFT && draft.get("patient").isEmpty()) {
            form.begin();
        }
    }

    private void listen(ReferralForm form) {
        var element = form.getElement();
        element.addEventListener("lq-save", event -> {
                    if (save()) {
                        form.saved(
                                event.getEventData().get("event.detail.until").asInt());
                    }
                })
                .addEventData("event.detail.until");
        element.addEventListener("lq-undo", _ -> form.undo());
        element.addEventListener("lq-redo", _ -> form.redo());
        element.addEventListener("lq-submit", _ -> {
            if (editing.map(now -> canBeSubmitted(now.saved().state())).orElse(false)) {
                submit();
            }
        });
        element.addEventListener(
                        "lq-left-over",
                        event -> takeIn(
                                form,
                                event.getEventData().get("event.detail.notes").asString()))
                .addEventData("event.detail.notes");
    }

    private static boolean canBeSubmitted(ReferralState state) {
        return state == ReferralState.DRAFT || state == ReferralState.INFORMATION_NEEDED;
    }

    /** Takes in what was typed on an earlier page, and tells what was not. */
    private void takeIn(ReferralForm form, String notes) {
        var refused = form.takeIn(LeftOver.read(notes));
        notTakenIn.removeAll();
        notTakenIn.setVisible(!refused.isEmpty());
        var heading =
                new Span("Typed here before the page was left, and not put in: the referral says something else now.");
        heading.addClassName("lq-mend-heading");
        var list = new UnorderedList();
        for (var typed : refused) {
            var field = new NativeButton(FieldWords.of(typed.path()), _ -> goTo(typed.path()));
            field.addClassName("lq-link");
            list.add(new ListItem(field, new Span(": “" + typed.value() + "”")));
        }
        notTakenIn.add(heading, list);
    }

    /** What can be taken back, what the keys do, and what the form says. */
    private Div foot() {
        var says = new Span();
        says.addClassName("lq-form-says");
        says.getElement().setAttribute("role", "status");
        var keys = new Span("Enter: next likely field. Tab: every field. Y, N, U or a first letter answers."
                + " F2: next question. F4: other leg the same. F8: next part. Ctrl+Enter: to the physician.");
        keys.addClassName("lq-keys");
        var steps = new Div(undo, redo);
        steps.addClassName("lq-form-steps");
        var foot = new Div(steps, says, keys);
        foot.addClassName("lq-form-foot");
        return foot;
    }

    private void withForm(Consumer<ReferralForm> action) {
        editing.map(Editing::form).ifPresent(action);
    }

    private void showSteps(ReferralForm form) {
        showStep(undo, "Undo", form.undoWords());
        showStep(redo, "Redo", form.redoWords());
    }

    private static void showStep(Button button, String verb, String words) {
        button.setText(words.isEmpty() ? verb : verb + ": " + words);
        button.setEnabled(!words.isEmpty());
    }

    /** The files that came with the referral, and the way to what its letter proposes. */
    private Section letterAndFiles(Referral referral, Draft draft) {
        var letter = new Anchor(
                "intake/letter?referral=" + referral.id(),
                draft.get("letterText").isPresent() ? "Read its letter" : "Add a letter or a file");
        var block = new Section(letter);
        block.addClassName("lq-form-files");
        block.getElement().setAttribute("aria-label", "Letter and files");
        var kept = merging.filesOf(referral.id());
        if (!kept.isEmpty()) {
            block.add(new FileList(kept, files));
        }
        return block;
    }

    private Div actions(Referral referral) {
        var actions = new Div();
        actions.addClassName("lq-actions");
        actions.add(new Anchor("referrals/" + referral.id() + "/chasing", "Records and calls"));
        switch (referral.state()) {
            case DRAFT -> actions.add(submitButton("Put before the physician"));
            case INFORMATION_NEEDED -> actions.add(submitButton("Put before the physician again"));
            case QUEUED, APPROVED, RETURNED, SENT_TO_HOSPITAL ->
                actions.add(new Button("Back to the list", _ -> leave()));
        }
        return actions;
    }

    private Button submitButton(String text) {
        var button = new Button(text, _ -> submit());
        button.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        return button;
    }

    /** What the physician asked for, when the referral came back for information. */
    private Optional<Section> asked(Referral referral) {
        if (referral.state() != ReferralState.INFORMATION_NEEDED) {
            return Optional.empty();
        }
        return referrals.decisions(referral.id()).stream()
                .filter(decision -> decision.kind() == DecisionKind.INFORMATION_ASKED)
                .findFirst()
                .map(decision -> {
                    var who = new Span(decision.author() + " asked on " + TierWords.moment(decision.at()) + ":");
                    who.addClassName("lq-asked-who");
                    var what = new Paragraph(decision.reason());
                    var block = new Section(who, what);
                    block.addClassName("lq-asked");
                    block.getElement().setAttribute("aria-label", "What the physician asked");
                    return block;
                });
    }

    private void changed() {
        saveLine.setText("Not saved yet");
        propose();
        editing.ifPresent(now -> now.form().saveSoon());
    }

    private void propose() {
        editing.ifPresent(now -> {
            var reading = now.draft().read(referrals.today());
            var result = referrals.propose(reading);
            now.panel().show(result, now.draft());
            watching.forEach(watch -> watch.typed(now.draft().toJson()));
            now.form().tell(reading.problems(), result.contradictions());
            now.form().showArteries(reading, result);
            now.form().ask(result.questions(), question -> ProposalPanel.askBy(question, result.asOf()) + ".");
            showSteps(now.form());
            now.sections().show(section -> now.form().progress(section, reading.problems(), result.questions()));
            showProblems(now.form().inOrder(reading.problems()));
            showTitle(now, reading, result);
        });
    }

    private void showTitle(Editing now, Reading reading, TriageResult result) {
        var patient = reading.document().patient();
        var name = Stream.of(patient.family(), patient.given())
                .flatMap(Optional::stream)
                .collect(Collectors.joining(", "));
        title.setText((name.isEmpty() ? "New referral" : name) + " · "
                + result.reference().orElse(now.saved().reference()));
    }

    private void showProblems(List<Problem> problems) {
        if (problems.equals(shownProblems)) {
            return;
        }
        shownProblems = problems;
        mend.removeAll();
        mend.setVisible(!problems.isEmpty());
        if (problems.isEmpty()) {
            return;
        }
        var heading = new Span(
                problems.size() == 1
                        ? "1 value cannot be right. It is kept as typed, and counts as not known."
                        : problems.size() + " values cannot be right. They are kept as typed, and count as not known.");
        heading.addClassName("lq-mend-heading");
        var list = new UnorderedList();
        for (var problem : problems) {
            var field = new NativeButton(
                    problem.path().isEmpty() ? "The document" : FieldWords.of(problem.path()),
                    _ -> goTo(problem.path()));
            field.addClassName("lq-link");
            list.add(new ListItem(field, new Span(": " + problem.text())));
        }
        mend.add(heading, list);
    }

    private void goTo(String path) {
        editing.flatMap(now -> now.form().placeFor(path)).ifPresent(Place::goTo);
    }

    /** @return whether everything typed is held safely now; false while two versions must be chosen from */
    private boolean save() {
        if (inConflict) {
            return false;
        }
        if (editing.isEmpty() || !editing.get().hasChanges()) {
            return true;
        }
        var now = editing.get();
        return switch (referrals.save(
                now.saved().id(), now.saved().version(), now.draft().toJson())) {
            case SaveOutcome.Saved(var referral) -> {
                saved(now, referral);
                yield true;
            }
            case SaveOutcome.Conflict(var theirs, var mine) -> {
                resolve(now, theirs, mine);
                yield false;
            }
        };
    }

    private void saved(Editing now, Referral referral) {
        editing = Optional.of(now.with(referral));
        saveLine.setText("Saved " + TierWords.time(referral.savedAt()));
    }

    private void resolve(Editing now, Referral theirs, String mine) {
        inConflict = true;
        saveLine.setText("Not saved: " + theirs.savedBy() + " saved another version");
        var merge = new Merge(now.saved().document(), theirs.document(), mine);
        if (TierWords.isOpen(theirs.state()) && merging.wholeOf(theirs.id()).isEmpty()) {
            ConflictDialog.toChoose(theirs, merge, chosen -> {
                        inConflict = false;
                        letTheBrowserForget(theirs);
                        edit(theirs, Draft.of(chosen));
                        save();
                    })
                    .open();
        } else {
            ConflictDialog.tooLate(theirs, merge, () -> {
                        handedOver = true;
                        getUI().ifPresent(ui -> ui.navigate("referrals/" + theirs.id()));
                    })
                    .open();
        }
    }

    private void submit() {
        if (!save() || editing.isEmpty()) {
            return;
        }
        var now = editing.get();
        switch (referrals.submit(now.saved().id(), now.saved().version())) {
            case SubmitOutcome.Submitted(var referral) -> {
                handedOver = true;
                Notification.show(
                        "Referral " + referral.reference() + " is before the physician.",
                        5000,
                        Notification.Position.BOTTOM_START);
                leave();
            }
            case SubmitOutcome.NotYet(var found) -> {
                var problems = now.form().inOrder(found);
                showProblems(problems);
                now.form().tell(problems, List.of());
                problems.stream().findFirst().ifPresent(problem -> goTo(problem.path()));
            }
            case SubmitOutcome.Conflict(var theirs) ->
                resolve(now, theirs, now.draft().toJson());
        }
    }

    private void leave() {
        getUI().ifPresent(ui -> ui.navigate(ReferralsView.class));
    }
}
