package limbqueue.triage.anatomy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Intent;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * The reported lesions of a referral, classified by side and region, with what the unknown still allows and what to ask.
 * Disease that nobody reported is not invented: a lesion of which the artery is not known is in no region, and is asked
 * about.
 */
public final class AnatomicFindings {

    private static final Set<Segment> AORTO_ILIAC =
            Set.of(Segment.INFRARENAL_AORTA, Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);
    private static final Set<Segment> FEMOROPOPLITEAL =
            Set.of(Segment.COMMON_FEMORAL, Segment.PROFUNDA_FEMORIS, Segment.SUPERFICIAL_FEMORAL, Segment.POPLITEAL);
    private static final Set<Segment> INFRAPOPLITEAL = Set.of(
            Segment.TIBIOPERONEAL_TRUNK,
            Segment.ANTERIOR_TIBIAL,
            Segment.POSTERIOR_TIBIAL,
            Segment.PERONEAL,
            Segment.PEDAL);

    /** A question whose answer would change an entry. */
    public record Open(String ask, String field) {}

    /** A rule that concluded something. */
    private record Said(String rule, List<String> because, String text) {}

    /** GLASS of one side as it stands in an entry. */
    private record Staging(Glass.Grades actOn, List<Integer> possible) {}

    private final ReferralDocument document;
    private final Limits limits;
    private final List<LesionFacts> lesions;
    private final boolean unplaced;
    private final List<Anatomy> entries = new ArrayList<>();
    private final Map<String, Open> open = new LinkedHashMap<>();
    private final List<Said> said = new ArrayList<>();

    private AnatomicFindings(ReferralDocument document, Limits limits) {
        this.document = document;
        this.limits = limits;
        this.lesions = LesionFacts.placed(document.lesions().orElse(List.of()), limits);
        this.unplaced = askArteries(document.lesions().orElse(List.of()));
        for (var side : Side.values()) {
            if (reported(side, AORTO_ILIAC)) {
                aortoIliac(side);
            }
            if (reported(side, FEMOROPOPLITEAL) || reported(side, INFRAPOPLITEAL)) {
                belowTheGroin(side);
            }
        }
    }

    public static AnatomicFindings of(ReferralDocument document, Limits limits) {
        return new AnatomicFindings(document, limits);
    }

    /** Left before right, and on each side from the aorta down. */
    public List<Anatomy> entries() {
        return List.copyOf(entries);
    }

    public List<Open> questions() {
        return List.copyOf(open.values());
    }

    /** Why each entry is as it is, with the source that {@code book} names. */
    public List<Reason> reasons(RuleBook book) {
        return Entries.each(said, one -> new Reason(one.rule(), one.because(), one.text(), book.sourceOf(one.rule())));
    }

    private void reason(String rule, List<String> because, String text) {
        said.add(new Said(rule, because, text));
    }

    /** Asks for the artery of each lesion that may count and has none; true when there is one. */
    private boolean askArteries(List<Lesion> reported) {
        var found = false;
        for (var i = 0; i < reported.size(); i++) {
            var lesion = reported.get(i);
            if (lesion.segment().isEmpty() && LesionFacts.mayCount(lesion, limits)) {
                ask("lesions[" + i + "].segment", LesionFacts.askArtery(i));
                found = true;
            }
        }
        return found;
    }

    private void ask(String field, String question) {
        open.putIfAbsent(field + " " + (field.equals("lesions") ? question : ""), new Open(question, field));
    }

    private boolean reported(Side side, Set<Segment> region) {
        return Entries.any(
                lesions,
                lesion -> region.contains(lesion.segment()) && lesion.mayConcern(side) && !lesion.knownNotToCount());
    }

    private List<LesionFacts> concerning(Predicate<LesionFacts> which) {
        return Entries.those(lesions, which);
    }

