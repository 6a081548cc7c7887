package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.function.Consumer;
import limbqueue.booking.Plan;
import limbqueue.shell.CountedWords;
import limbqueue.shell.DayWords;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.PlanningState;
import limbqueue.timetable.Proposal;
import limbqueue.timetable.Proposal.Move;
import limbqueue.timetable.Proposal.Unplaced;
import limbqueue.triage.TriageResult;

/**
 * The plan that is proposed, as the difference to what is booked.
 *
 * @param accepts whether the person may ask for a plan and accept it
 */
record PlanPanel(boolean accepts, Runnable start, Consumer<Move> accept, Runnable acceptAll) {

    /** Lines at once: what a person reads before asking for the next ones. */
    private static final int LINES = 60;

    Section of(PlanningState state) {
        var panel = Pieces.panel("lq-plan-proposed", "Proposed plan");
        switch (state) {
            case PlanningState.NotAsked _ -> {
                panel.add(Pieces.paragraph(
                        "lq-quiet", "Nobody has asked for a plan yet. It looks 12 weeks ahead and changes nothing."));
                offer(panel, "Propose a plan");
            }
            case PlanningState.Running(var since, var by, var seconds) ->
                panel.add(Pieces.paragraph(
                        "lq-strong",
                        "A plan is being looked for since %s, asked for by %s; the search takes %d seconds at most."
                                .formatted(DayWords.moment(since), by, seconds)));
            case PlanningState.Failed(var why) -> {
                panel.add(Pieces.paragraph("lq-strong", why));
                offer(panel, "Propose a plan");
            }
            case PlanningState.Proposed(var proposal) -> show(panel, proposal);
        }
        panel.add(new Notice(TriageResult.NOTICE));
        return panel;
    }

    private void offer(Section panel, String words) {
        if (accepts) {
            panel.add(new Div(Pieces.small(words, words, start)));
        }
    }

    private void show(Section panel, Proposal proposal) {
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Asked for by %s, %s; until %s."
                        .formatted(proposal.by(), DayWords.moment(proposal.at()), DayWords.date(proposal.lastDay()))));
        var told = proposal.moves().stream().filter(Move::told).count();
        panel.add(Pieces.paragraph(
                "lq-strong",
                proposal.moves().isEmpty()
                        ? "It would change nothing more."
                        : "%d to change%s."
                                .formatted(
                                        proposal.moves().size(),
                                        told == 0
                                                ? ""
                                                : ", of which %s somebody who was told"
                                                        .formatted(CountedWords.of(told, "moves", "move")))));
        if (accepts) {
            var acts = Pieces.div("lq-row-actions");
            if (proposal.moves().stream().anyMatch(move -> !move.told())) {
                acts.add(Pieces.small("Accept all", "Accept all that move nobody who was told", acceptAll));
            }
            acts.add(Pieces.small("Plan anew", "Plan anew", start));
            panel.add(acts);
        }
        var moves = new OrderedList();
        moves.addClassName("lq-moves");
        proposal.moves().stream().limit(LINES).forEach(move -> moves.add(line(move)));
        if (!proposal.moves().isEmpty()) {
            panel.add(moves);
        }
        if (proposal.moves().size() > LINES) {
            panel.add(Pieces.paragraph(
                    "lq-quiet",
                    "And %d more, once these are accepted."
                            .formatted(proposal.moves().size() - LINES)));
        }
        more(panel, "Without a whole way (%d)", proposal.unplaced());
        more(panel, "Needs no place (%d)", proposal.notQueued());
        panel.add(new NativeDetails("How good it is, level by level", levels(proposal.levels())));
    }

    private ListItem line(Move move) {
        var who = new Anchor(
                "referrals/" + move.referralId() + "/preparation",
                move.patient().isBlank() ? move.reference() : move.patient());
        var item = new ListItem(
                Pieces.div(
                        "lq-move-what",
                        who,
                        new Span("%s, %d min".formatted(move.step().words(), move.minutes()))),
                new Paragraph("To %s, expected at %s."
                        .formatted(SessionWords.where(move.to()), move.at().toLocalTime())),
                Pieces.paragraph(
                        "lq-quiet",
                        move.from()
                                .map(from -> "From " + SessionWords.where(from)
                                        + (move.told() ? ", of which the patient has been told." : "."))
                                .orElse("Has no place yet.")));
        var why = new UnorderedList(new ListItem(move.why()));
        move.forEarlier().forEach(given -> why.add(new ListItem("For an earlier place: " + given)));
        item.add(new NativeDetails("Why there, and what would have to give", why));
        if (accepts) {
            item.add(Pieces.small(
                    "Accept",
                    "Accept: %s, %s, %s"
                            .formatted(
                                    move.patient().isBlank() ? move.reference() : move.patient(),
                                    move.step().words(),
                                    SessionWords.where(move.to())),
                    () -> accept.accept(move)));
        }
        return item;
    }

    private static void more(Section panel, String title, List<Unplaced> lines) {
        if (lines.isEmpty()) {
            return;
        }
        var list = new UnorderedList();
        lines.forEach(one ->
                list.add(new ListItem((one.patient().isBlank() ? one.reference() : one.patient()) + ": " + one.why())));
        panel.add(new NativeDetails(title.formatted(lines.size()), list));
    }

    private static Component levels(List<Plan.LevelScore> levels) {
        var list = new OrderedList();
        levels.forEach(level -> list.add(new ListItem(level.words())));
        return list;
    }
}
