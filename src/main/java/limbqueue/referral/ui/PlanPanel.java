package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.HasComponents;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.referral.PlanWords;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Access;
import limbqueue.triage.ProcedurePlan.RoomItem;

/** How the procedure may be done: ways in, what must be in the room, what to think of; the why of each on demand. */
class PlanPanel extends Section {

    private final boolean inShort;

    PlanPanel(ReferralPage page) {
        this(page, false);
    }

    private PlanPanel(ReferralPage page, boolean inShort) {
        this.inShort = inShort;
        addClassNames("lq-panel", "lq-plan");
        setClassName("lq-plan-in-short", inShort);
        var heading = new H2("Procedure plan");
        heading.addClassName("lq-panel-title");
        add(heading);
        page.proposal()
                .procedurePlan()
                .ifPresentOrElse(
                        plan -> show(plan, page),
                        () -> add(Markup.paragraph("lq-soft", "None proposed: only advice is.")));
    }

    /** The reasons of each part stand together behind one word. */
    static PlanPanel inShort(ReferralPage page) {
        return new PlanPanel(page, true);
    }

    /** What is proposed, and why. */
    private record Line(String text, String standing, String why, String source, boolean needed) {

        Line(String text, String standing, String why, String source) {
            this(text, standing, why, source, false);
        }
    }

    private void show(ProcedurePlan plan, ReferralPage page) {
        var minutes = Markup.paragraph("lq-plan-lead", "");
        minutes.add(
                Markup.text("lq-plan-legs", PlanWords.legs(plan.sides())),
                Markup.text("lq-plan-minutes", PlanWords.minutes(plan)));
        var basis = new NativeDetails("How sure the minutes are", Markup.paragraph("lq-soft", plan.minutesBasis()));
        basis.addClassName("lq-reasons");
        add(minutes, basis);
        var parts = Markup.div("lq-plan-parts");
        if (!plan.targets().isEmpty()) {
            parts.add(lines(
                    "Treated, inflow first",
                    plan.targets().stream().map(target -> new Line(target.text(), "", target.why(), target.source()))));
            parts.add(ways(plan));
        }
        if (!plan.bailOut().isEmpty()) {
            parts.add(lines(
                    "If these fail",
                    plan.bailOut().stream()
                            .map(way -> new Line(PlanWords.together(way.sites()), "", way.why(), way.source()))));
        }
        if (!plan.room().isEmpty()) {
            parts.add(lines(
                    "In the room",
                    plan.room().stream()
                            .sorted(Comparator.comparing(thing -> !thing.mustBeInRoom()))
                            .map(PlanPanel::inTheRoom)));
        }
        if (!plan.cautions().isEmpty()) {
            parts.add(lines(
                    "To think of",
                    plan.cautions().stream()
                            .map(caution -> new Line(
                                    caution.text(),
                                    "",
                                    caution.because().isEmpty()
                                            ? "The lesions as they are known."
                                            : EvidenceWords.sentence(caution.because(), page.draft()),
                                    caution.source()))));
        }
        parts.add(part("Sedation", Markup.paragraph("lq-plan-text", plan.sedation())));
        if (!plan.targets().isEmpty()) {
            parts.add(tools(plan));
        }
        add(parts);
    }

    private static Div part(String title, Component content) {
        var heading = new H3(title);
        heading.addClassName("lq-plan-title");
        return Markup.div("lq-plan-part", heading, content);
    }

    private Component lines(String title, Stream<Line> lines) {
        return lines(title, new UnorderedList(), lines.toList());
    }

    private <L extends Component & HasComponents> Component lines(String title, L list, List<Line> lines) {
        lines.forEach(line -> {
            var entry = entry(line);
            if (!inShort) {
                entry.add(why(line.why(), line.source()));
            }
            list.add(entry);
        });
        var part = part(title, list);
        if (inShort) {
            var together = new NativeDetails("Why");
            together.addClassName("lq-reasons");
            var reasons = Markup.div("lq-why");
            lines.forEach(line -> reasons.add(
                    Markup.text("lq-reason-text", line.text() + ": " + line.why()),
                    Markup.text("lq-cited", line.source())));
            together.setContent(reasons);
            part.addComponentAtIndex(1, together);
        }
        return part;
    }

    /** Attempts in their order; with both legs each step says for which it is. */
    private Component ways(ProcedurePlan plan) {
        var list = new OrderedList();
        var part = lines(
                "Ways in",
                list,
                plan.access().stream()
                        .map(step -> new Line(
                                PlanWords.together(step.sites()), standing(plan, step), step.why(), step.source()))
                        .toList());
        var entries = list.getChildren().toList();
        for (var i = 0; i < entries.size(); i++) {
            entries.get(i)
                    .getElement()
                    .setAttribute("value", String.valueOf(plan.access().get(i).order()));
        }
        return part;
    }

    private static String standing(ProcedurePlan plan, Access step) {
        return plan.sides().size() == step.sides().size() ? "" : PlanWords.legs(step.sides());
    }

    private static Line inTheRoom(RoomItem thing) {
        return new Line(
                thing.item(),
                thing.mustBeInRoom() ? "before the case starts" : "",
                thing.why(),
                thing.source(),
                thing.mustBeInRoom());
    }

    /** What the operator chooses from, folded away: a physician who triages seldom needs it. */
    private static Component tools(ProcedurePlan plan) {
        var details = new NativeDetails("Sheaths, support, wires and views");
        details.addClassName("lq-reasons");
        details.setContent(Markup.div(
                "lq-plan-tools",
                part("Sheaths", list(plan.sheath().stream(), sheath -> new ListItem(PlanWords.sheath(sheath)))),
                part(
                        "Support and wires",
                        list(
                                Stream.concat(plan.support().stream(), plan.wires().stream()),
                                advice -> item(advice.text(), advice.why(), advice.source()))),
                part(
                        "Views",
                        list(
                                plan.projections().stream(),
                                view -> item(view.target() + ": " + view.view(), view.why(), view.source())))));
        return details;
    }

    private static <T> UnorderedList list(Stream<T> entries, Function<T, ListItem> item) {
        var list = new UnorderedList();
        entries.map(item).forEach(list::add);
        return list;
    }

    private static ListItem item(String text, String why, String source) {
        var entry = entry(new Line(text, "", why, source));
        entry.add(why(why, source));
        return entry;
    }

    private static ListItem entry(Line line) {
        var entry = new ListItem(Markup.text("lq-plan-text", line.text()));
        if (!line.standing().isEmpty()) {
            entry.add(Markup.text("lq-soft", line.standing()));
        }
        entry.setClassName("lq-needed", line.needed());
        return entry;
    }

    private static NativeDetails why(String why, String source) {
        var details = new NativeDetails("Why");
        details.addClassName("lq-reasons");
        details.setContent(Markup.div("lq-why", Markup.text("lq-reason-text", why), Markup.text("lq-cited", source)));
        return details;
    }
}
