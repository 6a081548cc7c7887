package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.document.Draft;
import limbqueue.referral.ui.DocumentChanges.Change;
import org.junit.jupiter.api.Test;

/** The document of a referral as the physician's page tells it. */
class DocumentWordsTest {

    @Test
    void whatChangedIsToldWithTheValueBeforeAndNow() {
        var before = Draft.of("""
                {"legs": {"left": {"pressures": {"toe": 45}, "wound": {"ulcer": "shallow"}}}}
                """);
        var now = Draft.of("""
                {"legs": {"left": {"pressures": {"toe": 25}}}, "history": {"diabetes": true}}
                """);

        assertThat(DocumentChanges.between(before, now))
                .containsExactlyInAnyOrder(
                        new Change("left leg, toe pressure", "45 mmHg", "25 mmHg"),
                        new Change("left leg, ulcer", "Shallow", "not known"),
                        new Change("diabetes", "not known", "yes"));
    }

    @Test
    void theSameDocumentHasNoChanges() {
        var text = """
                {"patient": {"family": "Fenn"}}
                """;

        assertThat(DocumentChanges.between(Draft.of(text), Draft.of(text))).isEmpty();
    }

    @Test
    void theHistoryTellsAnswersAndSilenceApart() {
        var facts = HistoryFacts.of(Draft.of("""
                {"history": {"diabetes": true, "dialysis": false, "smoking": "current"}}
                """));

        assertThat(facts.present()).containsExactly("diabetes", "smoking: current");
        assertThat(facts.absent()).containsExactly("dialysis");
        assertThat(facts.notKnown()).contains("stroke").doesNotContain("diabetes", "dialysis", "smoking");
    }

    @Test
    void aListOfWhichNothingIsSaidIsNotKnownAndAnEmptyOneSaysNone() {
        assertThat(EntryFacts.of(Draft.of("{}"), "allergies"))
                .singleElement()
                .extracting(Finding::known)
                .isEqualTo(false);
        assertThat(EntryFacts.of(Draft.of("{\"allergies\": []}"), "allergies"))
                .singleElement()
                .extracting(Finding::sentence)
                .isEqualTo("has none");
    }

    @Test
    void anEarlierProcedureSaysWhetherItsReportIsHeld() {
        var finding = EntryFacts.of(Draft.of("""
                {"procedures": [{"kind": "angiogram", "side": "left", "where": "Tarn Edge Hospital",
                                 "intent": "diagnostic", "reportHeld": false}]}
                """), "procedures");

        assertThat(finding)
                .singleElement()
                .extracting(Finding::sentence)
                .isEqualTo(
                        "Angiogram, left, Tarn Edge Hospital, intent: diagnostic, outcome not known, report held: no,"
                                + " images held not known");
    }

    @Test
    void aFactBehindAFlagIsNamedWithItsValueOrAsNotKnown() {
        var draft = Draft.of("""
                {"legs": {"left": {"pressures": {"toe": 26}}}}
                """);

        assertThat(EvidenceWords.sentence(List.of("legs.left.pressures.toe", "history.diabetes"), draft))
                .isEqualTo("left leg, toe pressure: 26 mmHg; diabetes: not known");
    }

    @Test
    void aPartOfTheDocumentStandsForEveryValueInIt() {
        var draft = Draft.of("""
                {"legs": {"right": {"infection": {"localSigns": 4, "deep": true}}}}
                """);

        assertThat(EvidenceWords.sentence(List.of("legs.right.infection"), draft))
                .isEqualTo("right leg, local signs of infection: 4 of 5; right leg, deep infection: yes");
        assertThat(EvidenceWords.sentence(List.of("legs.left.acute"), draft))
                .isEqualTo("left leg, sudden change: not known");
    }

    @Test
    void aLaboratoryResultReadsAsOne() {
        var draft = Draft.of("""
                {"labs": [{"test": "egfr", "value": 28, "unit": "mL/min", "taken": "2026-02-18"}]}
                """);

        assertThat(EntryFacts.of(draft, "labs"))
                .singleElement()
                .extracting(Finding::sentence)
                .isEqualTo("eGFR 28 mL/min, 18 Feb 2026");
        assertThat(EvidenceWords.sentence(List.of("labs[0].value"), draft)).isEqualTo("eGFR: 28 mL/min");
    }

    @Test
    void anAbbreviationKeepsItsCapitals() {
        assertThat(EntryFacts.withinSentence("External iliac")).isEqualTo("external iliac");
        assertThat(EntryFacts.withinSentence("CT angiogram")).isEqualTo("CT angiogram");
    }
}
