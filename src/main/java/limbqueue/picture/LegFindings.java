package limbqueue.picture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.picture.Arteries.Artery;
import limbqueue.picture.LegPicture.Cut;
import limbqueue.picture.LegPicture.Line;
import limbqueue.picture.LegPicture.Mark;
import limbqueue.picture.LegPicture.Place;
import limbqueue.triage.Quantity;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Pressures;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;

/** Finds out what a referral puts on the picture, and where. */
final class LegFindings {

    static final String NOT_KNOWN = "not known";
    static final String NOTHING_REPORTED = "nothing reported";
    private static final List<Side> SIDES = List.of(Side.RIGHT, Side.LEFT);

    /** Share of a segment that is drawn for a lesion of which nobody told the length. */
    private static final double LENGTH_NOT_KNOWN = 0.3;

    /** No lesion is drawn shorter: it must be seen. */
    private static final double SHORTEST = 0.14;

    private static final double APART = 0.88;

    private final ReferralDocument document;
    private final TriageResult result;
    private final List<Lesion> lesions;
    private final Map<Where, List<Integer>> placed = new LinkedHashMap<>();
    private final List<Integer> unplaced = new ArrayList<>();
    private final List<Procedure> unplacedProcedures = new ArrayList<>();
    private final Map<Where, List<Procedure>> earlier = new LinkedHashMap<>();
    private final List<Mark> marks = new ArrayList<>();
    private final Labels labels = new Labels();

    /** @param side empty for the aorta */
    private record Where(Segment segment, Optional<Side> side) {

        Artery artery() {
            return Arteries.DRAWN.of(segment);
        }

        String sideCode() {
            return side.map(Arteries::code).orElse("");
        }

        String name() {
            var name = artery().name().toLowerCase(Locale.ROOT);
            return side.map(known -> Arteries.code(known) + " " + name).orElse(name);
        }
    }

    LegFindings(ReferralDocument document, TriageResult result) {
        this.document = document;
        this.result = result;
        this.lesions = document.lesions().orElseGet(List::of);
        for (var i = 0; i < lesions.size(); i++) {
            var index = i;
            where(lesions.get(i).segment(), lesions.get(i).side())
                    .ifPresentOrElse(
                            where -> placed.computeIfAbsent(where, _ -> new ArrayList<>())
                                    .add(index),
                            () -> unplaced.add(index));
        }
        for (var procedure : document.procedures().orElseGet(List::of)) {
            if (stays(procedure)) {
                where(procedure.segment(), procedure.side())
                        .ifPresentOrElse(
                                where -> earlier.computeIfAbsent(where, _ -> new ArrayList<>())
                                        .add(procedure),
                                () -> unplacedProcedures.add(procedure));
            }
        }
    }

    private static Optional<Where> where(Optional<Segment> segment, Optional<Side> side) {
        return segment.flatMap(known -> Arteries.DRAWN.of(known).hasSides()
                ? side.map(of -> new Where(known, Optional.of(of)))
                : Optional.of(new Where(known, Optional.empty())));
    }

    /** Whether a procedure leaves something behind that is drawn. */
    private static boolean stays(Procedure procedure) {
        return procedure
                        .kind()
                        .filter(kind -> kind == ProcedureKind.STENT || kind == ProcedureKind.BYPASS)
                        .isPresent()
                && procedure.outcome().filter(Outcome.FAILED::equals).isEmpty();
    }

    LegPicture picture() {
        var places = new ArrayList<Place>();
        for (var where : everywhere()) {
            draw(where);
            places.add(new Place(where.artery().code(), where.sideCode(), where.name(), words(where), goneFrom(where)));
        }
        var cuts = new ArrayList<Cut>();
        for (var side : SIDES) {
            cut(side).ifPresent(level -> {
                cuts.add(new Cut(Arteries.code(level), Arteries.code(side)));
                if (level.aboveAnkle()) {
                    var drawn = Arteries.DRAWN.of(level);
                    labels.add(side, List.of("amputated"), drawn.from(), drawn.y());
                }
            });
            labels.fixed(side, arm(side), foot(side));
        }
        return new LegPicture(
                document.lesions().isPresent(), places, marks, cuts, labels.laidOut(), caption(), lines());
    }

    private static List<Where> everywhere() {
        var everywhere = new ArrayList<Where>();
        everywhere.add(new Where(Segment.INFRARENAL_AORTA, Optional.empty()));
        for (var side : SIDES) {
            for (var segment : Segment.values()) {
                if (Arteries.DRAWN.of(segment).hasSides()) {
                    everywhere.add(new Where(segment, Optional.of(side)));
                }
            }
        }
        return everywhere;
    }

    private Optional<Amputation> cut(Side side) {
        return document.legs().of(side).amputation().filter(level -> level != Amputation.NONE);
    }

    private double goneFrom(Where where) {
        return where.side()
                .flatMap(this::cut)
                .map(level -> where.artery().gone().getOrDefault(Arteries.code(level), 1.0))
                .orElse(1.0);
    }

