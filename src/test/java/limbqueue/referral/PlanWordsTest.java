package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.Sheath;
import limbqueue.triage.Side;
import org.junit.jupiter.api.Test;

class PlanWordsTest {

    @Test
    void sitesUsedTogetherAreOnePhrase() {
        assertThat(PlanWords.together(List.of(AccessSite.RIGHT_FEMORAL))).isEqualTo("right groin");
        assertThat(PlanWords.together(List.of(AccessSite.LEFT_FEMORAL, AccessSite.RIGHT_FEMORAL)))
                .isEqualTo("both groins");
        assertThat(PlanWords.together(
                        List.of(AccessSite.LEFT_FEMORAL, AccessSite.RIGHT_FEMORAL, AccessSite.LEFT_BRACHIAL)))
                .isEqualTo("both groins and left upper arm");
        assertThat(PlanWords.together(
                        List.of(AccessSite.LEFT_FEMORAL, AccessSite.RIGHT_PROFUNDA, AccessSite.RIGHT_RADIAL)))
                .isEqualTo("left groin and right deep femoral artery, upwards and right wrist");
    }

    @Test
    void everySiteHasWordsOfItsOwn() {
        assertThat(List.of(AccessSite.values()).stream().map(PlanWords::of)).doesNotHaveDuplicates();
        assertThat(PlanWords.of(AccessSite.LEFT_SUPERFICIAL_FEMORAL))
                .isEqualTo("left superficial femoral artery, small system");
        assertThat(PlanWords.of(AccessSite.RIGHT_POPLITEAL)).isEqualTo("right popliteal artery, upwards");
        assertThat(PlanWords.of(AccessSite.RIGHT_TIBIAL)).isEqualTo("right tibial artery, upwards");
    }

    @Test
    void aPlanIsForOneLegOrBoth() {
        assertThat(PlanWords.legs(List.of(Side.LEFT))).isEqualTo("Left leg");
        assertThat(PlanWords.legs(List.of(Side.RIGHT))).isEqualTo("Right leg");
        assertThat(PlanWords.legs(List.of(Side.LEFT, Side.RIGHT))).isEqualTo("Both legs");
    }

    @Test
    void aSheathSaysItsSizeAndWhatFits() {
        assertThat(PlanWords.sheath(new Sheath("the groin", 7, 11, "a covered stent", "plan-sheath", "source")))
                .isEqualTo("7 Fr, 11 cm, from the groin: fits a covered stent");
    }
}
