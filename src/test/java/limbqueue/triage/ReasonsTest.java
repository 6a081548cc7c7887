package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import limbqueue.triage.TriageResult.Reason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which reasons a leg has, on which fields they rest, and what the sentence says of the grade beside it. */
class ReasonsTest {

    private static final String SOUND_RIGHT =
            " R.claudication.present=false R.restPain.present=false R.wound.ulcer=none R.wound.gangrene=none R.acute.present=false";

    private static List<Reason> of(String given) {
        return Facts.of(given + SOUND_RIGHT).triage().reasons().stream()
                .filter(reason -> reason.text().contains("left")
                        || reason.because().stream().anyMatch(path -> path.startsWith("legs.left")))
                .toList();
    }

    private static Reason of(String given, String rule) {
        return of(given).stream()
                .filter(reason -> reason.rule().equals(rule))
                .findFirst()
                .orElseThrow();
    }

    /** Each complaint is the field on which the grade rests, one that is not there is not named. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            L.claudication.present=true L.claudication.distanceMetres=100 | claudication
            L.restPain.present=true L.pressures.toe=20                    | restPain
            L.wound.ulcer=shallow L.pressures.toe=20                      | wound
            L.wound.ulcer=shallow L.infection.localSigns=2 L.infection.rednessMm=10 L.pressures.toe=20 | wound infection
            L.wound.ulcer=shallow L.restPain.present=true L.claudication.present=true L.pressures.toe=20 | wound restPain claudication
            """)
    void aGradeRestsOnTheComplaintsThatAreThere(String given, String fields) {
        assertThat(of(given, "rutherford-chronic").because())
                .containsExactly(("legs.left." + fields.replace(" ", " legs.left.")).split(" ", -1));
    }

    @Test
    void aCategoryThatATreadmillTestCouldMoveSaysSo() {
        var standsIn = "; the walking distance stands in for a treadmill test (common practice).";
        assertThat(of("L.claudication.present=true L.claudication.distanceMetres=100", "rutherford-chronic")
                        .text())
                .isEqualTo("Rutherford category 2 of the left leg" + standsIn);
        assertThat(of(
                                "L.wound.ulcer=deep L.wound.gangrene=none L.wound.site=toe L.wound.exposes=nothing"
                                        + " L.acute.present=false L.pressures.toe=20",
                                "rutherford-chronic")
                        .text())
                .isEqualTo("Rutherford category 5 of the left leg.");
    }

    @Test
    void anAcuteLegHasItsClassAndNoChronicGrade() {
        var reasons = of("L.acute.present=true L.acute.onset=2026-03-01 L.acute.sensory=toes L.acute.motor=none"
                + " L.acute.arterialDoppler=inaudible L.acute.venousDoppler=audible");
        assertThat(reasons).extracting(Reason::rule).doesNotContain("rutherford-chronic", "fontaine", "wifi-stage");
        assertThat(reasons)
                .extracting(Reason::rule, Reason::because, Reason::text)
                .contains(tuple(
                        "rutherford-acute",
                        List.of("legs.left.acute"),
                        "Acute limb ischaemia of the left leg, class IIa."));
    }

    @Test
    void aLegWithoutComplaintHasNoReasonForAGradeOrAThreat() {
        var reasons =
                of("L.claudication.present=false L.restPain.present=false L.wound.ulcer=none L.wound.gangrene=none"
                        + " L.acute.present=false L.abi=1.05");
        assertThat(reasons)
                .extracting(Reason::rule, Reason::text)
                .containsExactly(
                        tuple("urgency-no-symptom", "No symptom stated for the left leg."),
                        tuple("ankle-brachial-index", "Ankle-brachial index of the left leg 1.05: normal."));
    }

    @Test
    void walkingPainAloneIsNoThreatToTheLimb() {
        assertThat(of("L.claudication.present=true L.claudication.distanceMetres=300"))
                .extracting(Reason::rule)
                .doesNotContain("chronic-limb-threatening", "wifi-stage");
    }

    /** Band by band of acc-aha-2024, and a figure that says nothing. */
    @ParameterizedTest
    @CsvSource({
        "0.90, abnormal",
        "0.95, borderline",
        "1.00, normal",
        "1.45, 'the arteries cannot be compressed, the number says nothing'",
    })
    void theIndexIsShownWithItsBand(String abi, String band) {
        assertThat(of("L.abi=" + abi, "ankle-brachial-index").text())
                .isEqualTo("Ankle-brachial index of the left leg %s: %s.".formatted(abi, band));
        assertThat(of("L.abi=" + abi, "ankle-brachial-index").because())
                .containsExactly("legs.left.pressures", "armPressures");
    }

    @Test
    void whetherTheDefinitionOfAThreatenedLimbIsMetIsSaidInWords() {
        var pain = "L.restPain.present=true L.restPain.sinceDays=30 ";
        assertThat(of(pain + "L.pressures.toe=20", "chronic-limb-threatening").text())
                .isEqualTo("Limb-threatening ischaemia of the left leg.");
        assertThat(of(pain + "L.pressures.toe=60", "chronic-limb-threatening").text())
                .isEqualTo("The definition of limb-threatening ischaemia is not met for the left leg.");
        assertThat(of(pain, "chronic-limb-threatening").text())
                .isEqualTo(
                        "Limb-threatening ischaemia of the left leg cannot be ruled out: no figure of its blood flow is"
                                + " known.");
    }

    @Test
    void wifiIsSaidGradeByGradeAndRestsOnThePressuresToo() {
        var wifi = of(
                "L.wound.ulcer=shallow L.wound.exposes=nothing L.wound.site=toe L.infection.localSigns=0"
                        + " L.pressures.toe=35",
                "wifi-stage");
        assertThat(wifi.text()).isEqualTo("WIfI of the left leg: wound 1, ischaemia 2, infection 0.");
        assertThat(wifi.because()).containsExactly("legs.left.wound", "legs.left.pressures");
    }

    @Test
    void theLegThatCallsForTheTierIsReasonedFirst() {
        var reasons = Facts.of("L.claudication.present=true L.claudication.distanceMetres=300"
                        + " R.restPain.present=true R.restPain.sinceDays=30 R.pressures.toe=20")
                .triage()
                .reasons();
        assertThat(reasons.getFirst().because()).containsExactly("legs.right.restPain");
        assertThat(reasons.getFirst().text()).contains("right leg");
    }
}
