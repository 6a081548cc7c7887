package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.anatomy.AnatomicFindings;
import limbqueue.triage.anatomy.AnatomicFindings.Open;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * On which lesions an entry of the anatomy rests, what it says, and what is asked. What each printed row calls for is in
 * the tables under {@code published}; common practice, no source, is what counts where the tables are silent.
 */
class AnatomicFindingsTest {

    private static final String UNKNOWN = " What is not known about a lesion was taken at its most serious.";
    private static final String NOT_PLACED = " A lesion of which the artery is not known is not counted.";

    private static AnatomicFindings findings(String given) {
        return AnatomicFindings.of(
                Facts.of(given).document(), RuleBook.shipped().on(Facts.TODAY));
    }

    /** A lesion of which everything is known, as {@code left commonIliac 80 40}. */
    private static String lesion(int index, String side, String segment, int percent, int length) {
        var path = " lesions[%d].".formatted(index);
        return path + "segment=" + segment + (side.isEmpty() ? "" : path + "side=" + side) + path + "stenosisPercent="
                + percent + path + "lengthMm=" + length + path + "calcification=none" + path + "ostial=false" + path
                + "inStent=false";
    }

    private static Anatomy only(AnatomicFindings findings) {
        assertThat(findings.entries()).hasSize(1);
        return findings.entries().getFirst();
    }

    private static Anatomy of(AnatomicFindings findings, Region region, Side side) {
        return findings.entries().stream()
                .filter(entry -> entry.region() == region && entry.side() == side)
                .findFirst()
                .orElseThrow();
    }

    private static List<String> asked(AnatomicFindings findings, String field) {
        return findings.questions().stream()
                .filter(question -> question.field().equals(field))
                .map(Open::ask)
                .toList();
    }

    @Test
    void anEntryAndItsReasonSayWhichRowIsMetOnWhichSide() {
        for (var side : List.of("left", "right")) {
            var findings = findings(lesion(0, side, "commonIliac", 80, 40));
            assertThat(only(findings).text()).isEqualTo("TASC II type A: narrowed common iliac artery.");
            assertThat(only(findings).because()).containsExactly("lesions[0]");
            assertThat(findings.reasons(RuleBook.shipped()))
                    .containsExactly(new Reason(
                            "tasc-aorto-iliac",
                            List.of("lesions[0]"),
                            (side.equals("left") ? "Left" : "Right")
                                    + ", aorto-iliac. TASC II type A: narrowed common iliac artery.",
                            RuleBook.shipped().sourceOf("tasc-aorto-iliac")));
            assertThat(findings.questions()).isEmpty();
        }
    }

    @Test
    void whatIsTakenAtItsMostSeriousIsSaid() {
        var findings = findings("lesions[0].segment=commonIliac lesions[0].side=left");
        assertThat(only(findings).text())
                .isEqualTo("TASC II type B: the common iliac artery of one side is closed." + UNKNOWN);
        assertThat(asked(findings, "lesions[0].stenosisPercent"))
                .containsExactly("By how many percent is the left common iliac artery narrowed (100 if it is closed)?");
    }

    @Test
    void oneOfSeveralLesionsOfAnArteryIsAskedAboutByItsNumber() {
        var two =
                "lesions[0].segment=externalIliac lesions[0].side=left lesions[1].segment=externalIliac lesions[1].side=";
        assertThat(asked(findings(two + "left"), "lesions[1].lengthMm"))
                .containsExactly(
                        "How many millimetres long is the diseased part of the left external iliac artery (lesion 2)?");
        assertThat(asked(findings(two + "right"), "lesions[1].lengthMm"))
                .containsExactly("How many millimetres long is the diseased part of the right external iliac artery?");
        assertThat(asked(
                        findings("lesions[0].segment=commonIliac lesions[0].side=left lesions[1].segment=externalIliac"
                                + " lesions[1].side=left"),
                        "lesions[1].lengthMm"))
                .allMatch(question -> !question.contains("lesion 2"));
    }

