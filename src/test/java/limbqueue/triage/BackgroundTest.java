package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.finding.Background;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What earlier treatment and lesions say of a leg, and what they leave open. Common practice, no source. */
class BackgroundTest {

    private static Background of(Side side, String given) {
        return Background.of(
                side, Facts.of(given).document(), RuleBook.shipped().on(Facts.TODAY));
    }

    private static Background ofLeft(String given) {
        return of(Side.LEFT, given);
    }

    /** svs-paa-2022: repair from 20 mm. */
    @ParameterizedTest
    @CsvSource({"19.9, false", "20, true", "30, true"})
    void aPoplitealAneurysmIsLargeFromTheLimitOn(String diameter, boolean large) {
        var here = "lesions[0].segment=popliteal lesions[0].aneurysm=true lesions[0].side=left lesions[0].diameterMm="
                + diameter;
        assertThat(ofLeft(here).largePoplitealAneurysm().known()).isTrue();
        assertThat(ofLeft(here).largePoplitealAneurysm().acting()).isEqualTo(large);
        assertThat(of(Side.RIGHT, here).largePoplitealAneurysm().acting()).isFalse();
        assertThat(ofLeft(here.replace("popliteal", "commonFemoral") + " history.poplitealAneurysm=false")
                        .largePoplitealAneurysm()
                        .acting())
                .isFalse();
        assertThat(ofLeft(here.replace("=true", "=false") + " history.poplitealAneurysm=false")
                        .largePoplitealAneurysm()
                        .acting())
                .isFalse();
    }

    @Test
    void aPoplitealAneurysmThatNobodyMeasuredIsTakenAsLargeAndAsked() {
        var unmeasured = ofLeft("lesions[0].segment=popliteal lesions[0].aneurysm=true lesions[0].side=left")
                .largePoplitealAneurysm();
        assertThat(unmeasured.known()).isFalse();
        assertThat(unmeasured.acting()).isTrue();
        assertThat(unmeasured.path()).isEqualTo("lesions[0].diameterMm");
        assertThat(unmeasured.ask()).isEqualTo("How many millimetres wide is the popliteal aneurysm of the left leg?");
        var onRecord = ofLeft("history.poplitealAneurysm=true").largePoplitealAneurysm();
        assertThat(onRecord.acting()).isTrue();
        assertThat(onRecord.path()).isEqualTo("lesions");
        var untold = ofLeft("received=2026-03-01").largePoplitealAneurysm();
        assertThat(untold.known()).isFalse();
        assertThat(untold.acting()).isFalse();
        assertThat(untold.path()).isEqualTo("history.poplitealAneurysm");
    }

    @ParameterizedTest
    @CsvSource({
        "lesions[0].inStent=true lesions[0].stenosisPercent=100, true",
        "lesions[0].inStent=true lesions[0].stenosisPercent=99, false",
        "lesions[0].inStent=false lesions[0].stenosisPercent=100, false",
        "procedures[0].kind=bypass procedures[0].complication=thrombosis, true",
        "procedures[0].kind=bypass procedures[0].complication=bleeding, false",
        "procedures[0].kind=stent procedures[0].complication=thrombosis, false",
    })
    void anEarlierStentOrBypassThatIsClosedCountsForItsLeg(String given, boolean occluded) {
        var list = given.startsWith("lesions") ? "lesions[0]" : "procedures[0]";
        var left = given + " " + list + ".side=left";
        assertThat(ofLeft(left).earlierRepairOccluded().known()).isTrue();
        assertThat(ofLeft(left).earlierRepairOccluded().acting()).isEqualTo(occluded);
        assertThat(of(Side.RIGHT, left).earlierRepairOccluded().acting()).isFalse();
        assertThat(of(Side.RIGHT, given).earlierRepairOccluded().acting())
                .as("without a side it concerns both legs")
                .isEqualTo(occluded);
    }

    @Test
    void whetherAStentIsStillOpenIsAskedAndTakenAtItsMostSerious() {
        var untold = ofLeft("lesions[0].inStent=true lesions[0].side=left").earlierRepairOccluded();
        assertThat(untold.known()).isFalse();
        assertThat(untold.acting()).isTrue();
        assertThat(untold.path()).isEqualTo("lesions[0].stenosisPercent");
        assertThat(untold.ask()).isEqualTo("Is the earlier stent of the left leg still open?");
    }

    @Test
    void aProcedureBrokenOffOrWithoutSuccessIsAbandonedAndACompletedOneIsNot() {
        for (var outcome : Outcome.values()) {
            var fact = ofLeft("procedures[0].side=left procedures[0].outcome="
                            + outcome.name().toLowerCase(java.util.Locale.ROOT))
                    .abandonedProcedure();
            assertThat(fact.known()).as(outcome.name()).isEqualTo(outcome != Outcome.UNKNOWN);
            assertThat(fact.acting())
                    .as(outcome.name())
                    .isEqualTo(outcome == Outcome.INCOMPLETE || outcome == Outcome.FAILED);
        }
        var untold = ofLeft("procedures[0].side=right procedures[0].outcome=completed procedures[1].side=left");
        assertThat(untold.abandonedProcedure().path()).isEqualTo("procedures[1].outcome");
        assertThat(ofLeft("procedures[0].side=right procedures[0].outcome=failed")
                        .abandonedProcedure()
                        .acting())
                .isFalse();
        assertThat(ofLeft("procedures[0].side=right").abandonedProcedure().known())
                .isTrue();
        assertThat(ofLeft("procedures=[]").abandonedProcedure().known()).isTrue();
        assertThat(ofLeft("received=2026-03-01").abandonedProcedure().path()).isEqualTo("procedures");
    }

    @Test
    void ofALegWithoutAFootNothingIsLeftOpenAndWhatIsKnownStays() {
        var gone = "L.amputation=belowKnee lesions[0].segment=popliteal lesions[0].aneurysm=true lesions[0].side=left";
        assertThat(ofLeft(gone).largePoplitealAneurysm().known()).isTrue();
        assertThat(ofLeft(gone).largePoplitealAneurysm().acting()).isFalse();
        assertThat(ofLeft(gone + " lesions[0].diameterMm=30")
                        .largePoplitealAneurysm()
                        .acting())
                .isTrue();
        assertThat(ofLeft("L.amputation=forefoot").abandonedProcedure().known()).isFalse();
    }
}
