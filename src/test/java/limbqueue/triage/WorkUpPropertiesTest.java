package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import java.util.random.RandomGenerator;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.workup.Item;
import org.junit.jupiter.api.Test;

/** What holds of the work-up of every referral. Each failure names the seed and the referral. */
class WorkUpPropertiesTest {

    /** Drawn in the same order always, so that a seed is the same referral always. */
    private static final Map<String, List<Object>> MORE = new TreeMap<>(Map.of(
            "medicines[1].name",
                    List.of("rivaroxaban", "warfarin", "dabigatran", "dapagliflozin", "insulin", "ibuprofen"),
            "medicines[2].name", List.of("clopidogrel", "aspirin", "metformin", "ticagrelor"),
            "medicines[1].dose", List.of("2.5 mg", "20 mg"),
            "weightKg", List.of(45, 70, 110),
            "labs[5].taken", List.of("2025-06-01", "2026-02-28"),
            "labs[5].unit", List.of("mg/dL", "umol/L"),
            "labs[6].taken", List.of("2025-06-01", "2026-02-28"),
            "history.recentMyocardialInfarctionDays", List.of(20, 300),
            "allergies[0].reaction", List.of("mild", "severe")));

    private static void forReferrals(int count, long firstSeed, BiConsumer<RandomGenerator, Facts> property) {
        for (var seed = firstSeed; seed < firstSeed + count; seed++) {
            var random = new Random(seed);
            var known = List.of(0.2, 0.5, 0.9).get((int) (seed % 3));
            var facts = draw(random, known);
            try {
                property.accept(random, facts);
            } catch (AssertionError | RuntimeException e) {
                fail("seed " + seed + ": " + e.getMessage() + "\nreferral: " + facts, e);
            }
        }
    }

    private static Facts draw(RandomGenerator random, double known) {
        var facts = RandomReferral.draw(random, known);
        if (random.nextDouble() < known) {
            facts = facts.with("labs[5].test", "creatinine")
                    .with("labs[5].value", random.nextBoolean() ? 1.1 : 3.4)
                    .with("labs[6].test", RandomReferral.pick(random, List.of("inr", "potassium", "hba1c")))
                    .with("labs[6].value", random.nextBoolean() ? 2 : 6);
        }
        for (var entry : MORE.entrySet()) {
            if (random.nextDouble() < known
                    && (!entry.getKey().startsWith("labs")
                            || facts.get("labs[5].test").isPresent())) {
                facts = facts.with(entry.getKey(), RandomReferral.pick(random, entry.getValue()));
            }
        }
        return facts;
    }

    /** A fact that raises each red flag, all else equal. */
    private static final Map<String, List<String>> RAISES = Map.ofEntries(
            Map.entry("failed-attempt", List.of("procedures[30].outcome=failed procedures[30].kind=angioplasty")),
            Map.entry("earlier-complication", List.of("procedures[30].complication=perforation")),
            Map.entry("put-off-elsewhere", List.of("deferredElsewhere.days=60")),
            Map.entry("pressure-without-findings", List.of("asked.expedite=true asked.expediteGrounds=travel")),
            Map.entry("leaves-before-follow-up", List.of("patient.leavesArea=2026-03-05")),
            Map.entry("sudden-change", List.of("L.acute.onset=2026-03-01 L.acute.cold=true")),
            Map.entry(
                    "systemic-infection",
                    List.of("L.infection.localSigns=4 L.infection.deep=true"
                            + " L.infection.temperatureC=40 L.infection.heartRate=130")),
            Map.entry("diabetic-foot-emergency", List.of("history.diabetes=true L.wound.gangrene=digits")),
            Map.entry("arm-access-risk", List.of("armPressures.left=100 armPressures.right=150")),
            Map.entry("hard-to-see", List.of("history.spinalHardware=true lesions[30].segment=commonIliac")),
            Map.entry("aneurysm", List.of("history.aorticAneurysm=true")),
            Map.entry(
                    "kidney-risk",
                    List.of(
                            "history.dialysis=true",
                            "labs[30].test=egfr labs[30].value=20" + " labs[30].taken=2026-03-02")),
            Map.entry("contrast-allergy", List.of("allergies[30].to=iohexol")),
            Map.entry(
                    "bleeding-risk",
                    List.of(
                            "history.bleedingDisorder=true",
                            "medicines[30].name=apixaban",
                            "labs[30].test=inr labs[30].value=3 labs[30].taken=2026-03-02")),
            Map.entry("pregnancy", List.of("history.pregnant=true")));