    private void aortoIliac(Side side) {
        var rule = new AortoIliacTasc(side, limits);
        var together = new Combination<>(rule, concerning(lesion -> AortoIliacTasc.concerns(lesion.segment())));
        var acting = new Acting();
        var row = rule.row(together.actedOn(acting));
        together.decisive(rule::type).forEach(this::ask);
        var ofThisSide = concerning(lesion -> lesion.mayConcern(side)
                && (AORTO_ILIAC.contains(lesion.segment()) || lesion.segment() == Segment.COMMON_FEMORAL));
        var alone =
                new Combination<>(rule, Entries.those(ofThisSide, lesion -> AortoIliacTasc.concerns(lesion.segment())));
        var ofBothSides = rule.type(alone.actedOn(new Acting())) != row.type();
        entries.add(new Anatomy(
                Region.AORTO_ILIAC,
                side,
                type(row),
                List.copyOf(new TreeSet<>(together.possible(rule::type))),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                paths(ofBothSides ? concerning(lesion -> AORTO_ILIAC.contains(lesion.segment())) : ofThisSide),
                sentence(row) + aneurysmOnRecord(row) + openEnds(acting)));
        var entry = entries.getLast();
        reason("tasc-aorto-iliac", entry.because(), words(side) + ", aorto-iliac. " + entry.text());
    }

    /** {@code Left} or {@code Right}. */
    private static String words(Side side) {
        return side == Side.LEFT ? "Left" : "Right";
    }

    /** The size of an aneurysm known only from the history is nobody's field here, so it is said and not counted. */
    private String aneurysmOnRecord(PrintedRow row) {
        return document.history().aorticAneurysm().orElse(false)
                        && !Entries.any(
                                lesions, lesion -> lesion.segment() == Segment.INFRARENAL_AORTA && lesion.aneurysm())
                        && row.type() != Tasc.NONE
                        && row.type() != Tasc.D
                ? " An aneurysm of the aorta is on record: beside one that needs treatment this is type D."
                : "";
    }

    private void belowTheGroin(Side side) {
        var above = reported(side, FEMOROPOPLITEAL);
        var acting = new Acting();
        var staging = staging(side, acting);
        if (above) {
            var rule = new FemoropoplitealTasc(side, treatedTwice(side), limits);
            var together = new Combination<>(
                    rule,
                    concerning(lesion -> FemoropoplitealTasc.concerns(lesion.segment()) && lesion.mayConcern(side)));
            var row = rule.row(together.actedOn(acting));
            together.decisive(rule::type).forEach(this::ask);
            entries.add(entry(
                    Region.FEMOROPOPLITEAL,
                    side,
                    type(row),
                    List.copyOf(new TreeSet<>(together.possible(rule::type))),
                    staging,
                    paths(concerning(lesion -> lesion.mayConcern(side)
                            && (FEMOROPOPLITEAL.contains(lesion.segment())
                                    || INFRAPOPLITEAL.contains(lesion.segment())))),
                    sentence(row) + staged(staging) + openEnds(acting)));
            reason(
                    "tasc-femoropopliteal",
                    entries.getLast().because(),
                    words(side) + ", femoro-popliteal. " + sentence(row) + openEnds(acting));
        } else {
            entries.add(entry(
                    Region.INFRAPOPLITEAL,
                    side,
                    Optional.empty(),
                    List.of(Tasc.NONE),
                    staging,
                    paths(concerning(lesion -> lesion.mayConcern(side) && INFRAPOPLITEAL.contains(lesion.segment()))),
                    "TASC II has no type for the arteries below the knee." + staged(staging) + openEnds(acting)));
        }
        if (entries.getLast().glass().isPresent()) {
            reason("glass", entries.getLast().because(), words(side) + " leg." + staged(staging) + openEnds(acting));
        }
    }

    private static Anatomy entry(
            Region region,
            Side side,
            Optional<Tasc> tasc,
            List<Tasc> possible,
            Optional<Staging> staging,
            List<String> because,
            String text) {
        return new Anatomy(
                region,
                side,
                tasc,
                possible,
                staging.map(found -> found.actOn().stage()).filter(stage -> stage != GlassTable.NO_STAGE),
                staging.map(Staging::possible).orElse(List.of()),
                staging.map(found -> found.actOn().actOnFemoropopliteal()),
                staging.map(found -> found.actOn().actOnInfrapopliteal()),
                because,
                text);
    }

