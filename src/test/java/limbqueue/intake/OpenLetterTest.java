package limbqueue.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.intake.Proposal.Standing;
import org.junit.jupiter.api.Test;

/** What a person makes of proposals, and what is entered. The letters are read by hand. */
class OpenLetterTest {

    private static final String TEXT = "ABI R 0.61. Rest pain left. Takes apixaban 5 mg and metformin. Ulcer.";
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    @Test
    void nothingIsEnteredWithoutAYesButTheWordsOfTheLetter() {
        assertThat(entered(letter("{}"), "{}")).isEqualTo(draft("{\"letterText\": \"" + TEXT + "\"}"));
    }

    @Test
    void whatIsAcceptedIsEnteredAndWhatIsRefusedIsNot() {
        var letter = letter("{}");
        letter.answer(letter.proposals().get(0), Answer.ACCEPTED);
        letter.answer(letter.proposals().get(1), Answer.REFUSED);
        var entered = Draft.of(entered(letter, "{}"));
        assertThat(entered.get("legs.right.abi")).map(String::valueOf).hasValue("0.61");
        assertThat(entered.get("legs.left.restPain.present")).isEmpty();
        assertThat(entered.get("medicines")).isEmpty();
        assertThat(letter.count(Answer.OPEN)).isEqualTo(2);
    }

    @Test
    void whatALetterSaysOfOneEntryOfAListIsOneProposalAndLeavesNoGap() {
        var letter = letter("{}");
        assertThat(letter.proposals()).hasSize(4);
        assertThat(letter.proposals().get(2).parts())
                .extracting(Proposal.Part::path)
                .containsExactly("medicines[0].name", "medicines[0].dose");
        letter.answer(letter.proposals().get(3), Answer.ACCEPTED);
        assertThat(Draft.of(entered(letter, "{}")).get("medicines"))
                .hasValue(HandRead.json("[{\"name\": \"metformin\"}]"));
    }

    @Test
    void acceptAllLeavesRefusedAndContradictingOnesAlone() {
        var letter = letter("{\"legs\": {\"left\": {\"restPain\": {\"present\": false}}}}");
        letter.answer(letter.proposals().get(3), Answer.REFUSED);
        letter.acceptAll();
        assertThat(letter.proposals().stream().map(letter::answer))
                .containsExactly(Answer.ACCEPTED, Answer.OPEN, Answer.ACCEPTED, Answer.REFUSED);
    }

    @Test
    void whatTheReferralSaysJustSoIsNotProposedAndWhatItSaysOtherwiseStandsBesideIt() {
        var referral = "{\"legs\": {\"right\": {\"abi\": 0.610}, \"left\": {\"restPain\": {\"present\": false}}}}";
        var letter = letter(referral);
        assertThat(letter.alreadyThere()).isEqualTo(1);
        var contradiction = letter.proposals().getFirst();
        assertThat(contradiction.contradicts()).isTrue();
        assertThat(contradiction.parts().getFirst().there()).hasValue(HandRead.json("false"));
        letter.answer(contradiction, Answer.ACCEPTED);
        assertThat(Draft.of(entered(letter, referral)).get("legs.left.restPain.present"))
                .hasValue(HandRead.json("true"));
    }

    @Test
    void aMedicineThatIsThereIsCompletedOrContradictedAndNotEnteredTwice() {
        var without = "{\"medicines\": [{\"name\": \"Apixaban\"}, {\"name\": \"metformin\"}]}";
        var letter = letter(without);
        assertThat(letter.alreadyThere()).as("metformin").isEqualTo(1);
        var apixaban = letter.proposals().get(2);
        assertThat(apixaban.contradicts()).isFalse();
        assertThat(apixaban.parts()).extracting(Proposal.Part::standing).containsExactly(Standing.SAME, Standing.NEW);
        letter.answer(apixaban, Answer.ACCEPTED);
        assertThat(Draft.of(entered(letter, without)).get("medicines[0].dose")).hasValue(HandRead.json("\"5 mg\""));
        assertThat(Draft.of(entered(letter, without)).sizeOf("medicines")).hasValue(2);

        assertThat(letter("{\"medicines\": [{\"name\": \"apixaban\", \"dose\": \"2.5 mg\"}]}")
                        .proposals()
                        .get(2)
                        .contradicts())
                .isTrue();
    }

    @Test
    void anAnswerNoneContradictsAnEntry() {
        var none = "{\"medicines\": []}";
        var letter = letter(none);
        var medicine = letter.proposals().get(2);
        assertThat(medicine.contradicts()).isTrue();
        letter.answer(medicine, Answer.ACCEPTED);
        assertThat(Draft.of(entered(letter, none)).get("medicines"))
                .hasValue(HandRead.json("[{\"name\": \"apixaban\", \"dose\": \"5 mg\"}]"));
    }

