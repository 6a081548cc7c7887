package limbqueue.preparation;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.Period;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limbqueue.picture.LegDrawing;
import limbqueue.picture.LegPicture;
import limbqueue.print.PdfPages;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.TierPhrase;
import limbqueue.triage.DrugTiming;
import limbqueue.triage.Policy;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Caution;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.RedFlag;

/** Sets the sheet of one case on one A4 page, in smaller type where there is much to say. */
final class CaseSheet {

    private static final String STYLE = PdfPages.style("/limbqueue/preparation/casesheet.css");

    /** Sizes of type in points; below the last nobody reads it at arm's length. */
    private static final double[] SIZES = {9.5, 9, 8.5, 8, 7.5, 7, 6.5};

    /** Wide enough to read the labels, and no wider than its column. */
    private static final double PICTURE_MM = 74;

    /** How the plan begins the line of a covered stent. */
    private static final String COVERED_STENT = "covered stent";

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);
    private static final String BOX = "<span class=\"box\">&#160;</span>";

    private final PreparationCase prepared;
    private final List<DecisionRecord> decisions;
    private final String practice;
    private final Policy policy;
    private final Optional<ExpectedMinutes> minutes;
    private final LocalDate today;

    private CaseSheet(
            PreparationCase prepared,
            List<DecisionRecord> decisions,
            String practice,
            Policy policy,
            Optional<ExpectedMinutes> minutes,
            LocalDate today) {
        this.prepared = prepared;
        this.decisions = decisions;
        this.practice = practice;
        this.policy = policy;
        this.minutes = minutes;
        this.today = today;
    }

    /**
     * The sheet as PDF.
     *
     * @param decisions newest first
     */
    static byte[] print(
            PreparationCase prepared,
            List<DecisionRecord> decisions,
            String practice,
            Policy policy,
            Optional<ExpectedMinutes> minutes,
            LocalDate today) {
        var sheet = new CaseSheet(prepared, decisions, practice, policy, minutes, today);
        var pages = new byte[0];
        for (var size : SIZES) {
            pages = PdfPages.set(sheet.html(size));
            if (PdfPages.count(pages) == 1) {
                break;
            }
        }
        return pages;
    }

    private ReferralDocument document() {
        return prepared.proposed().document();
    }

    private TriageResult proposal() {
        return prepared.proposed().proposal();
    }

    private String html(double size) {
        var reference = prepared.proposed().referral().reference();
        return """
                <!DOCTYPE html>
                <html lang="en">
                <head>
                <title>Case sheet %s</title>
                <meta name="subject" content="Case sheet"/>
                <meta name="author" content="%s"/>
                <style>html { font-size: %spt; } %s</style>
                </head>
                <body>
                <div class="head"><p class="practice">%s &#160;·&#160; Case sheet of %s</p>
                <h1>%s</h1><p>%s</p></div>
                <p class="when">%s</p>
                <div class="gate"><h2>%s</h2>%s</div>
                <table class="columns"><tr><td class="left">%s</td><td class="right">%s</td></tr></table>
                <p class="notice">%s</p>
                </body>
                </html>
                """.formatted(
                        escape(reference),
                        escape(practice),
                        size,
                        STYLE,
                        escape(practice),
                        DATE.format(today),
                        escape(prepared.patient().isEmpty() ? "Name not known" : prepared.patient()),
                        escape(who(reference)),
                        escape(when()),
                        escape(gate()),
                        list(prepared.readiness().obstacles().stream()
                                .map(obstacle -> escape(obstacle.what()))
                                .toList()),
                        LegDrawing.onPage(LegPicture.of(document(), proposal()), PICTURE_MM)
                                + section("Lesions", lesions())
                                + section("Legs", list(legs()))
                                + section("Red flags", list(flags()))
                                + section("Cautions", list(cautions()))
                                + section("Allergies", list(allergies())),
                        section("Access", plain(access()))
                                + section("In the room", ticks(room()))
                                + section("Medicines", ticks(medicines()))
                                + section("Laboratory", list(laboratory()))
                                + section("When it suits", list(open())),
                        escape(TriageResult.NOTICE));
    }

    private String who(String reference) {
        var patient = document().patient();
        return Stream.of(
                        patient.born()
                                .map(born -> "born " + DATE.format(born) + ", "
                                        + Period.between(born, today).getYears() + " years"),
                        patient.sex().map(sex -> sex.name().toLowerCase(Locale.ROOT)),
                        Optional.of(reference),
                        document().weightKg().map(weight -> number(weight) + " kg"))
                .flatMap(Optional::stream)
                .collect(Collectors.joining(" · "));
    }

    private String when() {
        var booked = prepared.booking()
                .map(booking ->
                        DATE.format(booking.starts()) + ", " + TIME.format(booking.starts()) + ", " + booking.room())
                .orElse("Not booked");
        var tier = TierPhrase.of(prepared.proposed().tier(), policy)
                + prepared.proposed()
                        .targetDate()
                        .map(day -> ", by " + DATE.format(day))
                        .orElse("");
        var approved = prepared.proposed().decidedTier().isPresent() && !decisions.isEmpty()
                ? "approved by " + decisions.getFirst().author()
                : "not approved";
        return booked + " · to be seen " + tier + " (" + approved + ")";
    }

    private String gate() {
        return switch (prepared.readiness()) {
            case Readiness.Ready _ -> "Ready for the room";
            case Readiness.NotReady _ -> "Not ready for the room";
            case Readiness.Overridden(var reasons, var by) ->
                "Not ready; goes ahead by word of " + by.author() + ": “" + by.reason() + "”";
        };
    }

    private List<String> legs() {
        var legs = new ArrayList<String>();
        for (var side : Side.values()) {
            var leg = proposal().legs().of(side);
            var changed = decided().map(decision -> decision.categories().get(side));
            var category = changed.orElse(leg.rutherford().category());
            legs.add(escape((side == Side.LEFT ? "Left: " : "Right: ")
                    + "Rutherford " + category.label() + " (" + category.description() + ")"
                    + (changed.isPresent() ? ", as the physician decided" : "")
                    + ", Fontaine " + leg.fontaine().grade().label()
                    + leg.wifi()
                            .map(wifi -> ", WIfI " + wifi.wound() + wifi.ischaemia() + wifi.infection() + ", stage "
                                    + wifi.stage())
                            .orElse("")
                    + leg.abi()
                            .map(abi -> String.format(Locale.ROOT, ", ABI %.2f", abi.value()))
                            .orElse("")
                    + document()
                            .legs()
                            .of(side)
                            .pressures()
                            .toe()
                            .map(toe -> ", toe " + number(toe.value()) + " mmHg")
                            .orElse("")));
        }
        return legs;
    }

    private Optional<DecisionRecord> decided() {
        return prepared.proposed().decidedTier().isPresent()
                ? decisions.stream().findFirst()
                : Optional.empty();
    }

    private String lesions() {
        var lesions = document().lesions().orElse(List.of());
        return lesions.isEmpty()
                ? "<p>None reported: no imaging of the arteries is in the referral.</p>"
                : list(lesions.stream().map(lesion -> escape(words(lesion))).toList());
    }

    private static String words(Lesion lesion) {
        var facts = new ArrayList<String>();
        facts.add(lesion.stenosisPercent()
                .map(percent -> percent.value() >= 100 ? "occluded" : number(percent.value()) + " % narrowed")
                .orElse(lesion.aneurysm().orElse(false) ? "aneurysm" : "how narrow is not known"));
        lesion.lengthMm().ifPresent(length -> facts.add(number(length.value()) + " mm long"));
        lesion.diameterMm().ifPresent(diameter -> facts.add("vessel " + number(diameter.value()) + " mm"));
        facts.add(lesion.calcification()
                .map(calcification -> calcification == Calcification.NONE
                        ? "no calcification"
                        : calcification.name().toLowerCase(Locale.ROOT) + " calcification")
                .orElse("calcification not known"));
        if (lesion.ostial().orElse(false)) {
            facts.add("at the origin");
        }
        if (lesion.inStent().orElse(false)) {
            facts.add("inside a stent");
        }
        return Stream.of(
                                lesion.side().map(side -> side == Side.LEFT ? "Left" : "Right"),
                                lesion.segment()
                                        .map(segment -> segment.name()
                                                .toLowerCase(Locale.ROOT)
                                                .replace('_', ' ')))
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" "))
                + ": " + String.join(", ", facts);
    }

    private List<String> flags() {
        return proposal().redFlags().stream()
                .map(RedFlag::text)
                .map(CaseSheet::escape)
                .toList();
    }

    private List<String> allergies() {
        return document()
                .allergies()
                .map(allergies -> allergies.isEmpty()
                        ? List.of("none")
                        : allergies.stream()
                                .map(allergy -> allergy.to().orElse("not named")
                                        + allergy.reaction()
                                                .map(reaction ->
                                                        ", " + reaction.name().toLowerCase(Locale.ROOT))
                                                .orElse(""))
                                .map(CaseSheet::escape)
                                .toList())
                .orElse(List.of("not asked"));
    }

    private Stream<ProcedurePlan> plan() {
        return proposal().procedurePlan().stream();
    }

    private List<String> cautions() {
        return plan().flatMap(plan -> plan.cautions().stream())
                .map(Caution::text)
                .map(CaseSheet::escape)
                .toList();
    }

    private List<String> access() {
        return plan().flatMap(plan -> Stream.of(
                                PlanLines.access(plan).stream(),
                                PlanLines.sheaths(plan).stream(),
                                Stream.of(plan.sedation()),
                                minutes.map(PlanLines::minutes).stream())
                        .flatMap(lines -> lines))
                .map(CaseSheet::escape)
                .toList();
    }

    /** What must lie in the room: the stents as they were seen there, then what the plan names besides. */
    private List<String> room() {
        var besides = plan().flatMap(plan -> plan.room().stream())
                .map(RoomItem::item)
                .filter(item -> prepared.needs().isEmpty() || !item.startsWith(COVERED_STENT));
        return Stream.concat(stents(), besides).map(CaseSheet::escape).toList();
    }

    private Stream<String> stents() {
        return prepared.needs().stream()
                .map(need -> "Covered stent for the " + ReadinessGate.vessel(need) + ", " + ReadinessGate.size(need)
                        + prepared.confirmed(need)
                                // On a line of its own: a number read across the end of a line is misread.
                                .map(seen -> ":\n" + ReadinessGate.size(seen.stent()) + ", "
                                        + seen.stent().sheathFrench() + " Fr, lot "
                                        + seen.stent().lot() + ",\nseen by " + seen.author())
                                .orElse(": not confirmed"));
    }

    /** What is taken, with what is proposed for it about the procedure and the times. */
    private List<String> medicines() {
        var taken = document().medicines().orElse(List.of());
        return IntStream.range(0, taken.size())
                .mapToObj(i -> {
                    var path = "medicines[" + i + "]";
                    return taken.get(i).name().orElse("not named")
                            + prepared.drugs().stream()
                                    .filter(drug -> drug.medicine().startsWith(path))
                                    .map(CaseSheet::timing)
                                    .collect(Collectors.joining());
                })
                .map(CaseSheet::escape)
                .toList();
    }

    private static String timing(DrugTiming drug) {
        return ": " + drug.text()
                + drug.lastDose()
                        .map(at -> "\nlast dose by " + DATE.format(at) + ", " + TIME.format(at))
                        .orElse("")
                + drug.restart()
                        .map(at -> "\nagain from " + DATE.format(at) + ", " + TIME.format(at))
                        .orElse("");
    }

    /** The latest of each test. */
    private List<String> laboratory() {
        var latest = new LinkedHashMap<LabTest, Lab>();
        document().labs().orElse(List.of()).stream()
                .filter(lab -> lab.test().isPresent() && lab.value().isPresent())
                .sorted(Comparator.comparing((Lab lab) -> lab.taken().orElse(LocalDate.MIN)))
                .forEach(lab -> latest.put(lab.test().orElseThrow(), lab));
        return latest.values().stream()
                .map(lab ->
                        lab.test().orElseThrow().name().toLowerCase(Locale.ROOT).replace('_', ' ') + " "
                                + number(lab.value().orElseThrow())
                                + lab.unit()
                                        .filter(unit -> !unit.startsWith("{INR"))
                                        .map(unit -> " " + unit)
                                        .orElse("")
                                + lab.taken()
                                        .map(day -> ", " + DATE.format(day))
                                        .orElse(", day not known"))
                .map(CaseSheet::escape)
                .toList();
    }

    private List<String> open() {
        return prepared.items().stream()
                // The gate above names the red ones.
                .filter(item -> item.proposed() && !item.settled() && !item.red() && !item.aboutStents())
                .map(CaseItem::what)
                .map(CaseSheet::escape)
                .toList();
    }

    private static String section(String title, String content) {
        return "<h2>" + escape(title) + "</h2>" + (content.isEmpty() ? "<p>none</p>" : content);
    }

    private static String list(List<String> lines) {
        return lines.isEmpty()
                ? ""
                : lines.stream().map(line -> "<li>" + line + "</li>").collect(Collectors.joining("", "<ul>", "</ul>"));
    }

    private static String plain(List<String> lines) {
        return lines.stream().map(line -> "<p class=\"line\">" + line + "</p>").collect(Collectors.joining());
    }

    private static String ticks(List<String> lines) {
        return lines.isEmpty()
                ? ""
                : lines.stream()
                        .map(line -> "<p class=\"tick\">" + BOX + " " + line.replace("\n", "<br/>") + "</p>")
                        .collect(Collectors.joining());
    }

    private static String number(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static String escape(String text) {
        return PdfPages.escape(text);
    }
}
