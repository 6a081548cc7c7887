package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.document.Draft;
import org.junit.jupiter.api.Test;

class EditHistoryTest {

    private final Draft draft = Draft.of("{\"patient\":{\"family\":\"Marsh\"},\"medicines\":[]}");
    private final EditHistory history =
            new EditHistory(draft, List.of("patient.family", "patient.given", "legs.left.abi", "medicines"));

    @Test
    void stepsAreTakenBackInTurnAndMadeAgain() {
        type("patient.given", "Ida");
        type("legs.left.abi", 0.6);
        assertThat(history.undoWords()).isEqualTo("left leg, reported ABI");
        assertThat(history.undo().orElseThrow().path()).isEqualTo("legs.left.abi");
        assertThat(draft.get("legs.left.abi")).isEmpty();
        assertThat(history.undoWords()).isEqualTo("given name");
        assertThat(history.redoWords()).isEqualTo("left leg, reported ABI");
        history.undo();
        assertThat(draft.toJson()).isEqualTo("{\"patient\":{\"family\":\"Marsh\"},\"medicines\":[]}");
        assertThat(history.undo()).isEmpty();
        history.redo();
        history.redo();
        assertThat(draft.get("patient.given").orElseThrow().stringValue()).isEqualTo("Ida");
        assertThat(draft.get("legs.left.abi").orElseThrow().doubleValue()).isEqualTo(0.6);
        assertThat(history.redo()).isEmpty();
        assertThat(history.redoWords()).isEmpty();
    }

    @Test
    void whatIsTypedIntoOneFieldIsOneStep() {
        type("patient.family", "Mars");
        type("patient.family", "Mar");
        type("patient.family", "Moor");
        history.undo();
        assertThat(draft.get("patient.family").orElseThrow().stringValue()).isEqualTo("Marsh");
        assertThat(history.undoWords()).isEmpty();
    }

    @Test
    void aFieldTypedBackToWhatItWasIsNoStep() {
        type("patient.family", "Mars");
        type("patient.family", "Marsh");
        assertThat(history.undoWords()).isEmpty();
    }

    @Test
    void aFieldTypedInAgainAfterAnotherIsANewStep() {
        type("patient.family", "Moor");
        type("patient.given", "Ida");
        type("patient.family", "Moors");
        history.undo();
        assertThat(draft.get("patient.family").orElseThrow().stringValue()).isEqualTo("Moor");
        assertThat(history.undoWords()).isEqualTo("given name");
    }

    @Test
    void anEntryThatIsTakenBackLeavesTheListAsItWasAnswered() {
        draft.set("medicines[0].name", "apixaban");
        history.listChanged("medicines");
        assertThat(history.undoWords()).isEqualTo("medicine added");
        type("medicines[0].dose", "5 mg");
        history.undo();
        assertThat(draft.toJson()).contains("\"medicines\":[{\"name\":\"apixaban\"}]");
        history.undo();
        assertThat(draft.toJson()).contains("\"medicines\":[]");
    }

    @Test
    void whatIsFilledInTogetherIsTakenBackTogether() {
        draft.set("patient.family", "Moor");
        draft.set("patient.given", "Ida");
        history.severalChanged(List.of("patient.family", "patient.given", "legs.left.abi"), "both names");
        assertThat(history.undoWords()).isEqualTo("both names");
        assertThat(history.undo().orElseThrow().roots()).containsExactlyInAnyOrder("patient.family", "patient.given");
        assertThat(draft.toJson()).isEqualTo("{\"patient\":{\"family\":\"Marsh\"},\"medicines\":[]}");
    }

    @Test
    void aNewChangeEndsWhatCouldBeMadeAgain() {
        type("patient.family", "Moor");
        history.undo();
        type("patient.given", "Ida");
        assertThat(history.redo()).isEmpty();
        assertThat(draft.get("patient.family").orElseThrow().stringValue()).isEqualTo("Marsh");
    }

    @Test
    void oneListIsTakenBackWithoutWhatWasTypedElsewhereSince() {
        draft.set("medicines[0].name", "apixaban");
        history.listChanged("medicines");
        type("patient.family", "Moor");
        history.undo("medicines");
        assertThat(draft.toJson()).isEqualTo("{\"patient\":{\"family\":\"Moor\"},\"medicines\":[]}");
        assertThat(history.undoWords()).isEqualTo("family name");
        assertThat(history.undo("medicines")).isEmpty();
    }

    @Test
    void twoHundredStepsAreKept() {
        for (var i = 0; i < 150; i++) {
            type("patient.family", "Moor" + i);
            type("patient.given", "Ida" + i);
        }
        var steps = 0;
        while (history.undo().isPresent()) {
            steps++;
        }
        assertThat(steps).isEqualTo(200);
        assertThat(draft.get("patient.family").orElseThrow().stringValue()).isEqualTo("Moor49");
    }

    private void type(String path, Object value) {
        draft.set(path, value);
        history.noticed(path);
    }
}
