package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.referral.PlanWords;
import limbqueue.shell.Notice;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.LegResult;

/** The proposal as it is beside the one that other facts would lead to. */
class WhatIfPanel extends Section {

    private static final String NONE = "none";

    WhatIfPanel() {
        addClassNames("lq-panel", "lq-what-if-panel");
        getElement()
                .setAttribute("aria-label", "What it would change")
                .setAttribute("aria-live", "polite")
                .setAttribute("tabindex", "0");
    }

    void show(ReferralPage present, Draft supposed, TriageResult then) {
        removeAll();
        var heading = new H2("What it would change");
        heading.addClassName("lq-panel-title");
        add(heading, facts(present, supposed));
        var head = new NativeTableHeader();
        head.add(new NativeTableRow(
                new NativeTableCell(), Markup.columnHeading("As it is"), Markup.columnHeading("What if")));
        var body = new NativeTableBody();
        var now = present.proposal();
        row(
                body,
                "Urgency",
                now,
                then,
                result -> DecisionWords.tier(
                        result.urgency().tier(), result.urgency().targetDate()));
        row(
                body,
                "Could also be",
                now,
                then,
                result -> TierWords.possible(result.urgency().possible()));
        row(body, "Because", now, then, result -> result.urgency().because());
        for (var side : GradeWords.AS_PATIENT_FACES) {
            var leg = GradeWords.leg(side);
            row(
                    body,
                    leg + ", Rutherford",
                    now,
                    then,
                    result -> rutherford(result.legs().of(side)));
            row(
                    body,
                    leg + ", Fontaine",
                    now,
                    then,
                    result -> fontaine(result.legs().of(side)));
            row(body, leg + ", WIfI", now, then, result -> wifi(result.legs().of(side)));
        }
        row(
                body,
                "Red flags",
                now,
                then,
                result -> listed(result.redFlags().stream().map(flag -> FlagWords.inShort(flag.code()))));
        row(
                body,
                "Plan",
                now,
                then,
                result -> result.procedurePlan()
                        .map(plan -> PlanWords.legs(plan.sides()) + ", " + PlanWords.minutes(plan))
                        .orElse(NONE));
        row(
                body,
                "Ways in",
                now,
                then,
                result -> plan(
                        result,
                        plan -> plan.access().stream()
                                .map(step -> step.order() + ". " + PlanWords.together(step.sites()))));
        row(
                body,
                "In the room before it starts",
                now,
                then,
                result -> plan(
                        result,
                        plan -> plan.room().stream()
                                .filter(RoomItem::mustBeInRoom)
                                .map(RoomItem::item)));
        row(
                body,
                "Work-up needed",
                now,
                then,
                result -> listed(result.workUp().stream()
                        .filter(TriageResult.WorkUpItem::needed)
                        .map(TriageResult.WorkUpItem::text)));
        row(
                body,
                "Questions",
                now,
                then,
                result -> String.valueOf(result.questions().size()));
        var table = new NativeTable();
        table.add(head, body);
        add(table, new Notice(then.notice()));
    }

    private static UnorderedList facts(ReferralPage present, Draft supposed) {
        var list = new UnorderedList();
        list.addClassName("lq-what-if-facts");
        var changes = DocumentChanges.between(present.draft(), supposed);
        if (changes.isEmpty()) {
            list.add(new ListItem("No fact is changed yet."));
        }
        changes.forEach(change ->
                list.add(new ListItem(change.field() + ": " + change.before() + " would be " + change.now() + ".")));
        return list;
    }

    private static void row(
            NativeTableBody body,
            String what,
            TriageResult now,
            TriageResult then,
            Function<TriageResult, String> say) {
        var before = say.apply(now);
        var after = say.apply(then);
        var row = new NativeTableRow(
                Markup.rowHeading(what),
                new NativeTableCell(before),
                new NativeTableCell(before.equals(after) ? "the same" : after));
        row.setClassName("lq-what-if-other", !before.equals(after));
        body.add(row);
    }

    private static String rutherford(LegResult leg) {
        return open(TierWords.category(leg.rutherford().category()), GradeWords.possible(leg.rutherford()));
    }

    private static String fontaine(LegResult leg) {
        return open(leg.fontaine().grade().label(), GradeWords.possible(leg.fontaine()));
    }

    private static String wifi(LegResult leg) {
        return leg.wifi()
                .map(wifi -> open(
                        "stage " + wifi.stage() + ", W" + wifi.wound() + " I" + wifi.ischaemia() + " fI"
                                + wifi.infection(),
                        GradeWords.possible(wifi)))
                .orElse("no foot");
    }

    private static String open(String grade, String possible) {
        return possible.isEmpty() ? grade : grade + "; " + possible;
    }

    private static String plan(TriageResult result, Function<ProcedurePlan, Stream<String>> part) {
        return listed(result.procedurePlan().stream().flatMap(part));
    }

    private static String listed(Stream<String> entries) {
        return Optional.of(entries.collect(Collectors.joining("; ")))
                .filter(words -> !words.isEmpty())
                .orElse(NONE);
    }
}
