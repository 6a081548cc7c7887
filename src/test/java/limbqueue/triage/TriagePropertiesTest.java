package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.random.RandomGenerator;
import limbqueue.document.ResultFormat;
import limbqueue.document.Unchecked;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Contradiction;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.WorkUpItem;
import org.junit.jupiter.api.Test;

/**
 * What holds of every referral. Each failure names the seed and the referral; the seeds are fixed, so that a failure
 * comes back.
 */
class TriagePropertiesTest {

    private static final double[] KNOWN = {0.05, 0.2, 0.5, 0.9};

    /** Answers to questions about anything but a leg's fields. */
    private static final List<Object> YES_OR_NO = List.of(false, true);

    private static void forReferrals(int count, long firstSeed, BiConsumer<RandomGenerator, Facts> property) {
        for (var i = 0; i < count; i++) {
            var seed = firstSeed + i;
            var random = new Random(seed);
            var facts = RandomReferral.draw(random, KNOWN[i % KNOWN.length]);
            try {
                property.accept(random, facts);
            } catch (AssertionError | RuntimeException e) {
                fail("seed " + seed + ": " + e.getMessage() + "\nreferral: " + facts, e);
            }
        }
    }

    @Test
    void triageNeverThrowsAndSaysTheSameTwice() {
        forReferrals(5_000, 1, (random, facts) -> {
            var once = ResultFormat.write(facts.triage());
            if (random.nextInt(50) == 0) {
                assertThat(facts.document()).isEqualTo(Unchecked.document(facts.json()));
                assertThat(ResultFormat.write(facts.triage())).isEqualTo(once);
            }
        });
    }

    @Test
    void whatIsPossibleContainsWhatIsActedOn() {
        forReferrals(1_000, 10_000, (random, facts) -> {
            var result = facts.triage();
            assertThat(result.urgency().possible()).contains(result.urgency().tier());
            for (var side : Side.values()) {
                var leg = result.legs().of(side);
                assertThat(leg.fontaine().possible()).contains(leg.fontaine().grade());
                assertThat(leg.rutherford().possible())
                        .contains(leg.rutherford().category());
                leg.wifi().ifPresent(wifi -> assertThat(wifi.possibleStages()).contains(wifi.stage()));
                if (leg.chronicLimbThreatening() == Answer.CANNOT_SAY) {
                    assertThat(leg.chronicLimbThreateningPossible()).contains(Answer.YES, Answer.NO);
                } else {
                    assertThat(leg.chronicLimbThreateningPossible()).contains(leg.chronicLimbThreatening());
                }
            }
        });
    }

    @Test
    void everyQuestionIsAWholeSentenceThatNamesItsLeg() {
        forReferrals(500, 15_000, (random, facts) -> {
            for (var question : facts.triage().questions()) {
                assertThat(question.ask()).doesNotContain("%").doesNotContainPattern("\\s[?:,.]|\\s\\s");
                if (question.field().startsWith("legs.") && !question.ask().contains("patient's")) {
                    var side = question.field()
                            .substring("legs.".length(), question.field().indexOf('.', "legs.".length()));
                    assertThat(question.ask()).contains(side);
                }
            }
        });
    }

    private static final List<String> WORSE_WHEN_LATER_IN_THE_LIST = List.of(
            "pressures.dorsalisPedis",
            "pressures.posteriorTibial",
            "pressures.toe",
            "pressures.tcpo2",
            "pressures.waveform",
            "abi",
            "tbi",
            "claudication.distanceMetres",
            "claudication.present",
            "claudication.limitsLife",
            "claudication.course",
            "restPain.present",
            "restPain.needsOpioid",
            "wound.ulcer",
            "wound.gangrene",
            "wound.exposes",
            "wound.spreading",
            "infection.localSigns",
            "infection.rednessMm",
            "infection.deep",
            "infection.temperatureC",
            "infection.heartRate",
            "infection.respiratoryRate",
            "infection.paco2",
            "infection.whiteCellsPerMicrolitre",
            "acute.pain",
            "acute.cold",
            "acute.sensory",
            "acute.motor");

