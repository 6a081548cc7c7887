package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import limbqueue.referral.ui.Merge.Choice;
import limbqueue.referral.ui.Merge.Difference;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;

class MergeTest {

    private static final JsonMapper JSON = JsonMapper.shared();

    @Test
    void whatOnlyOneOfTheTwoChangedIsTakenFromThatOne() {
        var merge = new Merge(
                "{'heightCm': 170, 'weightKg': 80, 'letterText': 'as it came'}".replace('\'', '"'),
                "{'heightCm': 171, 'weightKg': 80, 'letterText': 'as it came'}".replace('\'', '"'),
                "{'heightCm': 170, 'weightKg': 81, 'letterText': 'as it came'}".replace('\'', '"'));
        assertThat(merge.differences()).extracting(Difference::path).containsExactly("heightCm", "weightKg");
        assertMerged(merge, Map.of(), "{'heightCm': 171, 'weightKg': 81, 'letterText': 'as it came'}");
    }

    @Test
    void whereBothChangedAValueMineIsKeptUnlessChosenOtherwise() {
        var merge = new Merge(
                "{}",
                "{'legs': {'left': {'pressures': {'toe': 30}}}}".replace('\'', '"'),
                "{'legs': {'left': {'pressures': {'toe': 'abc'}}}}".replace('\'', '"'));
        assertMerged(merge, Map.of(), "{'legs': {'left': {'pressures': {'toe': 'abc'}}}}");
        assertMerged(
                merge,
                Map.of("legs.left.pressures.toe", Choice.THEIRS),
                "{'legs': {'left': {'pressures': {'toe': 30}}}}");
    }

    @Test
    void whereBothAddedToAListTheEntriesOfBothAreKept() {
        var merge = new Merge(
                "{'medicines': [{'name': 'ramipril'}]}".replace('\'', '"'),
                "{'medicines': [{'name': 'ramipril'}, {'name': 'atorvastatin'}]}".replace('\'', '"'),
                "{'medicines': [{'name': 'ramipril'}, {'name': 'apixaban'}]}".replace('\'', '"'));
        assertMerged(
                merge,
                Map.of(),
                "{'medicines': [{'name': 'ramipril'}, {'name': 'atorvastatin'}, {'name': 'apixaban'}]}");
        assertMerged(
                merge,
                Map.of("medicines", Choice.THEIRS),
                "{'medicines': [{'name': 'ramipril'}, {'name': 'atorvastatin'}]}");
    }

    @Test
    void aValueThatTheyMadeUnknownBecomesUnknown() {
        var merge = new Merge(
                "{'history': {'diabetes': true, 'stroke': false}}".replace('\'', '"'),
                "{'history': {'stroke': false}}".replace('\'', '"'),
                "{'history': {'diabetes': true, 'stroke': true}}".replace('\'', '"'));
        assertMerged(merge, Map.of(), "{'history': {'stroke': true}}");
    }

    @Test
    void whatTheFormDoesNotAskIsNotLostEither() {
        var merge = new Merge(
                "{}",
                "{'tooth': 1, 'legs': {'left': {'nail': 2}}}".replace('\'', '"'),
                "{'heightCm': 170}".replace('\'', '"'));
        assertMerged(merge, Map.of(), "{'heightCm': 170, 'tooth': 1, 'legs': {'left': {'nail': 2}}}");
    }

    private static void assertMerged(Merge merge, Map<String, Choice> choices, String expected) {
        assertThat(JSON.readTree(merge.merged(choices))).isEqualTo(JSON.readTree(expected.replace('\'', '"')));
    }
}