    /**
     * Nothing is taken off the list because more is wrong. Exercise and treadmill give way only where the leg has become
     * too ill for them.
     */
    @Test
    void aFactThatRaisesARedFlagNeverRemovesAnItem() {
        var raised = new HashSet<String>();
        forReferrals(200, 300_000, (random, facts) -> {
            var before = facts.triage();
            RAISES.forEach((flag, ways) -> ways.forEach(way -> {
                // With an index or a pressure of the leg, the arms tell how well it is supplied.
                if (way.startsWith("armPressures") && facts.toString().matches(".*(abi|tbi|pressures).*")) {
                    return;
                }
                var changed = facts;
                for (var fact : Facts.of(way).values().entrySet()) {
                    changed = changed.with(fact.getKey(), fact.getValue());
                }
                var after = changed.triage();
                if (!codes(after.redFlags()).contains(flag)
                        || codes(before.redFlags()).contains(flag)) {
                    return;
                }
                raised.add(flag);
                var lost = new ArrayList<>(items(before));
                lost.removeAll(items(after));
                if (after.urgency().tier().moreUrgentThan(before.urgency().tier())
                        || way.startsWith("history.diabetes")) {
                    lost.removeAll(List.of("exercise-therapy", "exercise-abi"));
                }
                assertThat(lost).as(way).isEmpty();
                assertThat(needed(after)).as(way).containsAll(stillNeeded(before, after));
            }));
        });
        assertThat(raised).containsExactlyInAnyOrderElementsOf(RAISES.keySet());
    }

    /** What was needed stays needed, but for a value that the fact itself brings, and for what is due on an earlier day. */
    private static List<String> stillNeeded(TriageResult before, TriageResult after) {
        var needed = new ArrayList<>(needed(before));
        needed.retainAll(items(after));
        if (!before.urgency().tier().equals(after.urgency().tier())) {
            needed.removeAll(
                    List.of("duplex", "cta-or-mra", "hba1c", "blood-count", "potassium", "kidney-function", "inr"));
        }
        needed.removeAll(List.of("kidney-function", "inr"));
        return needed;
    }

    private static List<String> codes(List<RedFlag> flags) {
        return flags.stream().map(RedFlag::code).toList();
    }

    private static List<String> items(TriageResult result) {
        return result.workUp().stream().map(WorkUpItem::code).toList();
    }

    private static List<String> needed(TriageResult result) {
        return result.workUp().stream()
                .filter(WorkUpItem::needed)
                .map(WorkUpItem::code)
                .toList();
    }

    /** A question is asked for the work-up only if some answers to it lead to another work-up than others. */
    @Test
    void aQuestionForTheWorkUpChangesIt() {
        var asked = new HashSet<String>();
        forReferrals(120, 310_000, (random, facts) -> {
            for (var question : facts.triage().questions()) {
                if (!question.couldChange().contains("workUp")) {
                    continue;
                }
                asked.add(question.field().replaceAll("\\[\\d+]", ""));
                var lists = new HashSet<List<WorkUpItem>>();
                if (question.field().matches("weightKg|patient.born|.*unit")) {
                    // Some figures want several answers at once; with one of them the others are missing.
                    lists.add(facts.triage().workUp());
                }
                for (var answer : TriagePropertiesTest.answers(question)) {
                    lists.add(TriagePropertiesTest.answer(facts, question, answer)
                            .triage()
                            .workUp());
                }
                assertThat(lists.size())
                        .as(question.field() + ": " + question.ask())
                        .isGreaterThan(1);
            }
        });
        assertThat(asked)
                .contains(
                        "medicines",
                        "medicines.dose",
                        "allergies",
                        "allergies.reaction",
                        "labs.taken",
                        "imaging",
                        "imaging.date",
                        "weightKg",
                        "patient.born",
                        "patient.sex",
                        "history.diabetes",
                        "history.dialysis",
                        "history.heartFailure",
                        "history.stroke",
                        "history.coronaryBypass",
                        "history.thyroidDisease",
                        "history.bleedingDisorder",
                        "history.pregnant",
                        "history.smoking");
    }

