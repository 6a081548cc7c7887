package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class DraftTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    @Test
    void valuesAreKeptAsTypedRightOrWrong() {
        var draft = Draft.empty();
        draft.set("legs.left.abi", 57);
        draft.set("legs.left.wound.ulcer", "huge");
        draft.set("labs[1].value", new BigDecimal("1.50"));
        draft.set("history.diabetes", false);
        draft.set("armPressures.left", 132.0);
        assertThat(draft.toJson())
                .isEqualTo(
                        "{\"legs\":{\"left\":{\"abi\":57,\"wound\":{\"ulcer\":\"huge\"}}},\"labs\":[{},{\"value\":1.50}],"
                                + "\"history\":{\"diabetes\":false},\"armPressures\":{\"left\":132}}");
        assertThat(Draft.of(draft.toJson()).toJson()).isEqualTo(draft.toJson());
        assertThat(draft.read(TODAY).problems())
                .extracting(Problem::path)
                .containsExactly("legs.left.abi", "legs.left.wound.ulcer");
        assertThat(draft.get("legs.left.wound.ulcer").map(JsonNode::stringValue))
                .contains("huge");
        assertThat(draft.get("legs.right.abi")).isEmpty();
        assertThat(draft.get("legs.left.abi.deeper")).isEmpty();
    }

    @Test
    void whatWasThereAtAnotherTimeIsPutBack() {
        var draft = Draft.empty();
        var unknown = draft.get("labs");
        draft.set("labs[0].value", 90);
        var before = draft.get("labs");
        draft.set("labs[0].value", 100);
        draft.set("labs[1].test", "inr");
        draft.putBack("labs", before);
        assertThat(draft.toJson()).isEqualTo("{\"labs\":[{\"value\":90}]}");
        draft.set("labs[0].value", 1);
        draft.putBack("labs", before);
        assertThat(draft.toJson()).isEqualTo("{\"labs\":[{\"value\":90}]}");
        draft.putBack("labs", unknown);
        assertThat(draft.toJson()).isEqualTo("{}");
    }

    @Test
    void clearingTakesEmptyObjectsAlongAndLeavesListEntries() {
        var draft = Draft.empty();
        draft.set("legs.left.abi", 0.5);
        draft.set("labs[0].value", 1);
        draft.clear("legs.left.abi");
        draft.clear("labs[0].value");
        draft.clear("history.diabetes");
        draft.clear("labs[7].value");
        assertThat(draft.toJson()).isEqualTo("{\"labs\":[{}]}");
    }

    @Test
    void aListIsUnknownOrNoneOrHasEntries() {
        var draft = Draft.empty();
        assertThat(draft.sizeOf("medicines")).isEmpty();
        draft.setNone("medicines");
        assertThat(draft.sizeOf("medicines")).contains(0);
        draft.set("medicines[0].name", "apixaban");
        draft.set("medicines[1].name", "atorvastatin");
        assertThat(draft.sizeOf("medicines")).contains(2);
        draft.removeEntry("medicines", 0);
        assertThat(draft.toJson()).isEqualTo("{\"medicines\":[{\"name\":\"atorvastatin\"}]}");
        draft.removeEntry("medicines", 5);
        draft.removeEntry("medicines", 0);
        assertThat(draft.sizeOf("medicines")).isEmpty();
    }

    @Test
    void differencesStandInTheOrderOfTheFormat() {
        var one = Draft.of(
                "{\"labs\":[{\"test\":\"inr\"}],\"zz\":1,\"legs\":{\"right\":{\"abi\":0.50},\"left\":{\"tbi\":0.3}},\"reference\":\"A\",\"allergies\":[]}");
        var two = Draft.of(
                "{\"reference\":\"B\",\"legs\":{\"left\":{\"abi\":0.7},\"right\":{\"abi\":0.5,\"tbi\":null}},\"labs\":[{\"test\":\"inr\",\"value\":2},{}]}");
        assertThat(one.differencesFrom(two))
                .containsExactly(
                        "reference", "legs.left.abi", "legs.left.tbi", "allergies", "labs[0].value", "labs[1]", "zz");
        assertThat(two.differencesFrom(one)).isEqualTo(one.differencesFrom(two));
        assertThat(one.differencesFrom(one)).isEmpty();
    }

    @Test
    void whatIsNoDraftIsRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Draft.of("[]"));
        assertThatIllegalArgumentException().isThrownBy(() -> Draft.of("{\"a\":"));
        assertThatIllegalArgumentException().isThrownBy(() -> Draft.of("{\"a\":1,\"a\":2}"));
        assertThatIllegalArgumentException().isThrownBy(() -> Draft.empty().set("a", Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> Draft.empty().set("a..b", 1));
    }

    @Test
    void aValueInTheWayIsReplaced() {
        var draft = Draft.of("{\"legs\":5,\"labs\":{\"x\":1}}");
        draft.set("legs.left.abi", 0.5);
        draft.set("labs[0].value", 2);
        assertThat(draft.toJson()).isEqualTo("{\"legs\":{\"left\":{\"abi\":0.5}},\"labs\":[{\"value\":2}]}");
    }
}