    @Test
    void theArteryOfALesionThatMayCountIsAskedAndTheEntryOwnsUpToIt() {
        var placed = lesion(0, "left", "commonIliac", 80, 40);
        for (var percent : List.of("50", "80")) {
            var findings = findings(placed + " lesions[1].side=left lesions[1].stenosisPercent=" + percent);
            assertThat(asked(findings, "lesions[1].segment"))
                    .containsExactly("In which artery is lesion 2 of the list?");
            assertThat(only(findings).text()).endsWith("narrowed common iliac artery." + NOT_PLACED);
            assertThat(only(findings).because()).containsExactly("lesions[0]");
        }
        assertThat(asked(findings(placed + " lesions[1].side=left"), "lesions[1].segment"))
                .hasSize(1);
    }

    @Test
    void theArteryOfALesionTooSlightToCountOrOfAnEmptyLineIsNotAsked() {
        var placed = lesion(0, "left", "commonIliac", 80, 40);
        for (var other :
                List.of(" lesions[1].side=left lesions[1].stenosisPercent=49", lesion(2, "left", "pedal", 10, 5))) {
            var findings = findings(placed + other);
            assertThat(asked(findings, "lesions[1].segment")).isEmpty();
            assertThat(only(findings).text()).isEqualTo("TASC II type A: narrowed common iliac artery.");
        }
    }

    @Test
    void anAortoIliacEntryRestsOnTheLesionsOfItsSideUnlessTheOtherSideMakesTheType() {
        var both = findings(lesion(0, "left", "externalIliac", 100, 40)
                + lesion(1, "right", "externalIliac", 100, 40)
                + lesion(2, "right", "commonFemoral", 80, 10)
                + lesion(3, "left", "superficialFemoral", 80, 10));
        assertThat(of(both, Region.AORTO_ILIAC, Side.LEFT).tasc()).contains(Tasc.D);
        assertThat(of(both, Region.AORTO_ILIAC, Side.LEFT).because()).containsExactly("lesions[0]", "lesions[1]");
        var oneSide = findings(lesion(0, "left", "externalIliac", 80, 20)
                + lesion(1, "left", "commonFemoral", 80, 10)
                + lesion(2, "left", "profundaFemoris", 80, 10)
                + lesion(3, "right", "commonIliac", 80, 10)
                + lesion(4, "left", "internalIliac", 80, 10)
                + lesion(5, "left", "commonIliac", 30, 10));
        assertThat(of(oneSide, Region.AORTO_ILIAC, Side.LEFT).because())
                .as("the slight narrowing does not count, deep femoral and the other side are no part of it")
                .containsExactly("lesions[0]", "lesions[1]", "lesions[4]");
        assertThat(of(oneSide, Region.AORTO_ILIAC, Side.RIGHT).because()).containsExactly("lesions[3]");
    }

    @Test
    void anAneurysmKnownFromTheHistoryOnlyIsSaidWhereItWouldMatter() {
        var words = " An aneurysm of the aorta is on record: beside one that needs treatment this is type D.";
        var iliac = "history.aorticAneurysm=true" + lesion(0, "left", "commonIliac", 80, 40);
        assertThat(only(findings(iliac)).text()).endsWith(words);
        assertThat(only(findings(iliac.replace("true", "false"))).text()).doesNotContain(words);
        assertThat(of(
                                findings(iliac + lesion(1, "", "infrarenalAorta", 0, 10)
                                        + " lesions[1].aneurysm=true lesions[1].diameterMm=40"),
                                Region.AORTO_ILIAC,
                                Side.LEFT)
                        .text())
                .as("its size is in the list of lesions")
                .doesNotContain(words);
        var d = only(findings("history.aorticAneurysm=true"
                + lesion(0, "left", "commonIliac", 100, 40)
                + lesion(1, "left", "externalIliac", 100, 40)));
        assertThat(d.tasc()).contains(Tasc.D);
        assertThat(d.text()).as("worse it cannot be").doesNotContain(words);
        var none = only(findings("history.aorticAneurysm=true" + lesion(0, "left", "internalIliac", 80, 10)));
        assertThat(none.tasc()).isEmpty();
        assertThat(none.text())
                .isEqualTo("TASC II: no printed row fits: nothing that the table classifies is narrowed.");
    }