    @Test
    void aCreatinineInEitherUnitGivesTheSameResult() {
        forReferrals(200, 320_000, (random, facts) -> {
            var milligrams = (3 + random.nextInt(60)) / 10.0;
            var with = facts;
            for (var path : facts.values().keySet()) {
                with = path.startsWith("labs") ? with.without(path) : with;
            }
            with = with.with("labs[9].test", "creatinine").with("labs[9].taken", "2026-02-28");
            var dated = with;
            assertThat(dated.with("labs[9].unit", "umol/L")
                            .with("labs[9].value", milligrams * 88.4)
                            .triage())
                    .isEqualTo(dated.with("labs[9].unit", "mg/dL")
                            .with("labs[9].value", milligrams)
                            .triage());
        });
    }

    @Test
    void everyItemSaysWhoDoesItAndEveryFigureItsSource() {
        var sources = RuleBook.shipped().thresholds().sources().keySet();
        var waiting = new HashSet<String>(Set.of("access-plan", "procedure"));
        for (var item : Item.values()) {
            waiting.add(item.code());
        }
        forReferrals(200, 330_000, (random, facts) -> {
            for (var item : facts.triage().workUp()) {
                assertThat(item.text()).doesNotContain("%").doesNotContainPattern("\\s[?:,.]|\\s\\s|\\.$");
                assertThat(item.why()).endsWith(".").doesNotContainPattern("\\s[?:,.]|\\s\\s|\\.\\.");
                assertThat(waiting).containsAll(item.unlocks());
                assertThat(item.unlocks()).doesNotContain(item.code());
                for (var calculation : item.calculations()) {
                    assertThat(sources).contains(calculation.source());
                    assertThat(calculation.value()).isNotBlank().doesNotContainPattern("\\s[?:,.]|\\s\\s|\\.\\.");
                }
                assertThat(item.expires() && !item.needed()).isFalse();
                assertThat(item.expires() && item.validUntil().isEmpty()).isFalse();
            }
        });
    }

    /** No dose of a drug is ever shown, whatever the list of medicines says. */
    @Test
    void noDoseIsShown() {
        forReferrals(200, 340_000, (random, facts) -> {
            var medicated = facts.with("medicines[1].name", "rivaroxaban 20 mg")
                    .with("medicines[2].name", "metformin 850 mg")
                    .with("medicines[0].dose", "5 mg");
            for (var item : medicated.triage().workUp()) {
                assertThat(item.text() + item.why() + item.calculations()).doesNotContainPattern("\\d ?mg\\b(?!/)");
            }
        });
    }

    /** The booked time of day never changes what must be held, and each time lies on the right side of it. */
    @Test
    void aDrugIsHeldBeforeTheProcedureAndTakenAgainAfterIt() {
        forReferrals(200, 350_000, (random, facts) -> {
            var at = Expectation.BOOKED.plusHours(random.nextInt(200));
            var workUp = Triage.workUpFor(
                    limbqueue.document.Unchecked.document(facts.json()),
                    Policy.standard(),
                    RuleBook.shipped(),
                    Facts.TODAY,
                    at);
            for (var drug : workUp.drugs()) {
                drug.lastDose().ifPresent(last -> assertThat(last).isBeforeOrEqualTo(at));
                drug.restart().ifPresent(again -> assertThat(again).isAfter(at));
                assertThat(drug.hold().isPresent()).isEqualTo(drug.action() == DrugTiming.Action.HOLD);
                assertThat(drug.lastDose().isPresent()).isEqualTo(drug.hold().isPresent());
                assertThat(drug.text()).contains("rescriber").matches("(Proposed|Ask the prescriber).*");
                assertThat(facts.get(drug.medicine()).isPresent()).isTrue();
            }
            for (var item : workUp.items()) {
                item.validUntil()
                        .ifPresent(until ->
                                assertThat(item.needed()).as(item.code()).isEqualTo(until.isBefore(at.toLocalDate())));
            }
        });
    }
}
