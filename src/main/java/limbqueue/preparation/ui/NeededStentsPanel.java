package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Anchor;
import java.util.Locale;
import java.util.Optional;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.ReadinessGate;
import limbqueue.shell.Pieces;
import limbqueue.triage.plan.StentNeed;

/** The covered stents that must be in the room, and what of the stock fits. */
final class NeededStentsPanel {

    private final Preparation preparation;
    private final CaseSteps steps;
    private final ResultsDialog typing;

    NeededStentsPanel(Preparation preparation, CaseSteps steps, ResultsDialog typing) {
        this.preparation = preparation;
        this.steps = steps;
        this.typing = typing;
    }

    Component of(PreparationCase prepared) {
        var panel = Pieces.panel("lq-needs", "Covered stents in the room");
        if (prepared.needs().isEmpty()) {
            panel.add(Pieces.paragraph(
                    "lq-quiet", "None needed: no iliac occlusion and no calcified iliac narrowing is reported."));
        }
        prepared.needs().forEach(need -> panel.add(need(prepared, need)));
        return panel;
    }

    private Component need(PreparationCase prepared, StentNeed need) {
        var id = prepared.id();
        var vessel = ReadinessGate.vessel(need);
        var block = Pieces.div(
                "lq-need",
                Pieces.paragraph("lq-strong", vessel.substring(0, 1).toUpperCase(Locale.ROOT) + vessel.substring(1)),
                Pieces.paragraph(
                        "lq-line", need.vesselMm().isEmpty() ? "diameter not known" : ReadinessGate.size(need)));
        var open = !prepared.inRoom() && prepared.record().isEmpty();
        if (open && (need.vesselMm().isEmpty() || !need.unknown().isEmpty() || need.sideOpen())) {
            block.add(Pieces.small(
                    "Type in what imaging shows",
                    "Type in what imaging shows of the " + vessel,
                    () -> typing.of(prepared, Optional.empty(), "The " + vessel, ResultFields.of(need))
                            .open()));
        }
        if (need.sideOpen()) {
            return block;
        }
        var side = need.side();
        var confirmed = prepared.confirmed(need);
        if (confirmed.isPresent()) {
            var stent = confirmed.get().stent();
            block.add(Pieces.paragraph(
                    "lq-confirmed",
                    "In the room: " + ReadinessGate.size(stent) + ", " + stent.sheathFrench() + " Fr, lot "
                            + stent.lot() + ", to be used until " + Words.date(stent.expires())));
            block.add(Pieces.paragraph(
                    "lq-quiet",
                    "Seen there by " + confirmed.get().author() + ", "
                            + Words.moment(confirmed.get().at())));
            if (open) {
                block.add(Pieces.small(
                        "Not there after all",
                        "The stent for the " + vessel + " is not there after all",
                        () -> steps.done(
                                id,
                                preparation.withdrawStent(id, side, need.segment()),
                                "The confirmation is withdrawn.")));
            }
            return block;
        }
        if (!open) {
            return block;
        }
        for (var stent : prepared.fitting(need)) {
            var words = ReadinessGate.size(stent) + ", " + stent.sheathFrench() + " Fr, lot " + stent.lot();
            var line = Pieces.div(
                    "lq-fitting",
                    Pieces.text("lq-line", words + ", " + stent.place()),
                    Pieces.text(
                            "lq-quiet",
                            "until " + Words.date(stent.expires()) + "; " + stent.count() + " there"
                                    + (stent.promised() > 0 ? ", " + stent.promised() + " confirmed for cases" : "")));
            if (stent.count() > stent.promised()) {
                line.add(Pieces.small(
                        "It is in the room",
                        words + " is in the room",
                        () -> steps.done(
                                id,
                                preparation.confirmStent(id, side, need.segment(), stent.id()),
                                words + " is confirmed in the room.")));
            }
            block.add(line);
        }
        if (need.vesselMm().isPresent() && prepared.fitting(need).isEmpty()) {
            block.add(
                    Pieces.paragraph("lq-quiet", "None in stock fits."),
                    new Anchor("stents", "Stock of covered stents"));
        }
        return block;
    }
}
