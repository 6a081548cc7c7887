package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.TriageResult.Contradiction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Answers that cannot all be true, and others that look like it and can. Common practice, no source. */
class ContradictionsTest {

    private static List<Contradiction> of(String given) {
        return Facts.of(given).triage().contradictions();
    }

    /** Each line beside one answer that settles it: the rule, then what is contradicted by what. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            L.wound.ulcer=none L.wound.exposes=calcaneus              | contradiction-wound        | wound.ulcer wound.exposes
            L.wound.ulcer=none L.wound.exposes=distalPhalanx          | contradiction-wound        | wound.ulcer wound.exposes
            L.wound.ulcer=shallow L.wound.exposes=boneJointOrTendon L.wound.site=forefoot | contradiction-wound | wound.ulcer wound.exposes
            L.wound.ulcer=none L.wound.gangrene=none L.wound.spreading=true | contradiction-wound  | wound.spreading wound.ulcer wound.gangrene
            L.infection.localSigns=0 L.infection.rednessMm=6          | contradiction-infection    | infection.localSigns infection.rednessMm
            L.claudication.present=false L.claudication.distanceMetres=80 | contradiction-claudication | claudication.present claudication.distanceMetres
            L.restPain.present=false L.restPain.needsOpioid=true      | contradiction-rest-pain    | restPain.present restPain.needsOpioid
            L.restPain.present=false L.restPain.easedByHanging=true   | contradiction-rest-pain    | restPain.present restPain.easedByHanging
            L.amputation=belowKnee L.claudication.distanceMetres=80   | contradiction-amputation   | amputation claudication.distanceMetres
            L.amputation=aboveKnee L.pressures.dorsalisPedis=80       | contradiction-amputation   | amputation pressures
            L.amputation=aboveKnee L.pressures.posteriorTibial=80     | contradiction-amputation   | amputation pressures
            L.amputation=aboveKnee L.pressures.toe=80                 | contradiction-amputation   | amputation pressures
            L.acute.present=false L.acute.motor=mild                  | contradiction-acute        | acute.present acute
            """)
    void whatCannotBothBeTrueIsShownWithItsFields(String given, String rule, String fields) {
        var found = of(given);
        assertThat(found).hasSize(1);
        assertThat(found.getFirst().rule()).isEqualTo(rule);
        assertThat(found.getFirst().text()).isNotBlank().endsWith(".");
        assertThat(found.getFirst().fields())
                .containsExactly(("legs.left." + fields.replace(" ", " legs.left.")).split(" ", -1));
    }

    @ParameterizedTest
    @CsvSource({
        "L.wound.ulcer=none L.wound.exposes=nothing",
        "L.wound.ulcer=none",
        "L.wound.ulcer=deep L.wound.exposes=boneJointOrTendon",
        "L.wound.ulcer=shallow L.wound.exposes=distalPhalanx",
        "L.wound.ulcer=shallow L.wound.exposes=nothing",
        "L.wound.ulcer=none L.wound.gangrene=none L.wound.spreading=false",
        "L.wound.ulcer=none L.wound.gangrene=digits L.wound.spreading=true",
        "L.wound.ulcer=shallow L.wound.gangrene=none L.wound.spreading=true",
        "L.wound.gangrene=none L.wound.spreading=true",
        "L.infection.localSigns=0 L.infection.rednessMm=5",
        "L.infection.localSigns=1 L.infection.rednessMm=30",
        "L.infection.rednessMm=30",
        "L.claudication.present=true L.claudication.distanceMetres=80",
        "L.claudication.distanceMetres=80",
        "L.claudication.present=false",
        "L.restPain.present=false L.restPain.needsOpioid=false L.restPain.easedByHanging=false",
        "L.restPain.present=true L.restPain.needsOpioid=true L.pressures.toe=20",
        "L.restPain.needsOpioid=true L.pressures.toe=20",
        "L.amputation=belowKnee",
        "L.amputation=forefoot L.pressures.toe=80 L.claudication.distanceMetres=80",
        "L.pressures.toe=80 L.pressures.posteriorTibial=80 L.pressures.dorsalisPedis=80",
        "L.acute.present=false",
        "L.acute.present=true L.acute.motor=mild",
        "L.acute.motor=mild",
    })
    void whatCanBeTrueTogetherIsNone(String given) {
        assertThat(of(given)).isEmpty();
    }

    @Test
    void anIndexIsContradictedFromMoreThanFiveHundredthsOn() {
        var pressures = " armPressures.left=100 armPressures.right=100 L.pressures.dorsalisPedis=60";
        assertThat(of("L.abi=0.65" + pressures)).isEmpty();
        assertThat(of("L.abi=0.66" + pressures))
                .containsExactly(new Contradiction(
                        "contradiction-abi",
                        List.of("legs.left.abi", "legs.left.pressures"),
                        "The ankle-brachial index reported, 0.66, is not the one that the pressures give, 0.60; the pressures"
                                + " count."));
        assertThat(of("L.abi=0.54" + pressures)).hasSize(1);
    }

    /** WIfI ischaemia up to grade 1 is good flow: a toe pressure of 40 mmHg is grade 1, of 39 grade 2 (wifi-2014). */
    @Test
    void painAtRestWithGoodFlowWaitsForItsCause() {
        var pain = "L.restPain.present=true L.restPain.sinceDays=30 ";
        assertThat(of(pain + "L.pressures.toe=40"))
                .containsExactly(new Contradiction(
                        "contradiction-good-flow",
                        List.of("legs.left.restPain.present", "legs.left.pressures"),
                        "Pain at rest with good pressures: the pain keeps its grade until the cause is settled."));
        assertThat(of(pain + "L.pressures.toe=39")).isEmpty();
        assertThat(of(pain + "L.abi=0.9"))
                .extracting(Contradiction::text)
                .containsExactly(
                        "Pain at rest with good pressures: the pain keeps its grade until the cause is settled; a"
                                + " toe pressure helps.");
        assertThat(of(pain + "L.abi=0.9 L.pressures.waveform=flat")).isEmpty();
        assertThat(of(pain)).isEmpty();
        assertThat(of("L.restPain.present=false L.abi=0.9")).isEmpty();
    }

    @Test
    void eachLegIsLookedAtByItself() {
        assertThat(of("L.claudication.present=false R.claudication.distanceMetres=80"))
                .isEmpty();
        assertThat(of("R.claudication.present=false R.claudication.distanceMetres=80"))
                .extracting(Contradiction::fields)
                .containsExactly(List.of("legs.right.claudication.present", "legs.right.claudication.distanceMetres"));
    }
}
