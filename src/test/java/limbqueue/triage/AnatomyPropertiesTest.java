package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.random.RandomGenerator;
import limbqueue.document.Unchecked;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.anatomy.AnatomicFindings;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;

/** What holds of the anatomy of every list of lesions. The seeds are fixed; each failure names its own and the lesions. */
class AnatomyPropertiesTest {

    /** The answers of a lesion's fields, worst last where one is worse than another. */
    private static final Map<String, List<Object>> FIELDS = new LinkedHashMap<>();

    private static final List<Object> SEGMENTS = List.of(
            "infrarenalAorta",
            "commonIliac",
            "externalIliac",
            "internalIliac",
            "commonFemoral",
            "profundaFemoris",
            "superficialFemoral",
            "popliteal",
            "tibioperonealTrunk",
            "anteriorTibial",
            "posteriorTibial",
            "peroneal",
            "pedal");

    /** Lengths in steps, and close on either side of every printed limit. */
    private static final List<Object> FINE = fineLengths();

    static {
        FIELDS.put("side", List.of("left", "right"));
        FIELDS.put("stenosisPercent", List.of(0, 49, 50, 75, 99, 100));
        FIELDS.put(
                "lengthMm",
                List.of(3, 17.5, 20, 29, 30, 31, 40, 49.5, 50, 51, 60, 99, 100, 101, 140, 150, 151, 200, 201, 260));
        FIELDS.put("ostial", List.of(false, true));
        FIELDS.put("calcification", List.of("none", "moderate", "severe"));
        FIELDS.put("inStent", List.of(false, true));
        FIELDS.put("aneurysm", List.of(false, true));
        FIELDS.put("diameterMm", List.of(8, 54.9, 55, 70));
    }

    private static List<Object> fineLengths() {
        var lengths = new TreeSet<Double>();
        for (var length = 0.0; length <= 250; length += 10) {
            lengths.add(length);
        }
        for (var limit : List.of(20, 30, 50, 100, 150, 200)) {
            lengths.add(limit - 0.1);
            lengths.add(limit + 0.1);
        }
        return new ArrayList<>(lengths);
    }

    /** What an entry says; one that is not there says that nothing is narrowed. */
    private record Said(Set<Tasc> tasc, int above, int below, Set<Integer> stages) {}

    /** One to {@code most} lesions, of nearby segments as often as not. */
    private static Facts draw(RandomGenerator random, int most, double known) {
        var facts = Facts.of("");
        var count = 1 + random.nextInt(most);
        var from = random.nextInt(SEGMENTS.size());
        for (var i = 0; i < count; i++) {
            var entry = "lesions[" + i + "].";
            var segment = SEGMENTS.get(Math.floorMod(from + random.nextInt(5) - 2, SEGMENTS.size()));
            facts = facts.with(entry + "segment", segment);
            for (var field : FIELDS.entrySet()) {
                var rare = field.getKey().equals("aneurysm") && random.nextInt(4) > 0;
                var none = field.getKey().equals("side") && segment.equals("infrarenalAorta");
                if (!rare && !none && random.nextDouble() < known) {
                    var answers = field.getKey().equals("stenosisPercent") && random.nextInt(3) > 0
                            ? List.<Object>of(75, 100)
                            : field.getValue();
                    facts = facts.with(entry + field.getKey(), RandomReferral.pick(random, answers));
                }
            }
        }
        for (var i = 0; i < random.nextInt(4); i++) {
            facts = facts.with("procedures[" + i + "].kind", "stent")
                    .with("procedures[" + i + "].side", RandomReferral.pick(random, List.of("left", "right")))
                    .with("procedures[" + i + "].segment", "superficialFemoral");
        }
        return facts;
    }

    private static void forLesions(
            int count, long firstSeed, int most, double known, BiConsumer<RandomGenerator, Facts> property) {
        for (var i = 0; i < count; i++) {
            var seed = firstSeed + i;
            var random = new Random(seed);
            var facts = draw(random, most, known);
            try {
                property.accept(random, facts);
            } catch (AssertionError | RuntimeException e) {
                fail("seed " + seed + ": " + e.getMessage() + "\nlesions: " + facts, e);
            }
        }
    }

    private static AnatomicFindings findings(Facts facts) {
        return AnatomicFindings.of(
                Unchecked.document(facts.json()), RuleBook.shipped().on(Facts.TODAY));
    }

