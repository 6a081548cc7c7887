package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.TriageResult.Question;
import org.junit.jupiter.api.Test;

/** What a coordinator is given to ask on the phone, word for word, and what an answer could change. */
class QuestionsTest {

    /** Everything said of the right leg that keeps it out of the list. */
    private static final String NO_RIGHT_FOOT = " R.amputation=belowKnee lesions=[] procedures=[]";

    private static List<String> lines(String given) {
        return Facts.of(given).triage().questions().stream()
                .map(question -> question.field() + ": " + question.ask() + " " + question.couldChange())
                .toList();
    }

    @Test
    void ofALegOfWhichNothingIsToldEveryComplaintIsAskedMostDecisiveFirst() {
        assertThat(lines("history.poplitealAneurysm=false" + NO_RIGHT_FOOT))
                .containsExactly(
                        "legs.left.wound.gangrene: Is any part of the foot of the left leg black or dead: none, toes only,"
                                + " more than toes? [urgency, rutherford, fontaine, wifi]",
                        "legs.left.acute.present: In the last two weeks, has the left leg suddenly become painful, pale,"
                                + " cold, numb or weak? If so, on which day?"
                                + " [urgency, rutherford, chronicLimbThreatening]",
                        "legs.left.infection.deep: Is there an abscess, infected bone or joint, or infection below the"
                                + " skin in the foot of the left leg? [urgency, wifi]",
                        "legs.left.infection.localSigns: How many of these has the foot of the left leg: swelling,"
                                + " redness, pain on touch, warmth, pus? A photograph helps. [urgency, wifi]",
                        "legs.left.wound.ulcer: Is there an open sore on the left leg or its foot: none, shallow, deep,"
                                + " extensive? [urgency, rutherford, fontaine, wifi]",
                        "legs.left.restPain.present: Does the foot of the left leg hurt at night or at rest, better when"
                                + " it hangs down? [urgency, rutherford, fontaine, chronicLimbThreatening]",
                        "legs.left.claudication.present: Does walking bring on pain in the left leg that stops within"
                                + " minutes of standing still? [urgency, rutherford, fontaine]");
    }

    @Test
    void ofAWoundItsDepthItsPlaceItsAgeAndTheBloodFlowAreAsked() {
        assertThat(lines("L.wound.ulcer=shallow L.wound.gangrene=none L.acute.present=false history.diabetes=false"
                        + NO_RIGHT_FOOT))
                .contains(
                        "legs.left.abi: What is the ankle-brachial index, or the ankle, toe and arm pressures, of the left"
                                + " leg? If it was never measured, where can it be?"
                                + " [urgency, chronicLimbThreatening, wifi]",
                        "legs.left.wound.exposes: Can bone, joint or tendon be seen or probed in the sore of the left leg?"
                                + " [urgency, wifi]",
                        "legs.left.wound.site: Where on the left leg is the sore: leg, toe, forefoot, midfoot or heel?"
                                + " [urgency, wifi]",
                        "legs.left.wound.spreading: Has the sore or the black area of the left leg grown in the last days?"
                                + " [urgency]",
                        "legs.left.wound.sinceDays: Since when has there been a sore on the left leg?"
                                + " [chronicLimbThreatening]");
    }

    @Test
    void whereTheAnkleSaysNothingTheToePressureIsAsked() {
        assertThat(lines(
                        "L.wound.ulcer=shallow L.wound.gangrene=none L.acute.present=false L.abi=1.45" + NO_RIGHT_FOOT))
                .anyMatch(line -> line.startsWith(
                        "legs.left.pressures.toe: What is the toe pressure of the left leg? If it was never measured,"
                                + " where can it be?"));
        assertThat(lines("L.wound.ulcer=shallow L.wound.gangrene=none L.acute.present=false armPressures.left=120"
                        + NO_RIGHT_FOOT))
                .noneMatch(line -> line.startsWith("legs.left.pressures.toe"));
    }

    @Test
    void ofAnAcuteLegWhatSetsItsClassIsAskedToday() {
        var questions = Facts.of(
                        "L.acute.present=true L.wound.ulcer=none L.wound.gangrene=none L.restPain.present=false"
                                + " L.claudication.present=false" + NO_RIGHT_FOOT)
                .triage()
                .questions();
        assertThat(questions)
                .filteredOn(question -> question.field().contains(".acute."))
                .extracting(Question::ask)
                .containsExactlyInAnyOrder(
                        "Is a venous Doppler signal audible at the left leg?",
                        "Can the patient move the toes and the foot of the left leg: normally, weakly, not at all?",
                        "Can the patient feel touch on the left leg: everywhere, not at the toes, not further up, nowhere?",
                        "Is an arterial Doppler signal audible at the left leg?");
        assertThat(questions)
                .filteredOn(question -> question.field().contains(".acute."))
                .allSatisfy(question -> {
                    assertThat(question.couldReveal()).isEqualTo(Tier.SAME_DAY);
                    assertThat(question.askBy()).isEqualTo(Facts.TODAY);
                    assertThat(question.couldChange()).containsExactly("rutherford");
                });
    }

    /** A leg whose every answer leaves it behind the other one moves nothing but its own grades. */
    @Test
    void aLegThatCannotOvertakeTheOtherAsksForItsGradesOnly() {
        var urgent = "R.acute.present=true R.acute.sensory=none R.acute.motor=none R.acute.arterialDoppler=audible"
                + " R.acute.venousDoppler=audible L.acute.present=false L.wound.ulcer=none L.wound.gangrene=none"
                + " L.restPain.present=false ";
        var claudication = Facts.of(urgent).triage().questions().stream()
                .filter(question -> question.field().equals("legs.left.claudication.present"))
                .findFirst()
                .orElseThrow();
        assertThat(claudication.couldChange()).containsExactly("rutherford", "fontaine");
    }

    @Test
    void aLegOfWhichEverythingIsToldAsksNothing() {
        assertThat(Facts.of("L.acute.present=false L.wound.ulcer=none L.wound.gangrene=none L.restPain.present=false"
                                + " L.claudication.present=false L.infection.localSigns=0 L.infection.deep=false"
                                + " history.diabetes=false history.poplitealAneurysm=false" + NO_RIGHT_FOOT)
                        .triage()
                        .questions())
                .noneMatch(question -> question.field().startsWith("legs."));
    }
}
