package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RutherfordScale;

/**
 * What triage proposes, beside the facts it rests on: how soon, the grades of both legs, red flags with their evidence,
 * contradictions, and what to ask next.
 */
@StyleSheet("context://ui/coordinator.css")
final class ProposalPanel extends Section {

    private static final int QUESTIONS_IN_SIGHT = 5;

    private final Consumer<String> goTo;
    private final Div head = new Div();
    private final Div body = new Div();
    private final Div facts = new Div();
    private final Unfolding moreQuestions = new Unfolding();
    private final Unfolding reasons = new Unfolding();
    private final Unfolding workUp = new Unfolding();
    private final Paragraph notice = new Paragraph();
    private final Span counts = new Span();
    private final NativeButton toggle = new NativeButton();
    private boolean open;
    private Optional<Shown> shown = Optional.empty();

    /** @param evidence what stands at the paths named as evidence, in words */
    private record Shown(TriageResult result, Map<String, String> evidence) {}

    /** A part that is folded away, filled only while it is open; it stays open while the proposal changes. */
    private static final class Unfolding extends NativeDetails {

        private Supplier<Component> content = Div::new;

        Unfolding() {
            addToggleListener(event -> fill(event.isOpened()));
        }

        void offer(String summary, Supplier<Component> newContent) {
            content = newContent;
            setSummaryText(summary);
            fill(isOpen());
        }

        private void fill(boolean open) {
            setContent(open ? content.get() : new Div());
        }
    }

    /** @param goTo brings the field with a path into sight */
    ProposalPanel(Consumer<String> goTo) {
        this.goTo = path -> {
            setOpen(false);
            goTo.accept(path);
        };
        addClassName("lq-proposal");
        getElement().setAttribute("aria-label", "Proposal");
        head.addClassName("lq-proposal-head");
        head.getElement().setAttribute("aria-live", "polite");
        body.addClassName("lq-proposal-body");
        body.setId("proposal-body");
        counts.addClassName("lq-proposal-counts");
        toggle.addClassNames("lq-button", "lq-proposal-toggle");
        toggle.getElement().setAttribute("aria-controls", "proposal-body");
        toggle.addClickListener(_ -> setOpen(!open));
        var bar = new Div(counts, toggle);
        bar.addClassName("lq-proposal-bar");
        notice.addClassName("lq-notice");
        body.add(facts, moreQuestions, reasons, workUp, notice);
        add(head, bar, body);
        setOpen(false);
    }

    /** On a narrow window the panel is a bar; this opens and closes the rest of it. */
    private void setOpen(boolean nowOpen) {
        open = nowOpen;
        setClassName("lq-proposal-open", open);
        toggle.setText(open ? "Hide the proposal" : "Show the proposal");
        toggle.getElement().setAttribute("aria-expanded", String.valueOf(open));
    }

    /** @param draft what the proposal was made on, for the evidence */
    void show(TriageResult result, Draft draft) {
        var now = new Shown(result, evidence(result, draft));
        if (shown.filter(now::equals).isPresent()) {
            return;
        }
        if (shown.filter(before -> before.result().urgency().equals(result.urgency()))
                .isEmpty()) {
            head.removeAll();
            head.add(new H2("Proposal"));
            var mark = new UrgencyMark(result.urgency().tier(), result.urgency().targetDate());
            mark.addClassName("lq-urgency-large");
            head.add(mark, paragraph("lq-proposal-range", range(result)));
        }
        shown = Optional.of(now);
        counts.setText(counts(result));
        notice.setText(result.notice());

        facts.removeAll();
        facts.add(
                paragraph("lq-proposal-because", result.urgency().because()),
                paragraph(
                        "lq-quiet",
                        "Waiting since " + TierWords.date(result.urgency().waitingSince()) + "."),
                grades(result));
        if (!result.anatomy().isEmpty()) {
            facts.add(new H3("Anatomy"), reasons(AnatomyWords.reasons(result), now.evidence()));
        }
        if (!result.contradictions().isEmpty()) {
            facts.add(new H3("Does not go together"), contradictions(result, now.evidence()));
        }
        if (!result.redFlags().isEmpty()) {
            facts.add(new H3("Red flags"), redFlags(result, now.evidence()));
        }
        facts.add(new H3("Ask next"), questions(result));

        var later = result.questions().stream().skip(QUESTIONS_IN_SIGHT).toList();
        moreQuestions.setVisible(!later.isEmpty());
        moreQuestions.offer(
                later.size() == 1 ? "1 more question" : later.size() + " more questions",
                () -> questionList(later, result));
        reasons.offer(
                "Reasons and sources (" + result.reasons().size() + ")",
                () -> reasons(result.reasons(), now.evidence()));
        workUp.setVisible(!result.workUp().isEmpty());
        workUp.offer(
                "Work-up ("
                        + result.workUp().stream()
                                .filter(TriageResult.WorkUpItem::needed)
                                .count()
                        + " needed)",
                () -> workUp(result));
    }