    private static List<Anatomy> anatomy(Facts facts) {
        return findings(facts).entries();
    }

    /** The entry of the arteries from groin to foot, or of those above it. */
    private static Map<String, Anatomy> byPlace(Facts facts) {
        var byPlace = new HashMap<String, Anatomy>();
        for (var entry : anatomy(facts)) {
            byPlace.put(place(entry.region() == Region.AORTO_ILIAC, entry.side()), entry);
        }
        return byPlace;
    }

    private static String place(boolean aortoIliac, Side side) {
        return (aortoIliac ? "aorto-iliac " : "below the groin ") + side;
    }

    private static Said said(Facts facts, Map<String, Anatomy> entries, boolean aortoIliac, Side side) {
        var entry = entries.get(place(aortoIliac, side));
        if (entry == null) {
            return new Said(Set.of(Tasc.NONE), 0, 0, aortoIliac ? Set.of() : whatIsNotReportedAllows(facts, side));
        }
        return new Said(
                Set.copyOf(entry.possible()),
                entry.glassFemoropopliteal().orElse(0),
                entry.glassInfrapopliteal().orElse(0),
                !aortoIliac && entry.glassFemoropopliteal().isEmpty()
                        ? whatIsNotReportedAllows(facts, side)
                        : Set.copyOf(entry.glassPossible()));
    }

    /** With nothing that counts, a stage is ruled out only where arteries above and below the knee are reported. */
    private static Set<Integer> whatIsNotReportedAllows(Facts facts, Side side) {
        var above = false;
        var below = false;
        for (var i = 0; facts.get("lesions[" + i + "].segment").isPresent(); i++) {
            var segment = facts.get("lesions[" + i + "].segment").orElseThrow();
            if (facts.get("lesions[" + i + "].side")
                    .map(known -> known.equals(side.name().toLowerCase(java.util.Locale.ROOT)))
                    .orElse(false)) {
                above |= List.of("superficialFemoral", "popliteal").contains(segment);
                below |= List.of("tibioperonealTrunk", "anteriorTibial", "posteriorTibial", "peroneal")
                        .contains(segment);
            }
        }
        return above && below ? Set.of(0) : Set.of(0, 1, 2, 3);
    }

    /** The fields of lesions that are not known; an aneurysm that nobody mentioned is none. */
    private static List<String> unknown(Facts facts) {
        var unknown = new ArrayList<String>();
        for (var i = 0; facts.get("lesions[" + i + "].segment").isPresent(); i++) {
            var entry = "lesions[" + i + "].";
            var aorta = facts.get(entry + "segment").orElseThrow().equals("infrarenalAorta");
            for (var field : FIELDS.keySet()) {
                var asked = !field.equals("aneurysm") && !(field.equals("side") && aorta);
                if (asked && facts.get(entry + field).isEmpty()) {
                    unknown.add(entry + field);
                }
            }
        }
        return unknown;
    }

    private static List<Object> answers(String path, boolean fine) {
        var field = path.substring(path.indexOf('.') + 1);
        return switch (field) {
            case "lengthMm" -> fine ? FINE : Objects.requireNonNull(FIELDS.get(field));
            case "stenosisPercent" -> List.of(40, 60, 100);
            case "diameterMm" -> List.of(20, 60);
            case "calcification" -> List.of("none", "severe");
            default -> Objects.requireNonNull(FIELDS.get(field));
        };
    }

    /** Every filling of every unknown field of a few lesions, in fine steps of length: what is possible is reached, all of it and no more. */
    @Test
    void whatIsPossibleIsExactlyWhatFillingTheUnknownReaches() {
        var tried = new int[1];
        forLesions(2_000, 1, 3, 0.85, (random, facts) -> {
            var unknown = unknown(facts);
            var fillings = fillings(facts, unknown, 1_500);
            if (unknown.isEmpty() || fillings.isEmpty()) {
                return;
            }
            tried[0]++;
            var reached = new HashMap<String, Set<Object>>();
            for (var filled : fillings) {
                var entries = byPlace(filled);
                for (var side : Side.values()) {
                    for (var aortoIliac : List.of(true, false)) {
                        var said = said(filled, entries, aortoIliac, side);
                        var place = place(aortoIliac, side);
                        reached.computeIfAbsent(place, _ -> new HashSet<>()).addAll(said.tasc());
                        reached.computeIfAbsent(place + " stage", _ -> new HashSet<>())
                                .addAll(said.stages());
                    }
                }
            }
            byPlace(facts).forEach((place, entry) -> {
                assertThat(new HashSet<Object>(entry.possible()))
                        .as(place + " " + entry)
                        .isEqualTo(reached.get(place));
                if (entry.glassFemoropopliteal().isPresent()) {
                    assertThat(new HashSet<Object>(entry.glassPossible()))
                            .as(place + " " + entry)
                            .isEqualTo(reached.get(place + " stage"));
                }
            });
        });
        assertThat(tried[0]).isGreaterThan(500);
    }