    /** TASC II, D: only what the printed row names, on the sides it names. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            a long aortic stenosis with iliac disease of one side is no D | C | infrarenalAorta 45 | left commonIliac 40 |
            of both sides it is                                          | D | infrarenalAorta 45 | left commonIliac 40 | right externalIliac 20
            common iliac and common femoral without the external are A   | A | left commonIliac 40 | left commonFemoral 10 |
            external iliac and common femoral without the common are C   | C | left externalIliac 40 | left commonFemoral 10 |
            an external iliac of 30 mm on one side is short              | A | left externalIliac 30 | right externalIliac 80 |
            and on the other side too                                    | B | left externalIliac 80 | right externalIliac 30 |
            31 mm of both sides are C                                    | C | left externalIliac 31 | right externalIliac 31 |
            external iliac stenoses of 100 mm are the printed B          | B | left externalIliac 60 | left externalIliac 40 |
            of 101 mm they are longer than any printed row               | C | left externalIliac 60 | left externalIliac 41 |
            """)
    void stenosesThatLieBesideAPrintedRowAreNotTakenForIt(
            String why, Tasc expected, String first, String second, String third) {
        var given = new StringBuilder();
        var index = 0;
        for (var written : new String[] {first, second, third}) {
            if (written != null) {
                var words = written.split(" ", -1);
                var aorta = words.length == 2;
                given.append(lesion(
                        index++,
                        aorta ? "" : words[0],
                        words[aorta ? 0 : 1],
                        80,
                        Integer.parseInt(words[words.length - 1])));
            }
        }
        assertThat(of(findings(given.toString()), Region.AORTO_ILIAC, Side.LEFT).tasc())
                .as(why)
                .contains(expected);
    }

    @Test
    void anAneurysmThatIsTreatedMakesDiseaseOfEitherIliacArteryDAndAloneIsNoDisease() {
        var aneurysm = lesion(0, "", "infrarenalAorta", 0, 10) + " lesions[0].aneurysm=true lesions[0].diameterMm=";
        var right = findings(aneurysm + "60" + lesion(1, "right", "externalIliac", 80, 10));
        assertThat(of(right, Region.AORTO_ILIAC, Side.RIGHT).tasc()).contains(Tasc.D);
        assertThat(of(right, Region.AORTO_ILIAC, Side.RIGHT).text()).contains("aneurysm of the aorta of a size");
        var small = findings(aneurysm + "40" + lesion(1, "right", "externalIliac", 80, 10));
        assertThat(of(small, Region.AORTO_ILIAC, Side.RIGHT).tasc()).contains(Tasc.A);
        assertThat(findings(aneurysm + "60").entries()).isEmpty();
    }

    @Test
    void belowTheGroinAnEntryRestsOnEveryLesionOfThatLeg() {
        var findings = findings(lesion(0, "left", "superficialFemoral", 80, 60)
                + lesion(1, "left", "anteriorTibial", 80, 10)
                + lesion(2, "right", "popliteal", 80, 10)
                + lesion(3, "left", "externalIliac", 80, 10)
                + lesion(4, "left", "popliteal", 20, 10)
                + lesion(5, "right", "peroneal", 80, 10));
        var left = of(findings, Region.FEMOROPOPLITEAL, Side.LEFT);
        assertThat(left.because()).containsExactly("lesions[0]", "lesions[1]");
        // GLASS: 60 mm of the superficial femoral artery is grade 1, a focal tibial stenosis grade 1; the stage is I.
        var glass =
                " GLASS stage 1 (from secondary copies of the guideline): grade 1 between groin and knee, grade 1 below.";
        assertThat(left.text()).isEqualTo("TASC II type A: a single short narrowing." + glass);
        assertThat(findings.reasons(RuleBook.shipped()))
                .extracting(Reason::rule, Reason::text, Reason::because)
                .contains(
                        tuple(
                                "tasc-femoropopliteal",
                                "Left, femoro-popliteal. TASC II type A: a single short narrowing.",
                                List.of("lesions[0]", "lesions[1]")),
                        tuple("glass", "Left leg." + glass, List.of("lesions[0]", "lesions[1]")));
        assertThat(asked(findings, "lesions")).isEmpty();
    }

    @Test
    void lesionsBelowTheKneeAloneHaveNoTascTypeButAStage() {
        var findings = findings(lesion(0, "right", "peroneal", 80, 10)
                + lesion(1, "left", "posteriorTibial", 80, 10)
                + lesion(2, "right", "pedal", 10, 10)
                + lesion(3, "right", "commonIliac", 80, 10));
        var right = of(findings, Region.INFRAPOPLITEAL, Side.RIGHT);
        assertThat(right.because()).containsExactly("lesions[0]");
        assertThat(right.text())
                .isEqualTo(
                        "TASC II has no type for the arteries below the knee. GLASS stage 1 (from secondary copies of the"
                                + " guideline): no lesion reported, taken as grade 0, between groin and knee, grade 1 below.");
        assertThat(right.glassFemoropopliteal()).contains(0);
        assertThat(asked(findings, "lesions"))
                .containsExactlyInAnyOrder(
                        "Are the arteries between groin and knee of the left leg narrowed or closed, or open?",
                        "Are the arteries between groin and knee of the right leg narrowed or closed, or open?");
        assertThat(findings.reasons(RuleBook.shipped()))
                .extracting(Reason::rule)
                .containsExactly("glass", "tasc-aorto-iliac", "glass");
    }

    @Test
    void whatNobodyReportsOfThePathToTheFootIsAskedOncePerLeg() {
        assertThat(asked(findings(lesion(0, "left", "popliteal", 80, 10)), "lesions"))
                .containsExactly(
                        "Which arteries below the knee of the left leg are narrowed or closed, and which are open?");
        assertThat(asked(findings(lesion(0, "left", "tibioperonealTrunk", 80, 10)), "lesions"))
                .containsExactly(
                        "Are the arteries between groin and knee of the left leg narrowed or closed, or open?");
        assertThat(asked(findings(lesion(0, "left", "commonFemoral", 80, 10)), "lesions"))
                .as("the path that is staged begins below it")
                .isEmpty();
    }

    @Test
    void withoutAStageThereIsNoReasonAndNoQuestionForOne() {
        var gone = findings("L.amputation=belowKnee" + lesion(0, "left", "superficialFemoral", 80, 60));
        assertThat(only(gone).glass()).isEmpty();
        assertThat(only(gone).text()).isEqualTo("TASC II type A: a single short narrowing.");
        assertThat(gone.reasons(RuleBook.shipped())).extracting(Reason::rule).containsExactly("tasc-femoropopliteal");
        assertThat(gone.questions()).isEmpty();
        assertThat(only(findings(lesion(0, "left", "pedal", 80, 10))).glassPossible())
                .as("the foot is no part of the path")
                .isEmpty();
        assertThat(findings(lesion(0, "left", "popliteal", 49, 10)).entries()).isEmpty();
    }

    @Test
    void aNarrowedCommonFemoralArteryAloneHasNoPrintedRow() {
        assertThat(only(findings(lesion(0, "left", "commonFemoral", 80, 10))).text())
                .isEqualTo("TASC II: no printed row fits a narrowed common femoral artery alone; that is mostly an"
                        + " operation.");
        assertThat(only(findings(lesion(0, "left", "profundaFemoris", 80, 10))).text())
                .isEqualTo("TASC II: no printed row fits: nothing that the table classifies is narrowed.");
    }

    @Test
    void aRowSaysWhetherTheArteryIsNarrowedOrClosedAndWhetherThePoplitealIsInvolved() {
        assertThat(only(findings(lesion(0, "left", "superficialFemoral", 100, 40)))
                        .text())
                .startsWith("TASC II type A: a single short occlusion.");
        assertThat(only(findings(lesion(0, "left", "superficialFemoral", 100, 80)))
                        .text())
                .startsWith("TASC II type B: a single occlusion of middle length.");
        assertThat(only(findings(lesion(0, "left", "superficialFemoral", 80, 120)))
                        .text())
                .startsWith("TASC II type B: a single narrowing of middle length.");
        var closed = lesion(0, "left", "superficialFemoral", 100, 210);
        assertThat(only(findings(closed)).text()).contains("of which nothing is reported");
        assertThat(only(findings(closed + lesion(1, "left", "popliteal", 80, 10)))
                        .text())
                .contains("with the popliteal artery involved");
        assertThat(only(findings(lesion(0, "left", "popliteal", 100, 210))).tasc())
                .as("a popliteal occlusion alone is not the long femoral one")
                .contains(Tasc.C);
    }

    /** Recurrent: in a stent, after two treatments from within the artery. The printed row counts treatments only. */
    @ParameterizedTest
    @CsvSource({
        "angioplasty, completed, treatment, superficialFemoral, left, true",
        "stent, incomplete, treatment, popliteal, left, true",
        "thrombectomy, completed, treatment, superficialFemoral, left, false",
        "angioplasty, failed, treatment, superficialFemoral, left, false",
        "angioplasty, completed, diagnostic, superficialFemoral, left, false",
        "angioplasty, completed, treatment, commonIliac, left, false",
        "angioplasty, completed, treatment, superficialFemoral, right, false",
    })
    void theSecondTreatmentFromWithinTheArteryMakesANarrowedStentRecurrent(
            String kind, String outcome, String intent, String segment, String side, boolean recurrent) {
        var given = lesion(0, "left", "superficialFemoral", 80, 40).replace("inStent=false", "inStent=true")
                + " procedures[0].kind=stent procedures[0].outcome=completed"
                + " procedures[1].kind=%s procedures[1].outcome=%s procedures[1].intent=%s procedures[1].segment=%s procedures[1].side=%s"
                        .formatted(kind, outcome, intent, segment, side);
        assertThat(only(findings(given)).tasc()).contains(recurrent ? Tasc.C : Tasc.A);
    }

    /** GLASS, severe calcification: one grade more, never beyond the highest; nothing is raised where nothing is diseased. */
    @Test
    void severeCalcificationRaisesAGradeByOne() {
        var short60 = lesion(0, "left", "superficialFemoral", 80, 60);
        assertThat(only(findings(short60)).glassFemoropopliteal()).contains(1);
        assertThat(only(findings(short60.replace("calcification=none", "calcification=severe")))
                        .glassFemoropopliteal())
                .contains(2);
        var trunk = lesion(0, "left", "tibioperonealTrunk", 80, 10);
        assertThat(only(findings(trunk)).glassInfrapopliteal()).contains(3);
        assertThat(only(findings(trunk.replace("calcification=none", "calcification=severe")))
                        .glassInfrapopliteal())
                .contains(4);
        var closedTrunk = lesion(0, "left", "tibioperonealTrunk", 100, 10);
        assertThat(only(findings(closedTrunk)).glassInfrapopliteal()).contains(4);
        assertThat(only(findings(closedTrunk.replace("calcification=none", "calcification=severe")))
                        .glassInfrapopliteal())
                .contains(4);
    }
}