    private static Map<String, String> evidence(TriageResult result, Draft draft) {
        var evidence = new HashMap<String, String>();
        Stream.of(
                        result.redFlags().stream().flatMap(flag -> flag.evidence().stream()),
                        result.reasons().stream().flatMap(reason -> reason.because().stream()),
                        result.contradictions().stream().flatMap(contradiction -> contradiction.fields().stream()))
                .flatMap(paths -> paths)
                .forEach(
                        path -> evidence.computeIfAbsent(path, named -> EvidenceWords.sentence(List.of(named), draft)));
        return evidence;
    }

    private static String range(TriageResult result) {
        var others = result.urgency().possible().stream()
                .filter(tier -> tier != result.urgency().tier())
                .toList();
        return others.isEmpty()
                ? "No open question can change this."
                : "Until the open questions are answered it could also be " + TierWords.possible(others) + ".";
    }

    private static String counts(TriageResult result) {
        var parts = new ArrayList<String>();
        count(parts, result.contradictions(), "contradiction", "contradictions");
        count(parts, result.redFlags(), "red flag", "red flags");
        count(parts, result.questions(), "question", "questions");
        return String.join(" · ", parts);
    }

    private static void count(List<String> parts, Collection<?> things, String one, String many) {
        if (!things.isEmpty()) {
            parts.add(things.size() + " " + (things.size() == 1 ? one : many));
        }
    }

    private static NativeTable grades(TriageResult result) {
        var header = new NativeTableHeader(
                new NativeTableRow(new NativeTableCell(), columnHeader("Right leg"), columnHeader("Left leg")));
        var rows = new NativeTableBody();
        rows.add(row(result, "Alone calls for", leg -> cell(TierWords.of(leg.tier()), List.of())));
        rows.add(row(
                result,
                "Limb-threatening",
                leg -> cell(
                        TierWords.of(leg.chronicLimbThreatening()),
                        leg.chronicLimbThreateningPossible(),
                        TierWords::answers)));
        rows.add(row(
                result,
                "Rutherford",
                leg -> cell(
                        TierWords.category(leg.rutherford().category()) + ", "
                                + leg.rutherford().category().description(),
                        leg.rutherford().possible(),
                        TierWords::categories)));
        rows.add(row(
                result,
                "Fontaine",
                leg -> leg.rutherford().scale() == RutherfordScale.ACUTE
                        ? nothing(GradeWords.ACUTE_HAS_NO_STAGE)
                        : cell(leg.fontaine().grade().label(), leg.fontaine().possible(), TierWords::grades)));
        rows.add(row(
                result,
                "WIfI",
                leg -> leg.wifi()
                        .map(wifi -> cell(
                                "stage " + wifi.stage() + " (" + wifi.wound() + "\u2011" + wifi.ischaemia() + "\u2011"
                                        + wifi.infection() + ")",
                                wifi.possibleStages(),
                                TierWords::stages))
                        .orElseGet(() -> nothing("no foot"))));
        rows.add(row(
                result,
                "ABI",
                leg -> leg.abi()
                        .map(abi -> cell(TierWords.index(abi.value()) + ", " + TierWords.of(abi.band()), List.of()))
                        .orElseGet(() -> nothing("not known"))));
        rows.add(row(
                result,
                "TBI",
                leg -> leg.tbi()
                        .map(tbi -> cell(TierWords.index(tbi.value()) + ", " + TierWords.of(tbi.band()), List.of()))
                        .orElseGet(() -> nothing("not known"))));
        Stream.of(AnatomyWords.Line.values())
                .filter(line -> line.isOf(result))
                .forEach(line -> rows.add(row(result, line)));
        var table = new NativeTable(header, rows);
        table.addClassName("lq-grades");
        return table;
    }

    private static NativeTableHeaderCell columnHeader(String text) {
        var header = new NativeTableHeaderCell(text);
        header.getElement().setAttribute("scope", "col");
        return header;
    }

    private static NativeTableRow row(TriageResult result, String title, Function<LegResult, NativeTableCell> cell) {
        var header = new NativeTableHeaderCell(title);
        header.getElement().setAttribute("scope", "row");
        return new NativeTableRow(
                header,
                cell.apply(result.legs().of(Side.RIGHT)),
                cell.apply(result.legs().of(Side.LEFT)));
    }

    private static NativeTableRow row(TriageResult result, AnatomyWords.Line line) {
        var header = new NativeTableHeaderCell(line.title());
        header.getElement().setAttribute("scope", "row");
        var row = new NativeTableRow(header);
        for (var side : GradeWords.AS_PATIENT_FACES) {
            row.add(line.of(result, side)
                    .map(entry -> {
                        var possible = line.possible(entry);
                        return cell(
                                line.value(entry),
                                possible.isEmpty() ? List.of() : List.of(line.value(entry), possible),
                                _ -> possible);
                    })
                    .orElseGet(() -> nothing("none reported")));
        }
        return row;
    }

