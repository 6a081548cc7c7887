package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.textfield.TextArea;
import java.util.ArrayList;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.Readiness;
import limbqueue.preparation.ReadinessGate;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Pieces;

/** The gate to the room: whether the case is ready, and what keeps it from it. */
final class GatePanel {

    private final Preparation preparation;
    private final CaseSteps steps;
    private final boolean physician;

    /** @param physician whether the person may override the gate */
    GatePanel(Preparation preparation, CaseSteps steps, boolean physician) {
        this.preparation = preparation;
        this.steps = steps;
        this.physician = physician;
    }

    Component of(PreparationCase prepared) {
        var readiness = prepared.readiness();
        var panel = Pieces.panel("lq-gate", "Room readiness");
        panel.addClassName(
                switch (readiness) {
                    case Readiness.Ready _ -> "lq-gate-open";
                    case Readiness.NotReady _ -> "lq-gate-shut";
                    case Readiness.Overridden _ -> "lq-gate-overridden";
                });
        panel.add(Pieces.paragraph("lq-gate-state", gateState(prepared)));
        if (readiness instanceof Readiness.Overridden(var reasons, var by)) {
            panel.add(Pieces.paragraph(
                    "lq-gate-why", "“" + by.reason() + "” " + by.author() + ", " + Words.moment(by.at())));
        }
        var obstacles = readiness.obstacles();
        if (!obstacles.isEmpty()) {
            var list = new UnorderedList();
            list.addClassName("lq-obstacles");
            obstacles.forEach(obstacle -> {
                var line = new ListItem(Pieces.text("lq-obstacle", obstacle.what()));
                // What to do about the work-up stands beside each item below.
                if (obstacle.kind() != Readiness.Kind.WORK_UP) {
                    line.add(Pieces.text("lq-quiet", obstacle.remedy()));
                }
                list.add(line);
            });
            panel.add(list);
        }
        if (readiness instanceof Readiness.NotReady && prepared.override().isPresent()) {
            var fallen = prepared.override().get();
            panel.add(Pieces.paragraph(
                    "lq-quiet",
                    "The override that " + fallen.author() + " gave on " + Words.moment(fallen.at())
                            + " holds no more: it was given for other facts."));
        }
        var actions = Pieces.div("lq-row-actions lq-gate-actions");
        var id = prepared.id();
        if (prepared.record().isEmpty()) {
            if (prepared.inRoom()) {
                actions.add(Pieces.small(
                        "Take back from the room",
                        "Take back from the room",
                        () -> steps.done(id, preparation.takeBack(id), "The case is back from the room.")));
            } else {
                actions.add(Pieces.primary(
                        "Send to the room",
                        () -> steps.done(id, preparation.sendToRoom(id), "The case has gone to the room.")));
                if (physician
                        && readiness instanceof Readiness.NotReady(var reasons)
                        && ReadinessGate.overridable(reasons)) {
                    actions.add(Pieces.small(
                            "Go ahead all the same…",
                            "Override the gate",
                            () -> overriding(prepared).open()));
                }
            }
        }
        panel.add(actions);
        return panel;
    }

    private static String gateState(PreparationCase prepared) {
        if (prepared.record().isPresent()) {
            return "Over";
        }
        var where = prepared.booking()
                .filter(booking -> prepared.inRoom())
                .map(booking -> "In the room since "
                        + Words.moment(booking.readyAt().orElseThrow()) + ", sent by "
                        + booking.readyBy().orElse(""));
        return where.orElseGet(() -> switch (prepared.readiness()) {
            case Readiness.Ready _ -> "Ready for the room";
            case Readiness.NotReady(var reasons) ->
                "Not ready: " + (reasons.size() == 1 ? "1 reason" : reasons.size() + " reasons");
            case Readiness.Overridden(var reasons, var by) -> "Goes ahead by word of " + by.author();
        });
    }

    private AskingDialog overriding(PreparationCase prepared) {
        var id = prepared.id();
        var reason = new TextArea("Why the case goes ahead all the same");
        reason.setWidthFull();
        var fields = new ArrayList<Component>();
        fields.add(reason);
        prepared.readiness().obstacles().forEach(obstacle -> fields.add(Pieces.paragraph("lq-quiet", obstacle.what())));
        fields.add(Pieces.paragraph(
                "lq-quiet", "It holds for exactly these facts, and falls as soon as one of them changes."));
        return new AskingDialog(
                "Go ahead although the case is not ready",
                fields,
                "Go ahead",
                () -> steps.refusal(
                        id,
                        preparation.override(id, prepared.facts(), reason.getValue()),
                        "The case goes ahead by your word."));
    }
}