    /** With every other unknown filled in some way, different answers to a field that is asked give different anatomy. */
    @Test
    void aFieldIsAskedExactlyWhenItsAnswerChangesTheAnatomy() {
        var tried = new int[1];
        forLesions(1_500, 100_000, 3, 0.85, (random, facts) -> {
            var unknown = unknown(facts);
            var fillings = fillings(facts, unknown, 800);
            if (unknown.isEmpty() || fillings.isEmpty()) {
                return;
            }
            tried[0]++;
            var said = new HashMap<Facts, List<Said>>();
            for (var filled : fillings) {
                var entries = byPlace(filled);
                var all = new ArrayList<Said>();
                for (var side : Side.values()) {
                    all.add(said(filled, entries, true, side));
                    all.add(said(filled, entries, false, side));
                }
                said.put(filled, all);
            }
            var changing = new TreeSet<String>();
            for (var field : unknown) {
                var byOthers = new HashMap<Facts, Set<List<Said>>>();
                said.forEach((filled, all) -> byOthers.computeIfAbsent(filled.without(field), _ -> new HashSet<>())
                        .add(all));
                if (byOthers.values().stream().anyMatch(different -> different.size() > 1)) {
                    changing.add(field);
                }
            }
            var asked = new TreeSet<String>();
            findings(facts).questions().stream()
                    .map(AnatomicFindings.Open::field)
                    .filter(field -> !field.equals("lesions"))
                    .forEach(asked::add);
            assertThat(asked).isEqualTo(changing);
        });
        assertThat(tried[0]).isGreaterThan(300);
    }

    /** Empty when there are more than {@code most}. */
    private static List<Facts> fillings(Facts facts, List<String> unknown, int most) {
        var fine = unknown.stream().filter(path -> path.endsWith("lengthMm")).count() < 2;
        var count = 1L;
        for (var path : unknown) {
            count *= answers(path, fine).size();
            if (count > most) {
                return List.of();
            }
        }
        var fillings = List.of(facts);
        for (var path : unknown) {
            var next = new ArrayList<Facts>();
            for (var filled : fillings) {
                answers(path, fine).forEach(answer -> next.add(filled.with(path, answer)));
            }
            fillings = next;
        }
        return fillings;
    }

    @Test
    void whatIsActedOnIsPossible() {
        forLesions(2_000, 200_000, 5, 0.5, (random, facts) -> {
            for (var entry : anatomy(facts)) {
                assertThat(entry.possible())
                        .contains(entry.tasc().orElse(Tasc.NONE))
                        .isSorted();
                if (entry.glassFemoropopliteal().isPresent()) {
                    assertThat(entry.glassPossible())
                            .contains(entry.glass().orElse(0))
                            .isSorted();
                } else {
                    assertThat(entry.glassPossible()).isEmpty();
                    assertThat(entry.glass()).isEmpty();
                }
            }
        });
    }

    @Test
    void exchangingLeftAndRightExchangesTheAnatomy() {
        forLesions(1_000, 300_000, 5, 0.7, (random, facts) -> {
            var mirrored = byPlace(RandomReferral.mirrored(facts));
            var entries = byPlace(facts);
            assertThat(mirrored).hasSameSizeAs(entries);
            entries.values().forEach(entry -> {
                var other = Objects.requireNonNull(mirrored.get(
                        place(entry.region() == Region.AORTO_ILIAC, entry.side().opposite())));
                assertThat(other)
                        .isEqualTo(new Anatomy(
                                entry.region(),
                                entry.side().opposite(),
                                entry.tasc(),
                                entry.possible(),
                                entry.glass(),
                                entry.glassPossible(),
                                entry.glassFemoropopliteal(),
                                entry.glassInfrapopliteal(),
                                entry.because(),
                                entry.text()));
            });
        });
    }