    /** One step worse in one fact, all else equal. An index that cannot be measured is no pressure, and is left alone. */
    @Test
    void aWorseFactIsNeverLessUrgent() {
        forReferrals(300, 20_000, (random, facts) -> {
            var before = facts.triage();
            for (var side : List.of("left", "right")) {
                var leg = before.legs().of(Side.valueOf(side.toUpperCase(java.util.Locale.ROOT)));
                var noncompressible = leg.abi()
                        .map(abi -> abi.band() == AbiBand.NONCOMPRESSIBLE)
                        .orElse(false);
                for (var field : WORSE_WHEN_LATER_IN_THE_LIST) {
                    var path = "legs." + side + "." + field;
                    var answers = Objects.requireNonNull(RandomReferral.LEG.get(field));
                    var now = facts.get(path).map(answers::indexOf).orElse(-1);
                    var ofAnkle =
                            field.equals("abi") || field.startsWith("pressures.d") || field.startsWith("pressures.p");
                    if (now < 0 || now == answers.size() - 1 || (ofAnkle && noncompressible)) {
                        continue;
                    }
                    var after = facts.with(path, answers.get(now + 1)).triage();
                    assertThat(after.urgency().tier())
                            .as(path + " from " + answers.get(now) + " to " + answers.get(now + 1) + "; before: "
                                    + before.urgency().because() + " after: "
                                    + after.urgency().because())
                            .isLessThanOrEqualTo(before.urgency().tier());
                }
            }
        });
    }

    @Test
    void exchangingLeftAndRightExchangesTheResult() {
        forReferrals(500, 30_000, (random, drawn) -> {
            var facts = drawn.without("history.leftInternalMammaryGraft");
            var result = facts.triage();
            var mirrored = RandomReferral.mirrored(facts).triage();
            assertThat(mirrored.legs().left()).isEqualTo(result.legs().right());
            assertThat(mirrored.legs().right()).isEqualTo(result.legs().left());
            assertThat(mirrored.urgency().tier()).isEqualTo(result.urgency().tier());
            assertThat(mirrored.urgency().possible()).isEqualTo(result.urgency().possible());
            assertThat(mirrored.urgency().targetDate())
                    .isEqualTo(result.urgency().targetDate());
            assertThat(codes(mirrored)).isEqualTo(codes(result));
            assertThat(mirrored.workUp().stream().map(WorkUpItem::code))
                    .containsExactlyElementsOf(
                            result.workUp().stream().map(WorkUpItem::code).toList());
            assertThat(fields(mirrored).stream().map(RandomReferral::exchanged))
                    .containsExactlyInAnyOrderElementsOf(fields(result));
            assertThat(mirrored.contradictions().stream().map(Contradiction::text))
                    .containsExactlyInAnyOrderElementsOf(result.contradictions().stream()
                            .map(Contradiction::text)
                            .toList());
        });
    }

    @Test
    void theOrderOfListsDoesNotMatter() {
        forReferrals(500, 40_000, (random, facts) -> {
            var result = facts.triage();
            var shuffled = RandomReferral.shuffled(facts).triage();
            assertThat(shuffled.legs()).isEqualTo(result.legs());
            assertThat(shuffled.urgency()).isEqualTo(result.urgency());
            assertThat(codes(shuffled)).isEqualTo(codes(result));
            assertThat(shuffled.workUp()).isEqualTo(result.workUp());
            assertThat(shuffled.questions()).hasSameSizeAs(result.questions());
        });
    }

    /** The left internal mammary artery has no twin that is grafted as often, so that question is not exchanged. */
    private static List<String> fields(TriageResult result) {
        return result.questions().stream()
                .map(Question::field)
                .filter(field -> !field.equals("history.leftInternalMammaryGraft"))
                .toList();
    }

    private static List<String> codes(TriageResult result) {
        return result.redFlags().stream().map(RedFlag::code).toList();
    }

    /** Answering what is asked, in any way, again and again: the result stays within what was possible before. */
    @Test
    void theAnswerToAnyQuestionStaysWithinWhatWasPossible() {
        forReferrals(250, 50_000, (random, drawn) -> {
            var facts = drawn;
            var result = facts.triage();
            for (var round = 0; round < 220 && !result.questions().isEmpty(); round++) {
                var question = RandomReferral.pick(random, result.questions());
                var answered = answer(facts, question, RandomReferral.pick(random, answers(question)));
                var after = answered.triage();
                // With an arm measured, an index can be worked out beside a pressure that was told: a second figure for
                // the
                // same thing, which is outside of what is called possible.
                if (!question.field().startsWith("armPressures")) {
                    within(result, after, question.field() + " answered: " + answered);
                }
                if (question.field().startsWith("lesions[") && !question.field().endsWith("].segment")) {
                    anatomyWithin(result, after, question.field() + " answered: " + answered);
                }
                assertThat(after.questions().stream().map(TriagePropertiesTest::asked))
                        .as("asked again")
                        .doesNotContain(asked(question));
                facts = answered;
                result = after;
            }
            assertThat(result.questions())
                    .as("a referral with every answer has no questions")
                    .isEmpty();
        });
    }

