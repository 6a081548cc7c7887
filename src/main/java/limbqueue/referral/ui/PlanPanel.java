package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.Comparator;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.referral.PlanWords;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Access;
import limbqueue.triage.ProcedurePlan.RoomItem;

/** How the procedure may be done: ways in, what must be in the room, what to think of; the why of each on demand. */
class PlanPanel extends Section {

    PlanPanel(ReferralPage page) {
        addClassNames("lq-panel", "lq-plan");
        var heading = new H2("Procedure plan");
        heading.addClassName("lq-panel-title");
        add(heading);
        page.proposal()
                .procedurePlan()
                .ifPresentOrElse(
                        plan -> show(plan, page),
                        () -> add(Markup.paragraph("lq-soft", "None proposed: only advice is.")));
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
            parts.add(part(
                    "Treated, inflow first",
                    list(plan.targets().stream(), target -> item(target.text(), "", target.why(), target.source()))));
            parts.add(part("Ways in", ways(plan)));
        }
        if (!plan.bailOut().isEmpty()) {
            parts.add(part(
                    "If these fail",
                    list(
                            plan.bailOut().stream(),
                            way -> item(PlanWords.together(way.sites()), "", way.why(), way.source()))));
        }
        if (!plan.room().isEmpty()) {
            parts.add(part(
                    "In the room",
                    list(
                            plan.room().stream().sorted(Comparator.comparing(thing -> !thing.mustBeInRoom())),
                            PlanPanel::inTheRoom)));
        }
        if (!plan.cautions().isEmpty()) {
            parts.add(part(
                    "To think of",
                    list(
                            plan.cautions().stream(),
                            caution -> item(
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

    private static Component part(String title, Component content) {
        var heading = new H3(title);
        heading.addClassName("lq-plan-title");
        return Markup.div("lq-plan-part", heading, content);
    }

    /** Attempts in their order; with both legs each step says for which it is. */
    private static Component ways(ProcedurePlan plan) {
        var list = new OrderedList();
        plan.access().forEach(step -> {
            var entry = item(PlanWords.together(step.sites()), standing(plan, step), step.why(), step.source());
            entry.getElement().setAttribute("value", String.valueOf(step.order()));
            list.add(entry);
        });
        return list;
    }

    private static String standing(ProcedurePlan plan, Access step) {
        return plan.sides().size() == step.sides().size() ? "" : PlanWords.legs(step.sides());
    }

    private static ListItem inTheRoom(RoomItem thing) {
        var entry =
                item(thing.item(), thing.mustBeInRoom() ? "before the case starts" : "", thing.why(), thing.source());
        entry.setClassName("lq-needed", thing.mustBeInRoom());
        return entry;
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
                                advice -> item(advice.text(), "", advice.why(), advice.source()))),
                part(
                        "Views",
                        list(
                                plan.projections().stream(),
                                view -> item(view.target() + ": " + view.view(), "", view.why(), view.source())))));
        return details;
    }

    private static <T> UnorderedList list(Stream<T> entries, Function<T, ListItem> item) {
        var list = new UnorderedList();
        entries.map(item).forEach(list::add);
        return list;
    }

    private static ListItem item(String text, String standing, String why, String source) {
        var entry = new ListItem(Markup.text("lq-plan-text", text));
        if (!standing.isEmpty()) {
            entry.add(Markup.text("lq-soft", standing));
        }
        var details = new NativeDetails("Why");
        details.addClassName("lq-reasons");
        details.setContent(Markup.div("lq-why", Markup.text("lq-reason-text", why), Markup.text("lq-cited", source)));
        entry.add(details);
        return entry;
    }
}
