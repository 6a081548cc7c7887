package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import limbqueue.document.Draft;
import org.junit.jupiter.api.Test;

class LesionEditsTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private final Draft draft = Draft.empty();
    private final EditHistory history = new EditHistory(draft, List.of("lesions", "history.diabetes"));
    private final LesionEdits lesions = new LesionEdits(draft, history);

    @Test
    void aLesionKnowsItsPlaceAndNothingElseUntilItIsTold() {
        lesions.add("infrarenalAorta", "");
        lesions.add("pedal", "left");
        assertThat(draft.toJson())
                .isEqualTo(
                        "{\"lesions\":[{\"segment\":\"infrarenalAorta\"},{\"segment\":\"pedal\",\"side\":\"left\"}]}");
        assertThat(typed().lesions())
                .extracting(LesionEdits.TypedLesion::values)
                .containsExactly(Map.of("segment", "infrarenalAorta"), Map.of("segment", "pedal", "side", "left"));
    }

    @Test
    void whatIsTypedIsReadAsTheListReadsIt() {
        lesions.add("popliteal", "right");
        lesions.set(0, "stenosisPercent", "70");
        lesions.set(0, "diameterMm", "5,5");
        lesions.set(0, "ostial", "no");
        lesions.set(0, "calcification", "severe");
        lesions.set(0, "ageMonths", "some");
        assertThat(draft.toJson())
                .isEqualTo("{\"lesions\":[{\"segment\":\"popliteal\",\"side\":\"right\",\"stenosisPercent\":70,"
                        + "\"diameterMm\":5.5,\"ostial\":false,\"calcification\":\"severe\",\"ageMonths\":\"some\"}]}");
        lesions.set(0, "ostial", "");
        assertThat(draft.get("lesions[0].ostial")).isEmpty();
        assertThatIllegalArgumentException().isThrownBy(() -> lesions.set(0, "colour", "red"));
    }

    @Test
    void whatIsWrongIsToldAtItsFieldOfItsLesion() {
        lesions.add("popliteal", "right");
        lesions.add("pedal", "right");
        lesions.set(1, "lengthMm", "9oo");
        assertThat(typed().lesions().get(0).problems()).isEmpty();
        assertThat(typed().lesions().get(1).problems()).containsOnlyKeys("lengthMm");
        assertThat(typed().lesions().get(1).values()).containsEntry("lengthMm", "9oo");
    }

    @Test
    void everyChangeIsTakenBackLatestFirst() {
        assertThat(typed().undo()).isEmpty();
        lesions.add("popliteal", "right");
        lesions.set(0, "lengthMm", "9");
        lesions.set(0, "lengthMm", "90");
        lesions.set(0, "inStent", "yes");
        lesions.remove(0);
        assertThat(draft.get("lesions")).isEmpty();
        assertThat(typed().undo()).isEqualTo("lesion deleted");
        lesions.undo();
        assertThat(draft.toJson()).contains("\"inStent\":true");
        assertThat(typed().undo()).isEqualTo("lesion 1, in a stent");
        lesions.undo();
        assertThat(draft.toJson()).contains("\"lengthMm\":90").doesNotContain("inStent");
        lesions.undo();
        // Both keystrokes were one change.
        assertThat(draft.toJson()).doesNotContain("lengthMm").contains("popliteal");
        lesions.undo();
        assertThat(draft.toJson()).isEqualTo("{}");
        assertThat(typed().undo()).isEmpty();
        lesions.undo();
        assertThat(draft.toJson()).isEqualTo("{}");
    }

    @Test
    void aChangeMadeInTheListIsTakenBackToo() {
        draft.setNone("lesions");
        history.listChanged("lesions");
        draft.set("lesions[0].segment", "pedal");
        history.noticed("lesions[0].segment");
        history.noticed("history.diabetes");
        assertThat(typed().undo()).isEqualTo("lesion 1, segment");
        lesions.undo();
        assertThat(draft.toJson()).isEqualTo("{\"lesions\":[]}");
        lesions.undo();
        assertThat(draft.toJson()).isEqualTo("{}");
    }

    @Test
    void whatCameLateForALesionThatIsGoneChangesNothing() {
        lesions.add("pedal", "left");
        lesions.remove(0);
        lesions.set(0, "lengthMm", "20");
        lesions.remove(7);
        assertThat(draft.toJson()).isEqualTo("{}");
    }

    private LesionEdits.Typed typed() {
        return lesions.typed(List.copyOf(draft.read(TODAY).problems()));
    }
}
