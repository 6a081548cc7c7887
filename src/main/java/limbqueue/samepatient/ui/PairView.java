package limbqueue.samepatient.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.Role;
import limbqueue.document.Draft;
import limbqueue.referral.MergeOutcome;
import limbqueue.referral.MergedDocument;
import limbqueue.referral.MergedDocument.Choice;
import limbqueue.referral.MergedDocument.Difference;
import limbqueue.referral.Merging;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.samepatient.Pair;
import limbqueue.samepatient.SamePatient;
import limbqueue.samepatient.Verdict;

/** Two referrals side by side: what differs, what the merged one says at each such place, and what they are. */
@Route("same-patient/:one/:other")
@PageTitle("Same patient? · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/samepatient.css")
class PairView extends Div implements BeforeEnterObserver {

    private final SamePatient samePatient;
    private final Merging merging;
    private final Referrals referrals;
    private final Map<String, Choice> choices = new HashMap<>();

    PairView(SamePatient samePatient, Merging merging, Referrals referrals) {
        this.samePatient = samePatient;
        this.merging = merging;
        this.referrals = referrals;
        addClassNames("lq-list-view", "lq-pair-page");
    }

    /** @param whole the referral that goes on if the two are merged */
    private record Shown(Pair pair, Referral whole, Referral part) {

        static Shown of(Pair pair, Referrals referrals) {
            var one = referrals.get(pair.one().id());
            var other = referrals.get(pair.other().id());
            // What has got further goes on; of two that stand alike, the older.
            return further(other) > further(one) ? new Shown(pair, other, one) : new Shown(pair, one, other);
        }

        private static int further(Referral referral) {
            return switch (referral.state()) {
                case DRAFT -> 0;
                case QUEUED -> 1;
                case INFORMATION_NEEDED -> 2;
                case APPROVED, RETURNED, SENT_TO_HOSPITAL -> 3;
            };
        }
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var one = event.getRouteParameters().getLong("one");
        var other = event.getRouteParameters().getLong("other");
        if (one.isEmpty() || other.isEmpty() || one.equals(other)) {
            event.rerouteToError(NotFoundException.class, "There is no such pair of referrals.");
            return;
        }
        try {
            show(Shown.of(samePatient.pair(one.get(), other.get()), referrals), Optional.empty());
        } catch (ReferralNotFoundException missing) {
            event.rerouteToError(NotFoundException.class, missing.getMessage());
        }
    }

    private void show(Shown shown, Optional<String> said) {
        removeAll();
        choices.clear();
        var head = new Div(new H1("Same patient?"), new Anchor("same-patient", "All pairs"));
        head.addClassName("lq-list-head");
        add(head);
        said.ifPresent(words -> add(says(words)));
        var verdict = samePatient.verdict(shown.whole().id(), shown.part().id());
        var merged = merging.wholeOf(shown.part().id()).filter(now -> now.whole() == shown.whole().id());
        var why = new Paragraph(Words.likely(shown.pair().likeness()) + " one person: "
                + String.join(", ", shown.pair().likeness().reasons()) + ".");
        why.addClassName("lq-pair-lead");
        add(why);
        if (merged.isPresent()) {
            add(undo(shown));
            return;
        }
        verdict.ifPresent(last -> add(judged(shown, last)));
        var notPossible = merging.whyNot(shown.whole().id(), shown.part().id());
        var differences = MergedDocument.differences(
                Draft.of(shown.whole().document()), Draft.of(shown.part().document()));
        add(actions(shown, notPossible, differences), table(shown, differences, notPossible.isEmpty()));
    }

    private static Component says(String words) {
        var line = new Paragraph(words);
        line.addClassName("lq-said");
        line.getElement().setAttribute("role", "status");
        return line;
    }

    private Component actions(Shown shown, Optional<String> notPossible, List<Difference> differences) {
        var bar = new Div();
        bar.addClassName("lq-pair-actions");
        if (notPossible.isEmpty()) {
            var merge = new Button("Same person: merge", _ -> merge(shown, differences));
            merge.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
            bar.add(merge);
        }
        bar.add(new Button(
                notPossible.isEmpty() ? "Same person, two referrals" : "Same person: both stay",
                _ -> say(shown, Verdict.SAME_PERSON)));
        bar.add(new Button("Two people: keep apart", _ -> say(shown, Verdict.TWO_PEOPLE)));
        var what = new Paragraph(
                notPossible.orElseGet(() -> "Merged, " + shown.part().reference() + " becomes part of "
                        + shown.whole().reference()
                        + " and leaves the lists. Its document, letters and timeline stay, and it can be"
                        + " taken out again at any time."
                        + (shown.whole().state() == ReferralState.APPROVED
                                ? " " + shown.whole().reference()
                                        + " is approved: new facts may put it before the physician again."
                                : "")));
        what.addClassName("lq-notice");
        var block = new Div(bar, what);
        block.addClassName("lq-pair-decide");
        return block;
    }

