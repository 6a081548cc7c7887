package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import limbqueue.booking.StepKind;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.practice.Practice;
import limbqueue.preparation.CaseOutcome;
import limbqueue.print.EnvelopeWindow;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.ReferralState;
import limbqueue.referral.TierPhrase;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every kind of letter in every language, and what each has to say. */
class LettersOfEveryStepTest {

    private static final LocalDateTime STARTS = LocalDateTime.of(2026, 3, 9, 8, 30);
    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);

    @ParameterizedTest
    @ValueSource(strings = {"en-GB", "es"})
    void everyKindIsWrittenWithoutABlankLeftOpen(String language) {
        var kinds = EnumSet.noneOf(LetterKind.class);
        for (var letter : everyLetter(Samples.writer(language), Samples.document())) {
            kinds.add(letter.kind());
            assertThat(letter.parts().language()).isEqualTo(language);
            assertThat(letter.parts().subject()).isNotBlank();
            assertThat(letter.parts().asText())
                    .as("%s", letter.kind())
                    .doesNotContain("{")
                    .doesNotContain("}")
                    .doesNotContain("null")
                    .doesNotContain("  ,")
                    .contains("LQ-2026-0001");
        }
        assertThat(kinds).containsExactlyInAnyOrder(LetterKind.values());
    }

    @Test
    void aSpanishLetterHoldsNoEnglish() {
        for (var letter : everyLetter(Samples.writer("es"), Samples.document())) {
            assertThat(" " + letter.parts().asText().replaceAll("[^\\p{L}]+", " ") + " ")
                    .as("%s", letter.kind())
                    .doesNotContainIgnoringCase(" the ")
                    .doesNotContainIgnoringCase(" of ")
                    .doesNotContainIgnoringCase(" leg ")
                    .doesNotContainIgnoringCase(" patient ")
                    .doesNotContainIgnoringCase(" March ");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"en-GB", "es"})
    void everyLetterButTheFirstSaysWhoDecidesAndEveryOneWhatMustNotWait(String language) {
        for (var letter : everyLetter(Samples.writer(language), Samples.document())) {
            var text = letter.parts().asText();
            assertThat(text).as("%s", letter.kind()).contains("01632 960199");
            if (letter.kind().toPatient()) {
                assertThat(text)
                        .contains(language.equals("es") ? "Este plan es una propuesta" : "This plan is a proposal");
            } else if (letter.kind() != LetterKind.RECEIVED) {
                assertThat(text)
                        .as("%s", letter.kind())
                        .contains(
                                language.equals("es")
                                        ? "revalece el protocolo local."
                                        : letter.kind() == LetterKind.DONE
                                                ? "local protocol prevails."
                                                : "Local protocol prevails.");
            }
        }
    }

    @Test
    void aDateIsToldWithItsDayTimeAndPlace() {
        assertThat(text("en-GB", LetterKind.BOOKED))
                .contains("We have given Zoë Ångström-Łuczak a date for the procedure on the leg arteries:"
                        + " Monday 9 March 2026 at 08:30, Angiography 2.");
        assertThat(text("en-GB", LetterKind.CHANGED))
                .contains("It is now on Monday 9 March 2026 at 08:30, Angiography 2.");
        assertThat(text("en-GB", LetterKind.CANCELLED)).contains("on Monday 9 March 2026 is cancelled");
        assertThat(text("es", LetterKind.BOOKED)).contains("lunes 9 de marzo de 2026 a las 08:30, Angiography 2.");
        assertThat(text("es", LetterKind.CANCELLED)).contains("el lunes 9 de marzo de 2026 queda anulada");
    }

    @Test
    void aPatientsLetterGoesToThePatientWithNoGradeAndNoBirthDate() {
        var document = Facts.with(Samples.document(), "patient.address", "3 Fuller Row, Millbeck");
        var letter = Samples.writer("en-GB").visit(LetterKind.PATIENT_APPOINTMENT, referral(), document, DAY, visit());

        assertThat(letter.recipient()).isEqualTo("Zoë Ångström-Łuczak");
        assertThat(letter.channel()).isEqualTo("Post");
        assertThat(letter.parts().addressee()).containsExactly("Zoë Ångström-Łuczak", "3 Fuller Row", "Millbeck");
        assertThat(letter.parts().asText())
                .contains("Dear Zoë Ångström-Łuczak,")
                .contains("When: Monday 9 March 2026 at 08:30.")
                .contains("Where: Angiography 2.")
                .contains("  - Do not stop a medicine on your own.")
                .contains("call 01632 960100")
                .doesNotContain("1951")
                .doesNotContain("Farrow")
                .doesNotContainIgnoringCase("rutherford");
    }

    @Test
    void aPatientWithoutNameAndAPracticeWithoutNumbersStillGetALetter() {
        var bare = new Practice("The practice", List.of(), "", "", "", "", "", EnvelopeWindow.DIN_5008_B, 0);
        var letter = new LetterWriter(bare, Samples.WORDINGS, "en-GB")
                .visit(LetterKind.PATIENT_CANCELLED, referral(), Facts.nothingKnown(), DAY, visit());

        assertThat(letter.recipient()).isEqualTo("The patient");
        assertThat(letter.channel()).isEmpty();
        assertThat(letter.parts().asText())
                .contains("Dear patient,")
                .contains("We will tell you the new day as soon as we know it.\n")
                .doesNotContain("call")
                .contains("Then go to the nearest hospital at once.");
    }

    @ParameterizedTest
    @EnumSource(CaseOutcome.class)
    void aDoneLetterSaysHowItEndedWhatFollowsAndWhatToConsider(CaseOutcome outcome) {
        var text = Samples.writer("en-GB")
                .done(referral(), Samples.document(), DAY, DAY, outcome)
                .parts()
                .asText();

        assertThat(text)
                .contains("took place here on 9 March 2026.")
                .contains(
                        switch (outcome) {
                            case AS_PLANNED -> "It went as planned.";
                            case OTHER_ACCESS -> "through another access than first planned";
                            case FAILED -> "could not be completed as planned";
                            case COMPLICATION -> "There was a complication.";
                        })
                .contains("Follow-up: we will see the patient again")
                .contains("  - a statin, unless there is a reason against it");
    }

    @ParameterizedTest
    @EnumSource(Tier.class)
    void howSoonIsSaidAsOnTheScreen(Tier tier) {
        assertThat(new ClinicalWords(Vocabulary.of("en-GB"), QuestionWords.of("en-GB"))
                        .howSoon(tier, Policy.standard()))
                .isEqualTo(TierPhrase.of(tier, Policy.standard()));
    }

    @ParameterizedTest
    @EnumSource(Rutherford.class)
    void everyCategoryIsNamedAsInTheSource(Rutherford category) {
        assertThat(Vocabulary.of("en-GB").say("rutherford." + category.name())).isEqualTo(category.description());
        for (var language : List.of("en-GB", "es")) {
            var decided = Samples.decided(
                    Samples.document(),
                    proposal(),
                    DecisionKind.CHANGED,
                    Tier.WITHIN_14_DAYS,
                    Map.of(Side.LEFT, category),
                    "x");
            assertThat(Samples.writer(language).decided(decided).parts().asText())
                    .contains(" " + category.label() + " ");
        }
    }

    private static String text(String language, LetterKind kind) {
        return Samples.writer(language)
                .visit(kind, referral(), Samples.document(), DAY, visit())
                .parts()
                .asText();
    }

    private static limbqueue.referral.Referral referral() {
        return Samples.referral(ReferralState.APPROVED);
    }

    private static Visit visit() {
        return new Visit(StepKind.PROCEDURE, STARTS, "Angiography 2");
    }

    private static TriageResult proposal() {
        return Samples.with(
                Samples.proposal(
                        Tier.WITHIN_14_DAYS,
                        Samples.leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS),
                        Samples.soundLeg()),
                List.of(),
                List.of(new Question(
                        "¿?", "legs.left.wound.spreading", Tier.WITHIN_5_DAYS, DAY.plusDays(5), List.of("urgency"))),
                List.of(Samples.needed("kidney-function")),
                List.of());
    }

    static List<WrittenLetter> everyLetter(LetterWriter writer, ReferralDocument document) {
        var letters = new ArrayList<WrittenLetter>();
        letters.add(writer.received(referral(), document, DAY));
        for (var kind : DecisionKind.values()) {
            var tier = kind == DecisionKind.SENT_TO_HOSPITAL ? Tier.SAME_DAY : Tier.WITHIN_14_DAYS;
            letters.add(writer.decided(Samples.decided(document, proposal(), kind, tier, "X-1.")));
        }
        letters.add(writer.decided(Samples.decided(document, proposal(), DecisionKind.APPROVED, Tier.ADVICE_ONLY, "")));
        for (var kind : List.of(
                LetterKind.BOOKED,
                LetterKind.CHANGED,
                LetterKind.CANCELLED,
                LetterKind.PATIENT_APPOINTMENT,
                LetterKind.PATIENT_CHANGED,
                LetterKind.PATIENT_CANCELLED)) {
            for (var step : StepKind.values()) {
                letters.add(writer.visit(kind, referral(), document, DAY, new Visit(step, STARTS, "Angiography 2")));
            }
        }
        for (var outcome : CaseOutcome.values()) {
            letters.add(writer.done(referral(), document, DAY, DAY, outcome));
        }
        return letters;
    }
}