    private void draw(Where where) {
        for (var procedure : earlier.getOrDefault(where, List.of())) {
            var stent = procedure.kind().filter(ProcedureKind.STENT::equals).isPresent();
            var from = stent ? 0.15 : 0.05;
            mark(stent ? "stent" : "bypass", where, from, 1 - from, 0);
            var year = procedure.date().map(date -> " " + date.getYear()).orElse("");
            label(where, List.of((stent ? "stent" : "bypass") + year), stent ? 0.25 : 0.15);
        }
        var here = new ArrayList<>(placed.getOrDefault(where, List.of()));
        here.sort(Comparator.comparing(index -> lesions.get(index).ostial().orElse(false) ? 0 : 1));
        for (var slot = 0; slot < here.size(); slot++) {
            drawLesion(where, lesions.get(here.get(slot)), slot, here.size());
        }
    }

    private void drawLesion(Where where, Lesion lesion, int slot, int slots) {
        var room = slots == 1 ? 1.0 : APART / slots;
        var wished = lesion.lengthMm()
                .map(length -> Math.clamp(length.value() / where.artery().lengthMm(), SHORTEST, 1.0))
                .orElse(LENGTH_NOT_KNOWN);
        var drawn = Math.min(wished, room);
        var begins = (double) slot / slots;
        var from = lesion.ostial().orElse(false) ? begins : begins + (1.0 / slots - drawn) / 2;
        var to = Math.min(1, from + drawn);
        if (LesionWords.isAneurysm(lesion)) {
            mark("aneurysm", where, from, to, 0);
        }
        if (LesionWords.isOcclusion(lesion)) {
            mark("occlusion", where, from, to, 0);
        } else if (lesion.stenosisPercent().isPresent()) {
            mark("stenosis", where, from, to, lesion.stenosisPercent().get().value());
        } else if (!LesionWords.isAneurysm(lesion)) {
            mark("unknown", where, from, to, 0);
        }
        lesion.calcification()
                .filter(calcification -> calcification != Calcification.NONE)
                .ifPresent(calcification -> mark(Arteries.code(calcification), where, from, to, 0));
        if (lesion.inStent().orElse(false)) {
            mark("stent", where, from, to, 0);
        }
        label(where, LesionWords.label(lesion), (from + to) / 2);
    }

    private void mark(String kind, Where where, double from, double to, double percent) {
        marks.add(new Mark(kind, where.artery().code(), where.sideCode(), from, to, percent));
    }

    private void label(Where where, List<String> text, double share) {
        var point = where.artery().course().at(share);
        labels.add(where.side().orElse(Side.RIGHT), text, point.x(), point.y());
    }

    private String words(Where where) {
        var said = new ArrayList<String>();
        for (var index : placed.getOrDefault(where, List.of())) {
            said.add(LesionWords.sentence(lesions.get(index)));
        }
        for (var procedure : earlier.getOrDefault(where, List.of())) {
            said.add(words(procedure));
        }
        if (goneFrom(where) == 0) {
            said.add("amputated");
        }
        if (said.isEmpty()) {
            return document.lesions().isPresent() ? NOTHING_REPORTED : NOT_KNOWN;
        }
        return String.join("; ", said);
    }

    private static String words(Procedure procedure) {
        var year = procedure.date().map(date -> " of " + date.getYear()).orElse("");
        var outcome = procedure.outcome().orElse(Outcome.UNKNOWN);
        return procedure.kind().map(Arteries::code).orElse("")
                + year
                + switch (outcome) {
                    case COMPLETED -> "";
                    case INCOMPLETE -> ", incomplete";
                    case FAILED -> ", failed";
                    case UNKNOWN -> ", outcome not known";
                };
    }

    private String caption() {
        var said = new ArrayList<String>();
        if (document.lesions().isEmpty()) {
            said.add("Lesions not known.");
        } else if (lesions.isEmpty()) {
            said.add("No lesions found.");
        }
        var elsewhere = unplaced.size() + unplacedProcedures.size();
        if (elsewhere > 0) {
            said.add(elsewhere + " more in words.");
        }
        said.add("Pressures in mmHg.");
        return String.join(" ", said);
    }

