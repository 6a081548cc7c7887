package limbqueue.triage.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.Policy;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.Triage;
import limbqueue.triage.plan.StentNeed.Unknown;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** For which vessels a covered stent must be in the room, and which fit. All of it is common practice, no source. */
class StentNeedTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    /** Rest pain of both legs, so that both are treated. */
    private static final String BOTH_LEGS = """
            {"legs": {"left": {"restPain": {"present": true, "sinceDays": 40}},
                      "right": {"restPain": {"present": true, "sinceDays": 40}}}}""";

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # lesion                                                                          | needed | unknown
            segment=commonIliac side=left stenosisPercent=100 calcification=none               | yes    |
            segment=externalIliac side=left stenosisPercent=100                                | yes    |
            segment=internalIliac side=right stenosisPercent=100 calcification=none            | yes    |
            segment=infrarenalAorta stenosisPercent=100 calcification=none                     | yes    |
            segment=externalIliac side=left stenosisPercent=70 calcification=moderate          | yes    |
            segment=externalIliac side=left stenosisPercent=70 calcification=severe            | yes    |
            segment=externalIliac side=left stenosisPercent=50 calcification=severe            | yes    |
            segment=externalIliac side=left stenosisPercent=49 calcification=severe            | no     |
            segment=externalIliac side=left stenosisPercent=99 calcification=none              | no     |
            segment=externalIliac side=left stenosisPercent=70                                 | yes    | CALCIFICATION
            segment=externalIliac side=left calcification=none                                 | yes    | NARROWING
            segment=externalIliac side=left calcification=severe                               | yes    | NARROWING
            segment=externalIliac side=left                                                    | yes    | NARROWING CALCIFICATION
            segment=externalIliac stenosisPercent=100                                          | yes    |
            segment=externalIliac side=left aneurysm=true                                      | no     |
            segment=superficialFemoral side=left stenosisPercent=100 calcification=severe      | no     |
            segment=commonFemoral side=left stenosisPercent=100 calcification=severe           | no     |
            side=left stenosisPercent=100 calcification=severe                                 | no     |
            """)
    void aCoveredStentIsForIliacOcclusionsAndCalcifiedIliacNarrowings(String lesion, String needed, String unknown) {
        var needs = needs(lesion);

        assertThat(needs).hasSize(needed.equals("yes") ? 1 : 0);
        assertThat(needs.stream().flatMap(need -> need.unknown().stream()).sorted())
                .extracting(Unknown::name)
                .isEqualTo(unknown == null ? List.of() : List.of(unknown.split(" ")));
    }

    @ParameterizedTest
    @CsvSource({
        // vessel, lesion length, stent diameter, stent length, fits
        "8,   40,  7.9, 60, no",
        "8,   40,  8,   60, yes",
        "8,   40,  9,   60, yes",
        "8,   40,  9.1, 60, no",
        "8,   40,  8,   40, yes",
        "8,   40,  8,   39, no",
        "8,   70,  8,   50, yes",
        "8,   70,  8,   49, no",
        "7.5, 40,  8,   40, yes",
        "7.5, 40,  9,   40, no",
    })
    void aStentFitsFromTheWidthOfTheVesselToOneMillimetreMore(
            double vessel, double length, double diameterMm, double lengthMm, String fits) {
        var need = only(
                "segment=externalIliac side=left stenosisPercent=100 diameterMm=" + vessel + " lengthMm=" + length);

        assertThat(need.fits(diameterMm, lengthMm)).isEqualTo(fits.equals("yes"));
    }

    @Test
    void noStentFitsAVesselOfWhichNobodyKnowsTheDiameter() {
        var need = only("segment=externalIliac side=left stenosisPercent=100 lengthMm=20");

        assertThat(need.vesselMm()).isEmpty();
        assertThat(need.widestMm()).isEmpty();
        assertThat(need.fits(8, 60)).isFalse();
    }

    @Test
    void theWidthOfAnAneurysmIsNotThatOfTheVessel() {
        assertThat(only("segment=externalIliac side=left stenosisPercent=100 aneurysm=true diameterMm=31")
                        .vesselMm())
                .isEmpty();
    }

    @Test
    void aLengthThatNobodyKnowsCountsAsLong() {
        var need = only("segment=externalIliac side=left stenosisPercent=100 diameterMm=8");

        assertThat(need.fits(8, 50)).isTrue();
        assertThat(need.fits(8, 49)).isFalse();
    }

    @Test
    void lesionsOfOneVesselWantOneStent() {
        var needs = needs(
                "segment=externalIliac side=left stenosisPercent=60 diameterMm=7 lengthMm=20",
                "segment=externalIliac side=left stenosisPercent=100 diameterMm=8 lengthMm=30",
                "segment=externalIliac side=right stenosisPercent=100",
                "segment=commonIliac side=left stenosisPercent=100 diameterMm=9");

        assertThat(needs)
                .extracting(StentNeed::side, StentNeed::segment, StentNeed::lesions)
                .containsExactly(
                        tuple(Optional.of(Side.LEFT), Segment.EXTERNAL_ILIAC, List.of(0, 1)),
                        tuple(Optional.of(Side.RIGHT), Segment.EXTERNAL_ILIAC, List.of(2)),
                        tuple(Optional.of(Side.LEFT), Segment.COMMON_ILIAC, List.of(3)));
        assertThat(needs.getFirst().vesselMm()).contains(8.0);
        assertThat(needs.getFirst().widestMm()).contains(9.0);
        assertThat(needs.getFirst().lengthMm()).isEqualTo(30);
        assertThat(needs.getFirst().unknown()).isEqualTo(Set.of());
    }

    @Test
    void aLegThatIsNotTreatedNeedsNoStentAndASideThatNobodySaidIsOpen() {
        var left = Draft.of("{\"legs\": {\"left\": {\"restPain\": {\"present\": true, \"sinceDays\": 40}}}}");
        lesion(left, 0, "segment=externalIliac side=right stenosisPercent=100 diameterMm=8");
        assertThat(needs(left)).isEmpty();
        left.clear("lesions[0].side");
        assertThat(needs(left))
                .singleElement()
                .satisfies(need -> assertThat(need.sideOpen()).isTrue());
        left.set("lesions[0].segment", "infrarenalAorta");
        assertThat(needs(left))
                .singleElement()
                .satisfies(need -> assertThat(need.sideOpen()).isFalse());
    }

    /** The plan says it in words for the room, this says it for the stock: neither may know of a vessel that the other does not. */
    @Test
    void thePlanAndTheStockSpeakOfTheSameCases() {
        var referrals = new GeneratedReferrals(20260302);
        var wanted = 0;
        for (var i = 0; i < 2000; i++) {
            var draft = Draft.of(referrals.next().toString());
            var document = draft.read(TODAY).document();
            var plan = Triage.triage(document, Policy.standard(), TODAY).procedurePlan();
            var inRoom = plan.stream().flatMap(one -> one.room().stream()).anyMatch(StentNeedTest::coveredStent);
            var needed = plan.stream()
                    .flatMap(one ->
                            StentNeed.of(document, one, RuleBook.shipped().on(TODAY)).stream())
                    .anyMatch(need -> !need.sideOpen());
            assertThat(needed).as(draft.toJson()).isEqualTo(inRoom);
            wanted += inRoom ? 1 : 0;
        }
        assertThat(wanted).isGreaterThan(100);
    }

    private static boolean coveredStent(RoomItem item) {
        return item.mustBeInRoom() && item.item().startsWith("covered stent");
    }

    private static StentNeed only(String lesion) {
        var needs = needs(lesion);
        assertThat(needs).hasSize(1);
        return needs.getFirst();
    }

    private static List<StentNeed> needs(String... lesions) {
        var draft = Draft.of(BOTH_LEGS);
        for (var i = 0; i < lesions.length; i++) {
            lesion(draft, i, lesions[i]);
        }
        return needs(draft);
    }

    private static List<StentNeed> needs(Draft draft) {
        var reading = draft.read(TODAY);
        assertThat(reading.problems()).isEmpty();
        ReferralDocument document = reading.document();
        return Triage.triage(document, Policy.standard(), TODAY)
                .procedurePlan()
                .map(plan -> StentNeed.of(document, plan, RuleBook.shipped().on(TODAY)))
                .orElseThrow();
    }

    /** @param fields as {@code segment=externalIliac side=left stenosisPercent=100} */
    private static void lesion(Draft draft, int index, String fields) {
        Stream.of(fields.strip().split(" +")).forEach(field -> {
            var at = field.indexOf('=');
            draft.set("lesions[" + index + "]." + field.substring(0, at), value(field.substring(at + 1)));
        });
    }

    private static Object value(String text) {
        if (text.equals("true")) {
            return true;
        }
        return text.matches("\\d+(\\.\\d+)?") ? (Object) Double.valueOf(text) : text;
    }
}
