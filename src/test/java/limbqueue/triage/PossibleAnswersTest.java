package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.random.RandomGenerator;
import limbqueue.document.DocumentFormat;
import limbqueue.document.Unchecked;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.ObjectMapper;

/**
 * What is called possible is exactly what the unknowns allow: every unknown field is filled with every representative
 * answer, all combinations where they are few and some of them where they are many. Nothing outside of what was called
 * possible may come of it, and where all combinations were tried everything called possible must have come of one.
 *
 * <p>An unknown is filled where it is one: not where another figure measures the same thing, and not where an answer
 * would contradict what is known, as the duration of a pain that was denied.
 */
class PossibleAnswersTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int MOST_COMBINATIONS = 20_000;

    private static final Set<String> OF_THE_PATIENT = Set.of(
            "infection.temperatureC",
            "infection.heartRate",
            "infection.respiratoryRate",
            "infection.paco2",
            "infection.whiteCellsPerMicrolitre");

    /** Ischaemia is new for 14 days. */
    private static final List<Object> RECENT = List.of("2026-02-16", "2026-03-01");

    /** Figures that measure the same thing; with one of them known the others are not missing. */
    private static final List<Set<String>> SAME_THING = List.of(
            Set.of("pressures.toe", "pressures.tcpo2", "tbi", "pressures.waveform"),
            Set.of("pressures.dorsalisPedis", "pressures.posteriorTibial", "abi"),
            Set.of("infection.respiratoryRate", "infection.paco2"));

    @Test
    void everythingPossibleIsReachedAndNothingElseIs() {
        var exhausted = 0;
        for (var seed = 1L; exhausted < 150; seed++) {
            var facts = almostEverythingKnown(new Random(seed));
            var reached = new Reached();
            if (open(facts).isEmpty() || !fill(facts, Unchecked.document(facts.json()), reached)) {
                continue;
            }
            exhausted++;
            try {
                reached.isExactly(facts.triage());
            } catch (AssertionError e) {
                fail(
                        "seed " + seed + ", open " + open(facts).keySet() + ", " + e.getMessage() + "\nreferral: "
                                + facts,
                        e);
            }
        }
    }

    @Test
    void nothingOutsideOfWhatIsPossibleIsReached() {
        for (var seed = 100_000L; seed < 100_600L; seed++) {
            var random = new Random(seed);
            var facts = RandomReferral.draw(random, 0.1 + 0.7 * random.nextDouble())
                    .without("legs.left.amputation")
                    .without("legs.right.amputation");
            var before = facts.triage();
            for (var i = 0; i < 40; i++) {
                var filled = facts;
                for (var open = open(filled); !open.isEmpty(); open = open(filled)) {
                    var field = RandomReferral.pick(random, List.copyOf(open.keySet()));
                    filled = filled.with(field, RandomReferral.pick(random, Objects.requireNonNull(open.get(field))));
                }
                var reached = new Reached();
                reached.add(Unchecked.document(filled.json()));
                try {
                    reached.isWithin(before);
                } catch (AssertionError e) {
                    fail("seed " + seed + ", " + e.getMessage() + "\nreferral: " + facts + "\nfilled: " + filled, e);
                }
            }
        }
    }

    private static Facts almostEverythingKnown(RandomGenerator random) {
        var facts = RandomReferral.draw(random, 0.93)
                .without("legs.left.amputation")
                .with("legs.right.amputation", "aboveKnee");
        for (var path : List.copyOf(facts.values().keySet())) {
            if (path.startsWith("legs.right.") && !path.endsWith("amputation")) {
                facts = facts.without(path);
            }
        }
        return facts;
    }

    /** The unknown fields with the answers that stand for all answers. */
    private static Map<String, List<Object>> open(Facts facts) {
        var open = new LinkedHashMap<String, List<Object>>();
        for (var side : List.of("left", "right")) {
            if (facts.get("legs." + side + ".amputation").isEmpty()) {
                RandomReferral.LEG.forEach((field, answers) -> {
                    if (isOpen(facts, side, field)) {
                        open.put("legs." + side + "." + field, field.equals("acute.onset") ? RECENT : answers);
                    }
                });
            }
        }
        var anyIndexReported = facts.get("legs.left.abi").isPresent()
                || facts.get("legs.right.abi").isPresent();
        if (facts.get("armPressures.left").isEmpty()
                && facts.get("armPressures.right").isEmpty()
                && !anyIndexReported) {
            open.put("armPressures.left", List.of(60, 110, 140, 250));
        }
        return open;
    }

    private static boolean isOpen(Facts facts, String side, String field) {
        var leg = "legs." + side + ".";
        if (facts.get(leg + field).isPresent()
                || field.startsWith("pulses")
                || field.equals("claudication.site")
                || field.equals("claudication.relief")
                || field.equals("abiAfterExercise")) {
            return false;
        }
        // Temperature, pulse, breathing and blood belong to the patient, whichever leg they were written down for.
        var other = "legs." + (side.equals("left") ? "right" : "left") + ".";
        if (OF_THE_PATIENT.contains(field)
                && OF_THE_PATIENT.stream()
                        .anyMatch(sign -> facts.get(other + sign).isPresent())) {
            return false;
        }
        for (var same : SAME_THING) {
            if (same.contains(field)
                    && same.stream().anyMatch(figure -> facts.get(leg + figure).isPresent())) {
                return false;
            }
        }
        if (field.equals("infection.rednessMm")) {
            // Redness is one of the local signs.
            return !facts.get(leg + "infection.localSigns").equals(Optional.of(0));
        }
        if (field.startsWith("wound.") && !field.equals("wound.ulcer") && !field.equals("wound.gangrene")) {
            // Of a wound that is not there, there is nothing to tell.
            var noUlcer = facts.get(leg + "wound.ulcer").equals(Optional.of("none"));
            var noGangrene = facts.get(leg + "wound.gangrene").equals(Optional.of("none"));
            return !noUlcer || (!noGangrene && !field.equals("wound.exposes"));
        }
        if (field.startsWith("acute.")) {
            var there = facts.get(leg + "acute.present").equals(Optional.of(true));
            return field.equals("acute.present")
                    ? acuteMayBeAsked(facts, leg)
                    : field.equals("acute.onset")
                            ? there
                            : there || facts.get(leg + "acute.onset").isPresent();
        }
        for (var complaint : List.of("claudication.", "restPain.")) {
            if (field.startsWith(complaint)) {
                // What is told of a complaint says that it is there; of one that is not there, there is nothing to
                // tell.
                return field.endsWith(".present")
                        ? noneKnown(facts, leg + complaint)
                        : facts.get(leg + complaint + "present").equals(Optional.of(true));
            }
        }
        return true;
    }

    /** A stable course, or a sudden change long ago, says that there is no new ischaemia. */
    private static boolean acuteMayBeAsked(Facts facts, String leg) {
        var course = facts.get(leg + "claudication.course");
        var longAgo = facts.get(leg + "claudication.sinceDays")
                .map(days -> (Integer) days > 14)
                .orElse(false);
        return noneKnown(facts, leg + "acute.")
                && !course.equals(Optional.of("stable"))
                && !(course.equals(Optional.of("sudden")) && longAgo);
    }

    private static boolean noneKnown(Facts facts, String group) {
        return facts.values().keySet().stream().noneMatch(path -> path.startsWith(group));
    }

    /** Fills what is open in every way, and what that opens; false when there are too many ways. */
    private static boolean fill(Facts facts, ReferralDocument document, Reached reached) {
        var open = open(facts);
        if (open.isEmpty()) {
            reached.add(document);
            return reached.filled <= MOST_COMBINATIONS;
        }
        var next = open.entrySet().iterator().next();
        for (var answer : next.getValue()) {
            var filled = DocumentFormat.with(document, next.getKey(), JSON.valueToTree(answer));
            if (!fill(facts.with(next.getKey(), answer), filled, reached)) {
                return false;
            }
        }
        return true;
    }

    /** What came of filling the unknowns. */
    private static final class Reached {
        private int filled;
        private final Set<Tier> tiers = new TreeSet<>();
        private final Map<Side, Set<Rutherford>> rutherfords = bySide();
        private final Map<Side, Set<Fontaine>> fontaines = bySide();
        private final Map<Side, Set<Answer>> threats = bySide();
        private final Map<Side, Set<Integer>> stages = bySide();

        private static <T> Map<Side, Set<T>> bySide() {
            var sets = new LinkedHashMap<Side, Set<T>>();
            for (var side : Side.values()) {
                sets.put(side, new LinkedHashSet<>());
            }
            return sets;
        }

        void add(ReferralDocument document) {
            filled++;
            var grading = Triage.grade(document, Policy.standard(), RuleBook.shipped(), Facts.TODAY);
            tiers.add(grading.tier());
            for (var side : Side.values()) {
                var leg = grading.of(side);
                of(rutherfords, side).add(leg.rutherford());
                of(fontaines, side).add(leg.fontaine());
                of(threats, side)
                        .addAll(
                                leg.chronicLimbThreatening() == Answer.CANNOT_SAY
                                        ? List.of(Answer.YES, Answer.NO)
                                        : List.of(leg.chronicLimbThreatening()));
                leg.wifi().ifPresent(wifi -> of(stages, side).add(wifi.stage()));
            }
        }

        private static <T> Set<T> of(Map<Side, Set<T>> sets, Side side) {
            return Objects.requireNonNull(sets.get(side));
        }

        void isWithin(TriageResult before) {
            compare(before, false);
        }

        void isExactly(TriageResult before) {
            compare(before, true);
        }

        private void compare(TriageResult before, boolean exactly) {
            compare("tier", tiers, before.urgency().possible(), exactly);
            for (var side : Side.values()) {
                var leg = before.legs().of(side);
                compare(
                        "rutherford " + side,
                        of(rutherfords, side),
                        leg.rutherford().possible(),
                        exactly);
                compare("fontaine " + side, of(fontaines, side), leg.fontaine().possible(), exactly);
                compare("threat " + side, of(threats, side), leg.chronicLimbThreateningPossible(), exactly);
                leg.wifi()
                        .ifPresent(wifi -> compare("stage " + side, of(stages, side), wifi.possibleStages(), exactly));
            }
        }

        private static <T> void compare(String what, Set<T> reached, List<T> possible, boolean exactly) {
            assertThat(possible).as(what + ": reached, but not called possible").containsAll(reached);
            if (exactly) {
                assertThat(reached)
                        .as(what + ": called possible, but not reached")
                        .containsAll(possible);
            }
        }
    }
}