    private List<Line> lines() {
        var lines = new ArrayList<Line>();
        if (document.lesions().isEmpty() || lesions.isEmpty()) {
            lines.add(new Line("Lesions", "", "", document.lesions().isEmpty() ? NOT_KNOWN : "none found"));
        }
        var silent = new ArrayList<String>();
        for (var segment : Segment.values()) {
            var artery = Arteries.DRAWN.of(segment);
            if (!artery.hasSides()) {
                var where = new Where(segment, Optional.empty());
                if (speaks(where)) {
                    lines.add(new Line(artery.name(), "", "", words(where)));
                } else {
                    silent.add(artery.name().toLowerCase(Locale.ROOT));
                }
            } else {
                var right = new Where(segment, Optional.of(Side.RIGHT));
                var left = new Where(segment, Optional.of(Side.LEFT));
                if (speaks(right) || speaks(left)) {
                    lines.add(new Line(artery.name(), words(right), words(left), ""));
                } else {
                    silent.add(artery.name().toLowerCase(Locale.ROOT));
                }
            }
        }
        if (!lesions.isEmpty() && !silent.isEmpty()) {
            lines.add(new Line("Nothing reported", "", "", String.join(", ", silent)));
        }
        withoutPlace().ifPresent(lines::add);
        lines.add(new Line("Amputation", amputation(Side.RIGHT), amputation(Side.LEFT), ""));
        lines.add(new Line(
                "Arm, mmHg",
                number(document.armPressures().right()),
                number(document.armPressures().left()),
                ""));
        lines.add(pressures("Dorsalis pedis, mmHg", Pressures::dorsalisPedis));
        lines.add(pressures("Posterior tibial, mmHg", Pressures::posteriorTibial));
        lines.add(pressures("Toe, mmHg", Pressures::toe));
        lines.add(index("ABI", this::abi));
        lines.add(index("TBI", this::tbi));
        return lines;
    }

    private boolean speaks(Where where) {
        return placed.containsKey(where) || earlier.containsKey(where);
    }

    private Optional<Line> withoutPlace() {
        var said = new ArrayList<String>();
        for (var index : unplaced) {
            var lesion = lesions.get(index);
            var known = lesion.side()
                    .map(side -> Arteries.code(side) + " side, ")
                    .or(() -> lesion.segment()
                            .map(segment ->
                                    Arteries.DRAWN.of(segment).name().toLowerCase(Locale.ROOT) + ", side not known, "))
                    .orElse("");
            said.add("lesion " + (index + 1) + ": " + known + LesionWords.sentence(lesion));
        }
        unplacedProcedures.forEach(procedure -> said.add(words(procedure)));
        return said.isEmpty()
                ? Optional.empty()
                : Optional.of(new Line("Place not known", "", "", String.join("; ", said)));
    }

    private String amputation(Side side) {
        return document.legs()
                .of(side)
                .amputation()
                .map(level -> level == Amputation.NONE
                        ? "none"
                        : Arteries.DRAWN.of(level).words())
                .orElse(NOT_KNOWN);
    }

    private Line pressures(String label, Function<Pressures, Optional<Quantity.MmHg>> pressure) {
        return new Line(label, ofFoot(Side.RIGHT, pressure), ofFoot(Side.LEFT, pressure), "");
    }

    private String ofFoot(Side side, Function<Pressures, Optional<Quantity.MmHg>> pressure) {
        return pressure.apply(document.legs().of(side).pressures())
                .map(known -> LesionWords.number(known.value()))
                .orElseGet(() -> notMeasured(side));
    }

    private String notMeasured(Side side) {
        return hasNoFoot(side) ? "no foot" : NOT_KNOWN;
    }

    private static String number(Optional<Quantity.MmHg> pressure) {
        return pressure.map(known -> LesionWords.number(known.value())).orElse(NOT_KNOWN);
    }

    private Line index(String label, Function<Side, Optional<String>> index) {
        return new Line(
                label,
                index.apply(Side.RIGHT).orElseGet(() -> notMeasured(Side.RIGHT)),
                index.apply(Side.LEFT).orElseGet(() -> notMeasured(Side.LEFT)),
                "");
    }

    private Optional<String> abi(Side side) {
        return result.legs().of(side).abi().map(abi -> index(abi.value()));
    }

    private Optional<String> tbi(Side side) {
        return result.legs().of(side).tbi().map(tbi -> index(tbi.value()));
    }

    private static String index(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    private String arm(Side side) {
        var arm = side == Side.LEFT
                ? document.armPressures().left()
                : document.armPressures().right();
        return "arm " + orAsk(arm.map(known -> LesionWords.number(known.value())));
    }

    private List<String> foot(Side side) {
        var pressures = document.legs().of(side).pressures();
        if (hasNoFoot(side)) {
            return List.of("no foot");
        }
        var lines = new ArrayList<>(List.of(
                "DP " + orAsk(pressures.dorsalisPedis().map(known -> LesionWords.number(known.value()))),
                "PT " + orAsk(pressures.posteriorTibial().map(known -> LesionWords.number(known.value()))),
                "toe " + orAsk(pressures.toe().map(known -> LesionWords.number(known.value()))),
                "ABI " + orAsk(abi(side)),
                "TBI " + orAsk(tbi(side))));
        cut(side).filter(level -> !level.aboveAnkle()).ifPresent(_ -> lines.add("amputated"));
        return lines;
    }

    /** Whether the foot is gone, and no figure of it contradicts that. */
    private boolean hasNoFoot(Side side) {
        var pressures = document.legs().of(side).pressures();
        return cut(side).filter(Amputation::aboveAnkle).isPresent()
                && Stream.of(
                                pressures.dorsalisPedis(),
                                pressures.posteriorTibial(),
                                pressures.toe(),
                                abi(side),
                                tbi(side))
                        .allMatch(Optional::isEmpty);
    }

    private static String orAsk(Optional<String> figure) {
        return figure.orElse("?");
    }
}
