package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.preparation.StentNeed.Unknown;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** For which vessels a covered stent must be in the room, and which fit. All of it is common practice, no source. */
class StentNeedTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            textBlock = """
            # lesion                                                                          | needed | unknown
            segment=commonIliac side=left stenosisPercent=100 calcification=none               | yes    |
            segment=externalIliac side=left stenosisPercent=100                                | yes    |
            segment=internalIliac side=right stenosisPercent=100 calcification=none            | yes    |
            segment=externalIliac side=left stenosisPercent=70 calcification=moderate          | yes    |
            segment=externalIliac side=left stenosisPercent=70 calcification=severe            | yes    |
            segment=externalIliac side=left stenosisPercent=99 calcification=none              | no     |
            segment=externalIliac side=left stenosisPercent=70                                 | yes    | CALCIFIED
            segment=externalIliac side=left calcification=none                                 | yes    | OCCLUDED
            segment=externalIliac side=left                                                    | yes    | OCCLUDED CALCIFIED
            segment=externalIliac side=left aneurysm=true                                      | no     |
            segment=externalIliac side=left aneurysm=true calcification=severe                 | yes    |
            segment=superficialFemoral side=left stenosisPercent=100 calcification=severe      | no     |
            segment=commonFemoral side=left stenosisPercent=100 calcification=severe           | no     |
            segment=infrarenalAorta stenosisPercent=100 calcification=severe                   | no     |
            """)
    void aCoveredStentIsForIliacOcclusionsAndCalcifiedIliacNarrowings(String lesion, String needed, String unknown) {
        var needs = StentNeed.of(Cases.withLesions(lesion));

        assertThat(needs).hasSize(needed.equals("yes") ? 1 : 0);
        needs.forEach(need -> assertThat(need.unknown().stream()
                        .sorted()
                        .map(Unknown::name)
                        .toList())
                .isEqualTo(unknown == null ? List.of() : List.of(unknown.split(" "))));
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
        var need = only("segment=externalIliac side=left stenosisPercent=100 diameterMm=" + vessel + " lengthMm=" + length);

        assertThat(need.fits(diameterMm, lengthMm)).isEqualTo(fits.equals("yes"));
    }

    @Test
    void noStentFitsAVesselOfWhichNobodyKnowsTheDiameter() {
        assertThat(only("segment=externalIliac side=left stenosisPercent=100 lengthMm=20")
                        .fits(8, 60))
                .isFalse();
    }

    @Test
    void aLengthThatNobodyKnowsCountsAsLong() {
        var need = only("segment=externalIliac side=left stenosisPercent=100 diameterMm=8");

        assertThat(need.fits(8, 50)).isTrue();
        assertThat(need.fits(8, 49)).isFalse();
    }

    @Test
    void lesionsOfOneVesselWantOneStent() {
        var needs = StentNeed.of(Cases.withLesions(
                "segment=externalIliac side=left stenosisPercent=60 diameterMm=7 lengthMm=20",
                "segment=externalIliac side=left stenosisPercent=100 diameterMm=8 lengthMm=30",
                "segment=externalIliac side=right stenosisPercent=100",
                "segment=commonIliac side=left stenosisPercent=100 diameterMm=9"));

        assertThat(needs).extracting(StentNeed::side, StentNeed::segment)
                .containsExactly(
                        tuple(Optional.of(Side.LEFT), Segment.EXTERNAL_ILIAC),
                        tuple(Optional.of(Side.RIGHT), Segment.EXTERNAL_ILIAC),
                        tuple(Optional.of(Side.LEFT), Segment.COMMON_ILIAC));
        assertThat(needs.getFirst().lesions()).containsExactly(0, 1);
        assertThat(needs.getFirst().vesselMm()).contains(8.0);
        assertThat(needs.getFirst().lengthMm()).isEqualTo(30);
        assertThat(needs.getFirst().unknown()).isEqualTo(Set.of());
    }

    private static StentNeed only(String lesion) {
        var needs = StentNeed.of(Cases.withLesions(lesion));
        assertThat(needs).hasSize(1);
        return needs.getFirst();
    }
}