    /** Empty where the foot is gone, or no artery of the path to it is reported. */
    private Optional<Staging> staging(Side side, Acting acting) {
        var ofPath = concerning(lesion -> Glass.concerns(lesion.segment()) && lesion.mayConcern(side));
        var footGone = document.legs()
                .of(side)
                .amputation()
                .map(Amputation::aboveAnkle)
                .orElse(false);
        if (footGone || Entries.all(ofPath, LesionFacts::knownNotToCount)) {
            return Optional.empty();
        }
        var rule = new Glass(side, limits);
        var together = new Combination<>(rule, ofPath);
        var actOn = rule.grades(together.actedOn(acting));
        together.decisive(whole -> rule.grades(whole).shown()).forEach(this::ask);
        if (actOn.stage() != GlassTable.NO_STAGE) {
            askWhatIsNotReported(side, ofPath);
        }
        var stages = new TreeSet<Integer>();
        together.possible(rule::grades).forEach(grades -> stages.addAll(grades.stages()));
        return Optional.of(new Staging(actOn, List.copyOf(stages)));
    }

    private void askWhatIsNotReported(Side side, List<LesionFacts> ofPath) {
        var leg = side.name().toLowerCase(Locale.ROOT) + " leg";
        if (!Entries.any(ofPath, lesion -> Glass.below(lesion.segment()))) {
            ask(
                    "lesions",
                    "Which arteries below the knee of the " + leg + " are narrowed or closed, and which are open?");
        }
        if (!Entries.any(ofPath, lesion -> Glass.above(lesion.segment()))) {
            ask("lesions", "Are the arteries between groin and knee of the " + leg + " narrowed or closed, or open?");
        }
    }

    /**
     * Recurrent is a lesion in a stent with two earlier treatments from within the artery, counted in the list of
     * procedures; one without a side or a segment may have been here and counts (common practice).
     */
    private boolean treatedTwice(Side side) {
        return Entries.count(
                        document.procedures().orElse(List.of()),
                        procedure -> treatedFromWithin(procedure)
                                && procedure.side().map(side::equals).orElse(true)
                                && procedure
                                        .segment()
                                        .map(FEMOROPOPLITEAL::contains)
                                        .orElse(true))
                >= limits.whole(Limit.TASC_RECURRENT_TREATMENTS_AT_LEAST);
    }

    private static boolean treatedFromWithin(Procedure procedure) {
        return procedure
                        .kind()
                        .map(kind -> kind == ProcedureKind.ANGIOPLASTY || kind == ProcedureKind.STENT)
                        .orElse(false)
                && !procedure.outcome().equals(Optional.of(Outcome.FAILED))
                && !procedure.intent().equals(Optional.of(Intent.DIAGNOSTIC));
    }

    private static Optional<Tasc> type(PrintedRow row) {
        return Optional.of(row.type()).filter(type -> type != Tasc.NONE);
    }

    private static List<String> paths(List<LesionFacts> lesions) {
        return Entries.each(Entries.those(lesions, lesion -> !lesion.knownNotToCount()), LesionFacts::path);
    }

    private static String sentence(PrintedRow row) {
        return row.type() == Tasc.NONE
                ? "TASC II: " + row.text() + "."
                : "TASC II type " + row.type().label() + ": " + row.text() + ".";
    }

    private static String staged(Optional<Staging> staging) {
        return staging.map(Staging::actOn)
                .filter(grades -> grades.stage() != GlassTable.NO_STAGE)
                .map(grades -> Sentence.of(
                        " GLASS stage %d (from secondary copies of the guideline): %s between groin and knee, %s below.",
                        grades.stage(), graded(grades.femoropopliteal()), graded(grades.infrapopliteal())))
                .orElse("");
    }

    private static String graded(Optional<Integer> grade) {
        return grade.map(known -> "grade " + known).orElse("no lesion reported, taken as grade 0,");
    }

    private String openEnds(Acting acting) {
        var ends = new StringBuilder();
        if (acting.open()) {
            ends.append(" What is not known about a lesion was taken at its most serious.");
        }
        if (unplaced) {
            ends.append(" A lesion of which the artery is not known is not counted.");
        }
        return ends.toString();
    }
}