    /** About the list of lesions several things may be asked. */
    private static String asked(Question question) {
        return question.field().equals("lesions") ? question.ask() : question.field();
    }

    /** A further field of a lesion that is reported already. */
    private static void anatomyWithin(TriageResult before, TriageResult after, String why) {
        for (var now : after.anatomy()) {
            var old = before.anatomy().stream()
                    .filter(entry -> entry.side() == now.side()
                            && (entry.region() == Region.AORTO_ILIAC) == (now.region() == Region.AORTO_ILIAC))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(why + "\nhas a new entry: " + now));
            assertThat(old.possible()).as(why).containsAll(now.possible());
            if (old.glassFemoropopliteal().isPresent()) {
                assertThat(old.glassPossible()).as(why).containsAll(now.glassPossible());
            }
        }
    }

    private static void within(TriageResult before, TriageResult after, String why) {
        assertThat(before.urgency().possible())
                .as(why)
                .containsAll(after.urgency().possible());
        for (var side : Side.values()) {
            LegResult old = before.legs().of(side);
            LegResult now = after.legs().of(side);
            assertThat(old.fontaine().possible())
                    .as(why)
                    .containsAll(now.fontaine().possible());
            assertThat(old.rutherford().possible())
                    .as(why)
                    .containsAll(now.rutherford().possible());
            assertThat(old.chronicLimbThreateningPossible()).as(why).containsAll(now.chronicLimbThreateningPossible());
            now.wifi()
                    .ifPresent(wifi -> assertThat(old.wifi().orElseThrow().possibleStages())
                            .as(why)
                            .containsAll(wifi.possibleStages()));
        }
    }

    /** Where few facts are open, every tier and every stage of Fontaine that is called possible is reached by answers. */
    @Test
    void whatIsPossibleIsReachedByAnswers() {
        var explored = 0;
        for (var seed = 60_000L; explored < 20; seed++) {
            var facts = almostEverythingKnown(new Random(seed));
            var first = facts.triage();
            var tiers = EnumSet.noneOf(Tier.class);
            var fontaines = new HashSet<>();
            if (!exploreAll(facts, tiers, fontaines)) {
                continue;
            }
            explored++;
            assertThat(tiers)
                    .as("seed " + seed + ", referral: " + facts)
                    .containsExactlyInAnyOrderElementsOf(first.urgency().possible());
            for (var possible : first.legs().left().fontaine().possible()) {
                assertThat(fontaines)
                        .as("seed " + seed + ", referral: " + facts)
                        .contains(possible);
            }
        }
    }

    private static Facts almostEverythingKnown(RandomGenerator random) {
        var facts = RandomReferral.draw(random, 0.95).with("legs.right.amputation", "aboveKnee");
        for (var path : List.copyOf(facts.values().keySet())) {
            if (path.startsWith("legs.right.") && !path.endsWith("amputation")) {
                facts = facts.without(path);
            }
        }
        for (var i = 0; i < 4; i++) {
            var fields = facts.values().keySet().stream()
                    .filter(path -> path.startsWith("legs.left."))
                    .toList();
            facts = facts.without(RandomReferral.pick(random, fields));
        }
        return facts;
    }

    /** False when there are too many combinations. */
    private static boolean exploreAll(Facts facts, Set<Tier> tiers, Set<Object> fontaines) {
        var open = new ArrayDeque<Facts>(List.of(facts));
        for (var visited = 0; !open.isEmpty(); visited++) {
            if (visited > 400) {
                return false;
            }
            var next = open.pop();
            var result = next.triage();
            tiers.add(result.urgency().tier());
            fontaines.add(result.legs().left().fontaine().grade());
            result.questions().stream()
                    .filter(question ->
                            !List.of("anatomy", "workUp", "procedurePlan").containsAll(question.couldChange()))
                    .findFirst()
                    .ifPresent(
                            question -> answers(question).forEach(answer -> open.push(answer(next, question, answer))));
        }
        return true;
    }

    static Facts answer(Facts facts, Question question, Object answer) {
        return switch (question.field()) {
            case "medicines" ->
                answer.equals(true) ? facts.with("medicines[0].name", "warfarin") : facts.with("medicines", List.of());
            case "allergies" ->
                answer.equals(true)
                        ? facts.with("allergies[0].to", "iodinated contrast").with("allergies[0].reaction", "mild")
                        : facts.with("allergies", List.of());
            case "imaging" ->
                answer.equals(true)
                        ? facts.with("imaging[0].kind", "duplex").with("imaging[0].date", "2026-03-02")
                        : facts.with("imaging", List.of());
            case "procedures" ->
                answer.equals(true)
                        ? facts.with("procedures[0].kind", "angioplasty").with("procedures[0].outcome", "failed")
                        : facts.with("procedures", List.of());
            case "lesions" -> lesion(facts, question, answer);
            default -> facts.with(question.field(), answer);
        };
    }

    private static Facts lesion(Facts facts, Question question, Object answer) {
        if (question.ask().contains("aneurysm")) {
            return facts.without("lesions")
                    .with("lesions[9].segment", "popliteal")
                    .with("lesions[9].aneurysm", true)
                    .with("lesions[9].diameterMm", answer.equals(true) ? 30 : 10);
        }
        var next = "lesions[" + (20 + facts.values().size()) + "].";
        return facts.without("lesions")
                .with(next + "segment", question.ask().contains("below the knee") ? "peroneal" : "superficialFemoral")
                .with(next + "side", question.ask().contains("left") ? "left" : "right")
                .with(next + "stenosisPercent", answer.equals(true) ? 100 : 20);
    }

    static List<Object> answers(Question question) {
        var field = question.field();
        if (field.endsWith("].name")) {
            return List.of("apixaban", "paracetamol");
        }
        if (field.endsWith("].dose")) {
            return List.of("2.5 mg", "20 mg");
        }
        if (field.endsWith("].reaction")) {
            return List.of("mild", "severe");
        }
        if (field.endsWith("].unit")) {
            return question.ask().contains("creatinine") ? List.of("mg/dL", "umol/L") : List.of("%", "mmol/mol");
        }
        if (field.endsWith("].taken") || field.endsWith("].date")) {
            return List.of("2026-03-02", "2025-03-02");
        }
        if (field.startsWith("legs.")) {
            var ofLeg = field.substring(field.indexOf('.', 5) + 1);
            if (ofLeg.equals("claudication.course")) {
                return List.of("stable", "worse");
            }
            return new ArrayList<>(RandomReferral.LEG.get(ofLeg));
        }
        if (field.endsWith("stenosisPercent")) {
            return List.of(20, 50, 100);
        }
        if (field.endsWith("lengthMm")) {
            return List.of(10, 40, 120, 250);
        }
        if (field.endsWith("calcification")) {
            return List.of("none", "severe");
        }
        if (field.endsWith("].side")) {
            return List.of("left", "right");
        }
        if (field.endsWith("].segment")) {
            return List.of("externalIliac", "superficialFemoral", "anteriorTibial", "internalIliac");
        }
        if (field.endsWith("ageMonths")) {
            return List.of(1, 24);
        }
        if (field.endsWith("accessSite")) {
            return List.of("left groin", "right groin", "left arm", "crossover");
        }
        if (field.endsWith("diameterMm")) {
            return List.of(10, 30, 60);
        }
        if (field.endsWith("outcome")) {
            return List.of("completed", "failed");
        }
        if (field.startsWith("armPressures")) {
            return List.of(110, 125, 200);
        }
        return switch (field) {
            case "asked.expediteGrounds" -> List.of("clinical", "travel");
            case "deferredElsewhere.days" -> List.of(3, 30);
            case "patient.born" -> List.of("1990-01-01", "1940-01-01");
            case "patient.sex" -> List.of("female", "male");
            case "weightKg" -> List.of(40, 90);
            case "history.smoking" -> List.of("never", "current");
            case "history.exerciseProgrammeWeeks" -> List.of(0, 12);
            default -> YES_OR_NO;
        };
    }
}