    @Test
    void aLaboratoryValueOfAnotherDayIsAnEntryOfItsOwn() {
        var text = "Creatinine 120 umol/L on 1 March.";
        var read = new HandRead(text)
                .says("Creatinine", "labs[0].test", "\"creatinine\"")
                .says("120", "labs[0].value", "120")
                .says("1 March", "labs[0].taken", "\"2026-03-01\"")
                .read();
        var referral = "{\"labs\": [{\"test\": \"creatinine\", \"value\": 90, \"taken\": \"2026-01-05\"}]}";
        var letter = new OpenLetter(text, read, Draft.of(referral));
        assertThat(letter.proposals().getFirst().contradicts()).isFalse();
        letter.acceptAll();
        assertThat(Draft.of(entered(letter, referral)).sizeOf("labs")).hasValue(2);
        var same =
                "{\"labs\": [{\"test\": \"creatinine\", \"value\": 120, \"unit\": \"umol/L\", \"taken\": \"2026-03-01\"}]}";
        assertThat(new OpenLetter(text, read, Draft.of(same)).proposals()).isEmpty();
    }

    @Test
    void aCorrectedValueIsEnteredAndWhatCannotBeRightInItIsTold() {
        var letter = letter("{}");
        var abi = letter.proposals().getFirst();
        var part = abi.parts().getFirst();
        letter.correct(part, Optional.of(61));
        assertThat(letter.problems(part, TODAY)).isNotEmpty();
        letter.correct(part, Optional.of(0.81));
        assertThat(letter.problems(part, TODAY)).isEmpty();
        letter.answer(abi, Answer.ACCEPTED);
        assertThat(Draft.of(entered(letter, "{}")).get("legs.right.abi"))
                .map(String::valueOf)
                .hasValue("0.81");
        letter.correct(part, Optional.empty());
        assertThat(Draft.of(entered(letter, "{}")).get("legs.right.abi")).isEmpty();
    }

    @Test
    void theLetterComesBehindALetterThatIsThereAndNotTwice() {
        var letter = letter("{}");
        assertThat(Draft.of(entered(letter, "{\"letterText\": \"First letter.\\n\"}"))
                        .get("letterText"))
                .hasValue(HandRead.json("\"First letter.\\n\\n" + TEXT + "\""));
        var there = "{\"letterText\": \"Before. " + TEXT + "\"}";
        assertThat(entered(letter, there)).isEqualTo(draft(there));
    }

    @Test
    void answersAreTakenOverWhenTheLetterIsReadAgain() {
        var before = letter("{}");
        before.answer(before.proposals().get(0), Answer.ACCEPTED);
        before.correct(before.proposals().get(0).parts().getFirst(), Optional.of(0.81));
        before.answer(before.proposals().get(1), Answer.ACCEPTED);
        before.answer(before.proposals().get(3), Answer.REFUSED);
        var again = letter("{\"legs\": {\"left\": {\"restPain\": {\"present\": false}}}}");
        again.takeOver(before);
        assertThat(again.proposals().stream().map(again::answer))
                .as("what contradicts now is open again")
                .containsExactly(Answer.ACCEPTED, Answer.OPEN, Answer.OPEN, Answer.REFUSED);
        assertThat(again.value(again.proposals().getFirst().parts().getFirst()))
                .map(String::valueOf)
                .hasValue("0.81");

        var otherwise = new OpenLetter(
                "ABI R 0.71",
                new HandRead("ABI R 0.71")
                        .says("0.71", "legs.right.abi", "0.71")
                        .read(),
                Draft.empty());
        otherwise.takeOver(before);
        assertThat(otherwise.answer(otherwise.proposals().getFirst())).isEqualTo(Answer.OPEN);
        assertThat(otherwise.value(otherwise.proposals().getFirst().parts().getFirst()))
                .map(String::valueOf)
                .hasValue("0.71");
    }

    @Test
    void aReferenceIsNeverTakenFromALetter() {
        var text = "Our number D-1";
        var read = new HandRead(text).says("D-1", "reference", "\"D-1\"").read();
        assertThat(new OpenLetter(text, read, Draft.empty()).proposals()).isEmpty();
    }

    private static OpenLetter letter(String referral) {
        var read = new HandRead(TEXT)
                .says("ABI R 0.61", "legs.right.abi", "0.61")
                .says("Rest pain left", "legs.left.restPain.present", "true")
                .says("apixaban", "medicines[0].name", "\"apixaban\"")
                .says("5 mg", "medicines[0].dose", "\"5 mg\"")
                .says("metformin", "medicines[1].name", "\"metformin\"")
                .asks("Ulcer", "An ulcer is named, but not on which leg.")
                .read();
        return new OpenLetter(TEXT, read, Draft.of(referral));
    }

    private static String entered(OpenLetter letter, String referral) {
        var draft = Draft.of(referral);
        letter.enterInto(draft);
        return draft.toJson();
    }

    private static String draft(String json) {
        return Draft.of(json).toJson();
    }
}