    private Component table(Shown shown, List<Difference> differences, boolean choose) {
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-pair-table");
        var header = new NativeTableRow();
        header.add(
                column("Differs"),
                column(shown.whole().reference() + ", " + Words.of(shown.whole().state())
                        + (choose ? ": goes on" : "")),
                column(shown.part().reference() + ", " + Words.of(shown.part().state())
                        + (choose ? ": becomes its part" : "")));
        if (choose) {
            header.add(column("Merged"));
        }
        var body = new NativeTableBody();
        for (var difference : differences) {
            body.add(row(difference, choose));
        }
        table.add(new NativeTableHeader(header), body);
        if (differences.isEmpty()) {
            var same = new Paragraph("The two say exactly the same.");
            same.addClassName("lq-nothing");
            return same;
        }
        var scrolls = new Div(table);
        scrolls.addClassName("lq-pair-scrolls");
        return scrolls;
    }

    private static NativeTableHeaderCell column(String words) {
        var cell = new NativeTableHeaderCell(words);
        cell.getElement().setAttribute("scope", "col");
        return cell;
    }

    private NativeTableRow row(Difference difference, boolean choose) {
        var name = new NativeTableHeaderCell(Words.field(difference.place()));
        name.getElement().setAttribute("scope", "row");
        var row = new NativeTableRow();
        row.add(name, cell(difference.place(), difference.whole()), cell(difference.place(), difference.part()));
        if (choose) {
            row.add(new NativeTableCell(choice(difference)));
        }
        return row;
    }

    private static NativeTableCell cell(String place, Optional<tools.jackson.databind.JsonNode> value) {
        var words = new Span(Words.value(place, value));
        words.getElement().setAttribute("dir", "auto");
        words.setClassName("lq-not-known", value.isEmpty());
        return new NativeTableCell(words);
    }

    /** One button a choice; the one pressed is what the merged referral says. */
    private Component choice(Difference difference) {
        var field = Words.field(difference.place());
        var group = new Div();
        group.addClassName("lq-filters");
        group.getElement().setAttribute("role", "group").setAttribute("aria-label", field + ", merged");
        var buttons = new ArrayList<NativeButton>();
        for (var choice : difference.choices()) {
            var button = new NativeButton(
                    switch (choice) {
                        case WHOLE -> "first";
                        case PART -> "second";
                        case BOTH -> "both";
                    });
            button.addClassName("lq-chip");
            button.getElement().setAttribute("aria-label", field + ": " + button.getText());
            button.addClickListener(_ -> {
                choices.put(difference.place(), choice);
                buttons.forEach(
                        other -> other.getElement().setAttribute("aria-pressed", String.valueOf(other.equals(button))));
            });
            button.getElement().setAttribute("aria-pressed", String.valueOf(choice == difference.proposed()));
            buttons.add(button);
            group.add(button);
        }
        return group;
    }

    private void merge(Shown shown, List<Difference> differences) {
        var document = MergedDocument.of(
                Draft.of(shown.whole().document()), Draft.of(shown.part().document()), Map.copyOf(choices));
        switch (merging.merge(
                shown.whole().id(),
                shown.whole().version(),
                shown.part().id(),
                shown.part().version(),
                document.toJson())) {
            case MergeOutcome.Done done ->
                again(
                        shown,
                        "Merged: " + done.part().reference() + " is part of "
                                + done.whole().reference() + " now."
                                + (done.changes().isEmpty()
                                        ? ""
                                        : " " + done.whole().reference() + " is before the physician again: "
                                                + String.join(" ", done.changes())));
            case MergeOutcome.Changed changed ->
                again(
                        shown,
                        "Nothing was merged: " + changed.now().reference()
                                + " changed meanwhile. Here it is as it is now; choose again.");
            case MergeOutcome.NotPossible(var why) -> again(shown, "Nothing was merged. " + why);
        }
    }

    private Component undo(Shown shown) {
        var open = new Anchor(
                "referrals/" + shown.whole().id(), "Open " + shown.whole().reference());
        var undo = new Button("Undo: take " + shown.part().reference() + " out again", _ -> {
            var words = Separating.words(merging.separate(shown.part().id()));
            again(shown, words);
        });
        var bar = new Div(open, undo);
        bar.addClassName("lq-pair-actions");
        return bar;
    }

    private Component judged(Shown shown, Verdict verdict) {
        var words = new Span(
                verdict == Verdict.SAME_PERSON
                        ? "Said to be one person with two referrals."
                        : "Said to be two people, and not asked about again.");
        var back = new Button("Take back", _ -> say(shown, Verdict.TAKEN_BACK));
        var line = new Div(words, back);
        line.addClassName("lq-said");
        return line;
    }

    private void say(Shown shown, Verdict verdict) {
        samePatient.say(shown.whole().id(), shown.part().id(), verdict);
        again(
                shown,
                switch (verdict) {
                    case SAME_PERSON -> "Kept: one person. Each of the two referrals shows the other.";
                    case TWO_PEOPLE -> "Kept: two people. The pair is not asked about again.";
                    case TAKEN_BACK -> "Taken back. The pair is asked about again.";
                });
    }

    private void again(Shown shown, String said) {
        show(Shown.of(samePatient.pair(shown.whole().id(), shown.part().id()), referrals), Optional.of(said));
    }
}