    @Test
    void theOrderOfLesionsDoesNotMatter() {
        forLesions(1_000, 400_000, 5, 0.7, (random, facts) -> {
            var shuffled = byPlace(RandomReferral.shuffled(facts));
            byPlace(facts).forEach((place, entry) -> {
                var other = Objects.requireNonNull(shuffled.get(place));
                assertThat(other.possible()).isEqualTo(entry.possible());
                assertThat(other.glassPossible()).isEqualTo(entry.glassPossible());
                assertThat(other.text()).isEqualTo(entry.text());
            });
        });
    }

    /** Longer, narrower, more calcified or at the origin: never a lower type, grade or stage. */
    @Test
    void aWorseLesionIsNeverOfALowerTypeOrGrade() {
        forLesions(1_500, 500_000, 5, 0.8, (random, facts) -> {
            var before = byPlace(facts);
            for (var i = 0; facts.get("lesions[" + i + "].segment").isPresent(); i++) {
                for (var field : List.of("lengthMm", "stenosisPercent", "calcification", "ostial", "inStent")) {
                    var path = "lesions[" + i + "]." + field;
                    var answers = Objects.requireNonNull(FIELDS.get(field));
                    var now = facts.get(path).map(answers::indexOf).orElse(-1);
                    if (now < 0 || now == answers.size() - 1) {
                        continue;
                    }
                    var after = byPlace(facts.with(path, answers.get(now + 1)));
                    before.forEach((place, entry) -> {
                        var worse = Objects.requireNonNull(after.get(place), place);
                        var why = path + " worse than " + answers.get(now) + ": " + entry + " became " + worse;
                        assertThat(worse.tasc().orElse(Tasc.NONE))
                                .as(why)
                                .isGreaterThanOrEqualTo(entry.tasc().orElse(Tasc.NONE));
                        assertThat(worse.glassFemoropopliteal().orElse(0))
                                .as(why)
                                .isGreaterThanOrEqualTo(
                                        entry.glassFemoropopliteal().orElse(0));
                        assertThat(worse.glassInfrapopliteal().orElse(0))
                                .as(why)
                                .isGreaterThanOrEqualTo(
                                        entry.glassInfrapopliteal().orElse(0));
                        assertThat(worse.glass().orElse(0))
                                .as(why)
                                .isGreaterThanOrEqualTo(entry.glass().orElse(0));
                    });
                }
            }
        });
    }

    /** A lesion whose sides are known and which is no aneurysm is acted on as the most serious that it may be. */
    @Test
    void unknownMeasurementsAreActedOnAtTheirMostSerious() {
        forLesions(1_000, 600_000, 4, 0.6, (random, drawn) -> {
            var facts = drawn;
            for (var path : List.copyOf(facts.values().keySet())) {
                if (path.endsWith(".segment")) {
                    var entry = path.substring(0, path.indexOf('.') + 1);
                    facts = facts.without(entry + "aneurysm").with(entry + "inStent", false);
                    if (facts.get(entry + "side").isEmpty()) {
                        facts = facts.with(entry + "side", "left");
                    }
                }
            }
            for (var entry : anatomy(facts)) {
                assertThat(entry.tasc().orElse(Tasc.NONE)).isEqualTo(Collections.max(entry.possible()));
            }
        });
    }

    /** Ten lesions of which nothing but the artery is known, in every mixture of arteries. */
    @Test
    void manyUnknownLesionsDoNotExplode() {
        for (var seed = 0; seed < 30; seed++) {
            var random = new Random(seed);
            var facts = Facts.of("");
            for (var i = 0; i < 10; i++) {
                facts = facts.with(
                        "lesions[" + i + "].segment",
                        seed < SEGMENTS.size() ? SEGMENTS.get(seed) : RandomReferral.pick(random, SEGMENTS));
                if (seed % 2 == 0
                        && !facts.get("lesions[" + i + "].segment")
                                .orElseThrow()
                                .equals("infrarenalAorta")) {
                    facts = facts.with("lesions[" + i + "].side", "left");
                }
            }
            var lesions = facts;
            Assertions.assertTimeout(Duration.ofSeconds(2), () -> anatomy(lesions), lesions.toString());
        }
    }
}
