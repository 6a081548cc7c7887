package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Optional;
import limbqueue.referral.ui.Finding.Phrase;
import limbqueue.referral.ui.Finding.Weight;
import limbqueue.triage.Quantity.Days;
import limbqueue.triage.Quantity.Metres;
import limbqueue.triage.ReferralDocument.Acute;
import limbqueue.triage.ReferralDocument.Claudication;
import limbqueue.triage.ReferralDocument.ClaudicationSite;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.ReferralDocument.Exposes;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Infection;
import limbqueue.triage.ReferralDocument.Motor;
import limbqueue.triage.ReferralDocument.RestPain;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.Wound;
import limbqueue.triage.ReferralDocument.WoundSite;
import org.junit.jupiter.api.Test;

class LegFactsTest {

    private static <T> Optional<T> unknown() {
        return Optional.empty();
    }

    @Test
    void nothingSaidIsNotKnownAndNeverANo() {
        var finding = LegFacts.restPain(new RestPain(unknown(), unknown(), unknown(), unknown()));

        assertThat(finding.known()).isFalse();
        assertThat(finding.sentence()).isEqualTo("not known");
    }

    @Test
    void aNoIsSaidAsANo() {
        var finding = LegFacts.restPain(new RestPain(Optional.of(false), unknown(), unknown(), unknown()));

        assertThat(finding.phrases()).containsExactly(new Phrase("no", Weight.ABSENT));
    }

    @Test
    void claudicationSaysHowFarAndThatItGetsWorse() {
        var finding = LegFacts.claudication(new Claudication(
                Optional.of(true),
                Optional.of(new Metres(80)),
                Optional.of(new Days(40)),
                Optional.of(Course.WORSE),
                Optional.of(ClaudicationSite.CALF),
                unknown(),
                Optional.of(true)));

        assertThat(finding.sentence()).isEqualTo("yes, after 80 m, calf, getting worse, for 40 days, limits life");
    }

    @Test
    void claudicationWithoutADistanceSaysThatTheDistanceIsMissing() {
        var finding = LegFacts.claudication(
                new Claudication(Optional.of(true), unknown(), unknown(), unknown(), unknown(), unknown(), unknown()));

        assertThat(finding.phrases())
                .containsExactly(new Phrase("yes", Weight.PRESENT), new Phrase("distance not known", Weight.NOT_KNOWN));
    }

    @Test
    void aWoundOfWhichHalfIsSaidNamesTheOtherHalf() {
        var finding = LegFacts.wound(new Wound(
                Optional.of(Ulcer.SHALLOW),
                unknown(),
                Optional.of(WoundSite.TOE),
                Optional.of(Exposes.DISTAL_PHALANX),
                Optional.of(new Days(1)),
                Optional.of(false)));

        assertThat(finding.sentence())
                .isEqualTo("shallow ulcer, gangrene not known, toe, distal phalanx exposed, for 1 day, not spreading");
    }

    @Test
    void noWoundAtAllIsShort() {
        var finding = LegFacts.wound(new Wound(
                Optional.of(Ulcer.NONE), Optional.of(Gangrene.NONE), unknown(), unknown(), unknown(), unknown()));

        assertThat(finding.sentence()).isEqualTo("no ulcer, no gangrene");
        assertThat(finding.phrases()).extracting(Phrase::weight).containsOnly(Weight.ABSENT);
    }

    @Test
    void infectionCountsItsLocalSigns() {
        var finding = LegFacts.infection(new Infection(
                Optional.of(3), unknown(), Optional.of(false), unknown(), unknown(), unknown(), unknown(), unknown()));

        assertThat(finding.sentence()).isEqualTo("3 of 5 local signs, not deep");
    }

    @Test
    void suddenIschaemiaSaysWhatOfSensationAndMovementIsNotKnown() {
        var finding = LegFacts.acute(new Acute(
                Optional.of(true),
                Optional.of(LocalDate.of(2026, 3, 1)),
                Optional.of(Sensory.TOES),
                unknown(),
                unknown(),
                unknown(),
                Optional.of(true),
                unknown(),
                unknown()));

        assertThat(finding.sentence())
                .isEqualTo("yes, since 1 Mar 2026, sensation lost in the toes, movement not known, painful");
    }

    @Test
    void paralysisIsAFindingAndNormalMovementIsNone() {
        assertThat(acuteWith(Motor.PARALYSIS).phrases()).contains(new Phrase("paralysis", Weight.PRESENT));
        assertThat(acuteWith(Motor.NONE).phrases()).contains(new Phrase("movement normal", Weight.ABSENT));
    }

    @Test
    void aNumberIsWrittenWithoutAnEmptyFraction() {
        assertThat(LegFacts.plain(38)).isEqualTo("38");
        assertThat(LegFacts.plain(120)).isEqualTo("120");
        assertThat(LegFacts.plain(38.4)).isEqualTo("38.4");
    }

    private static Finding acuteWith(Motor motor) {
        return LegFacts.acute(new Acute(
                Optional.of(true),
                unknown(),
                unknown(),
                Optional.of(motor),
                unknown(),
                unknown(),
                unknown(),
                unknown(),
                unknown()));
    }
}
