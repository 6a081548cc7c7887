package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Span;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.picture.LegPicture;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RutherfordScale;

/** Both legs side by side as the patient faces the reader: grades and complaints, pressures and pulses. */
final class LegsPanel {

    private LegsPanel() {}

    /** Whether a reason rests on facts of this leg and of no other. */
    static boolean restsOn(Reason reason, Side side) {
        return names(reason, side) && !names(reason, side.opposite());
    }

    private static boolean names(Reason reason, Side side) {
        return reason.because().stream().anyMatch(path -> path.startsWith("legs." + GradeWords.side(side)));
    }

    static Component gradesAndComplaints(ReferralPage page) {
        var table = table("Right leg", "Left leg");
        table.addClassName("lq-legs-table");
        var grades = body(table, "Grades");
        grades.add(graded(page, "Limb-threatening", LegsPanel::threatening));
        grades.add(graded(page, "Rutherford", LegsPanel::rutherford));
        grades.add(graded(page, "Fontaine", LegsPanel::fontaine));
        grades.add(graded(page, "WIfI", LegsPanel::wifi));
        Stream.of(AnatomyWords.Line.values())
                .filter(line -> line.isOf(page.proposal()))
                .forEach(line -> grades.add(anatomic(page, line)));
        var complaints = body(table, "Complaints");
        LegFacts.complaints(page.document()).forEach(line -> complaints.add(row(line)));
        var reasons = Markup.div("lq-legs-reasons");
        for (var side : GradeWords.AS_PATIENT_FACES) {
            ReasonList.of(
                            "Why, " + GradeWords.leg(side).toLowerCase(Locale.ROOT),
                            page.proposal().reasons().stream()
                                    .filter(reason -> restsOn(reason, side))
                                    .toList(),
                            page.draft())
                    .ifPresent(reasons::add);
        }
        ReasonList.of("Why, anatomy", AnatomyWords.reasons(page.proposal()), page.draft())
                .ifPresent(reasons::add);
        return Markup.panel("lq-legs lq-legs-main", "Legs, as the patient faces you", table, reasons);
    }

    static Component pressuresAndPulses(ReferralPage page) {
        var table = table("Right", "Left");
        table.addClassName("lq-pressures-table");
        var pressures = body(table, "mmHg, index");
        LegFacts.pressures(page.document(), page.proposal()).forEach(line -> pressures.add(row(line)));
        var pulses = body(table, "Pulses");
        LegFacts.pulses(page.document()).forEach(line -> pulses.add(row(line)));
        return Markup.panel("lq-legs lq-legs-pressures", "Pressures and pulses", table);
    }

    /** What the picture of the arteries does not say: the waveform, pressures after exercise, and pulses. */
    static Component besideThePicture(ReferralPage page) {
        var table = table("Right", "Left");
        table.addClassName("lq-pressures-table");
        var body = body(table, "Pulses, waveform");
        LegFacts.pressures(page.document(), page.proposal()).stream()
                .filter(line -> !LegFacts.ON_THE_PICTURE.contains(line.label()))
                .forEach(line -> body.add(row(line)));
        LegFacts.pulses(page.document()).forEach(line -> body.add(row(line)));
        return Markup.panel("lq-legs lq-legs-pressures", "Pulses, waveform, exercise", table);
    }

    static Component arteries(ReferralPage page) {
        return Markup.panel(
                "lq-arteries-panel",
                "Leg arteries",
                LegArteries.toRead(LegPicture.of(page.document(), page.proposal())));
    }

    private static NativeTable table(String right, String left) {
        var table = new NativeTable();
        var head = new NativeTableHeader();
        head.add(new NativeTableRow(new NativeTableCell(), Markup.columnHeading(right), Markup.columnHeading(left)));
        table.add(head);
        return table;
    }

    private static NativeTableBody body(NativeTable table, String title) {
        var body = new NativeTableBody();
        body.getElement().setAttribute("aria-label", title);
        table.add(body);
        return body;
    }

    private static NativeTableRow row(LegFacts.Line line) {
        return new NativeTableRow(
                Markup.rowHeading(line.label()),
                new NativeTableCell(new FindingText(line.right())),
                new NativeTableCell(new FindingText(line.left())));
    }

    private static NativeTableRow graded(ReferralPage page, String label, Function<LegResult, Span> grade) {
        var row = new NativeTableRow(Markup.rowHeading(label));
        for (var side : GradeWords.AS_PATIENT_FACES) {
            row.add(new NativeTableCell(grade.apply(page.proposal().legs().of(side))));
        }
        return row;
    }

    private static NativeTableRow anatomic(ReferralPage page, AnatomyWords.Line line) {
        var row = new NativeTableRow(Markup.rowHeading(line.title()));
        for (var side : GradeWords.AS_PATIENT_FACES) {
            row.add(new NativeTableCell(line.of(page.proposal(), side)
                    .map(entry -> grade(
                            line.value(entry),
                            List.of(),
                            GradeWords.couldBe(line.possible(entry)),
                            line.mildest(entry)))
                    .orElseGet(() -> Markup.text("lq-soft", "none reported"))));
        }
        return row;
    }

    private static Span threatening(LegResult leg) {
        return grade(
                TierWords.of(leg.chronicLimbThreatening()),
                List.of(),
                GradeWords.possible(leg),
                leg.chronicLimbThreatening() != Answer.YES);
    }

    private static Span rutherford(LegResult leg) {
        var category = leg.rutherford().category();
        return grade(
                TierWords.category(category),
                List.of(category.description()),
                GradeWords.possible(leg.rutherford()),
                category == Collections.min(leg.rutherford().possible()));
    }

    private static Span fontaine(LegResult leg) {
        var fontaine = leg.fontaine();
        if (leg.rutherford().scale() == RutherfordScale.ACUTE) {
            return Markup.text("lq-soft", GradeWords.ACUTE_HAS_NO_STAGE);
        }
        return grade(
                fontaine.grade().label(),
                List.of(),
                GradeWords.possible(fontaine),
                fontaine.grade() == Collections.min(fontaine.possible()));
    }

    private static Span wifi(LegResult leg) {
        return leg.wifi()
                .map(wifi -> grade(
                        "stage " + wifi.stage(),
                        List.of(
                                "W" + wifi.wound() + " I" + wifi.ischaemia() + " fI" + wifi.infection(),
                                "benefit " + TierWords.of(wifi.benefit())),
                        GradeWords.possible(wifi),
                        wifi.stage() == Collections.min(wifi.possibleStages())))
                .orElseGet(() -> Markup.text("lq-soft", "no foot"));
    }

    /**
     * @param possible what else is possible; empty when nothing is
     * @param mildest whether {@code value} is the least that is possible: then it stands as quietly as the rest, since what
     *     is not known must not reassure
     */
    private static Span grade(String value, List<String> details, String possible, boolean mildest) {
        var open = !possible.isEmpty();
        var grade = new Span(Markup.text(open && mildest ? "lq-grade lq-grade-open" : "lq-grade", value));
        for (var detail : details) {
            grade.add(Markup.text("lq-grade-detail", detail));
        }
        if (open) {
            grade.add(Markup.notKnown(possible));
        }
        return grade;
    }
}