    private static NativeTableCell cell(String value, List<?> possible) {
        var cell = new NativeTableCell(new Span(value));
        cell.setClassName("lq-grade-open", possible.size() > 1);
        return cell;
    }

    private static <T> NativeTableCell cell(String value, List<T> possible, Function<List<T>, String> words) {
        var cell = cell(value, possible);
        if (possible.size() > 1) {
            var range = new Span("possible: " + words.apply(possible));
            range.addClassName("lq-grade-possible");
            cell.add(range);
        }
        return cell;
    }

    private static NativeTableCell nothing(String words) {
        var nothing = new Span(words);
        nothing.addClassName("lq-quiet");
        return new NativeTableCell(nothing);
    }

    private Component contradictions(TriageResult result, Map<String, String> words) {
        var list = list("lq-proposal-contradictions");
        for (var contradiction : result.contradictions()) {
            var item = new ListItem(new Span(contradiction.text()));
            item.add(evidence(contradiction.fields(), words));
            list.add(item);
        }
        return list;
    }

    private Component redFlags(TriageResult result, Map<String, String> words) {
        var list = list("lq-proposal-flags");
        for (var flag : result.redFlags()) {
            var item = new ListItem(new Span(flag.text()));
            item.add(evidence(flag.evidence(), words), source(flag.source()));
            list.add(item);
        }
        return list;
    }

    private Component questions(TriageResult result) {
        if (result.questions().isEmpty()) {
            return paragraph("lq-quiet", "Nothing: no answer that is still open could change the proposal.");
        }
        return questionList(
                result.questions().stream().limit(QUESTIONS_IN_SIGHT).toList(), result);
    }

    private UnorderedList questionList(List<Question> questions, TriageResult result) {
        var list = list("lq-proposal-questions");
        for (var question : questions) {
            var ask = new NativeButton(question.ask(), _ -> goTo.accept(question.field()));
            ask.addClassName("lq-link");
            var when = new Span(askBy(question, result.asOf())
                    + reveals(question.couldReveal(), result.urgency().tier()));
            when.addClassName("lq-ask-by");
            when.setClassName("lq-late", question.askBy().isBefore(result.asOf()));
            list.add(new ListItem(ask, when));
        }
        return list;
    }

    /** Until when to ask, as {@code Ask by 27 Nov 2026}. */
    static String askBy(Question question, LocalDate today) {
        return question.askBy().isAfter(today)
                ? "Ask by " + TierWords.date(question.askBy())
                : question.askBy().equals(today)
                        ? "Ask today"
                        : "Late: was to be asked by " + TierWords.date(question.askBy());
    }

    private static String reveals(Tier couldReveal, Tier now) {
        return couldReveal.moreUrgentThan(now) ? "; could bring " + TierWords.inSentence(couldReveal) : "";
    }

    private Component reasons(List<Reason> reasons, Map<String, String> words) {
        var list = list("lq-proposal-reasons");
        for (var reason : reasons) {
            var item = new ListItem(new Span(reason.text()));
            item.add(evidence(reason.because(), words), source(reason.source()));
            list.add(item);
        }
        return list;
    }

    private static Component workUp(TriageResult result) {
        var list = list("lq-proposal-work-up");
        for (var step : result.workUp()) {
            var why = new Span(step.why()
                    + step.validUntil()
                            .map(until -> " Held; may be used until " + TierWords.date(until) + ".")
                            .orElse(""));
            why.addClassName("lq-quiet");
            var who = new Span(" By: " + step.who().words() + ".");
            who.addClassName("lq-quiet");
            list.add(new ListItem(new Span((step.needed() ? "Needed: " : "") + step.text()), why, who));
        }
        return list;
    }

    private Div evidence(List<String> paths, Map<String, String> words) {
        var evidence = new Div();
        evidence.addClassName("lq-evidence");
        for (var path : paths) {
            var link = new NativeButton(words.getOrDefault(path, FieldWords.of(path)), _ -> goTo.accept(path));
            link.addClassName("lq-link");
            evidence.add(link);
        }
        return evidence;
    }

    private static Span source(String text) {
        var source = new Span("Source: " + text);
        source.addClassName("lq-source");
        return source;
    }

    private static UnorderedList list(String className) {
        var list = new UnorderedList();
        list.addClassNames("lq-proposal-list", className);
        return list;
    }

    private static Paragraph paragraph(String className, String text) {
        var paragraph = new Paragraph(text);
        paragraph.addClassName(className);
        return paragraph;
    }
}
