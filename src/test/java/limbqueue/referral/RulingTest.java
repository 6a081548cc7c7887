package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.referral.Decision.Approve;
import limbqueue.referral.Decision.AskForInformation;
import limbqueue.referral.Decision.Change;
import limbqueue.referral.Decision.ReturnToReferrer;
import limbqueue.referral.Decision.SendToHospital;
import limbqueue.triage.Policy;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.TriageResult.FhirPriority;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.LegResults;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.Urgency;
import limbqueue.triage.TriageResult.Wifi;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RulingTest {

    private static final LocalDate RECEIVED = LocalDate.of(2026, 3, 2);
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 4);

    @Test
    void approvingTakesTierAndDateAsProposed() {
        assertThat(rule(new Approve(), Tier.WITHIN_14_DAYS))
                .isEqualTo(new Ruling.Stands(
                        DecisionKind.APPROVED,
                        ReferralState.APPROVED,
                        Tier.WITHIN_14_DAYS,
                        Optional.of(LocalDate.of(2026, 3, 16)),
                        Map.of(),
                        ""));
    }

    @Test
    void aSameDayProposalIsNotApprovedIntoTheQueue() {
        assertThat(refusal(rule(new Approve(), Tier.SAME_DAY))).contains("Send the patient to hospital");
    }

    @Test
    void aTierIsNotChangedToTheSameDay() {
        assertThat(refusal(rule(new Change(Tier.SAME_DAY, Map.of(), "Looks bad."), Tier.WITHIN_5_DAYS)))
                .contains("hospital");
    }

    @Test
    void aChangedTierCountsItsDaysFromTheSameDay() {
        var stands =
                (Ruling.Stands) rule(new Change(Tier.WITHIN_5_DAYS, Map.of(), " Wound grows. "), Tier.WITHIN_14_DAYS);

        assertThat(stands.targetDate()).contains(LocalDate.of(2026, 3, 7));
        assertThat(stands.leadsTo()).isEqualTo(ReferralState.APPROVED);
        assertThat(stands.reason()).isEqualTo("Wound grows.");
    }

    @Test
    void aChangeToWhatIsProposedIsAnApproval() {
        var same = new Change(Tier.WITHIN_14_DAYS, Map.of(Side.LEFT, Rutherford.CHRONIC_5), "I agree.");

        assertThat(refusal(rule(same, Tier.WITHIN_14_DAYS))).contains("Approve it");
    }

    @Test
    void aChangedCategoryAloneIsAChange() {
        var stands = (Ruling.Stands) rule(
                new Change(
                        Tier.WITHIN_14_DAYS,
                        Map.of(Side.LEFT, Rutherford.CHRONIC_6, Side.RIGHT, Rutherford.CHRONIC_5),
                        "Seen on the photograph."),
                Tier.WITHIN_14_DAYS);

        assertThat(stands.categories()).isEqualTo(Map.of(Side.LEFT, Rutherford.CHRONIC_6));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "\n\t", "\u00a0\u2003", "-", "..."})
    void nothingIsDecidedWithoutWords(String blank) {
        assertThat(refusal(rule(new Change(Tier.WITHIN_5_DAYS, Map.of(), blank), Tier.WITHIN_14_DAYS)))
                .contains("Say why");
        assertThat(refusal(rule(new AskForInformation(blank), Tier.WITHIN_14_DAYS)))
                .contains("Say what");
        assertThat(refusal(rule(new ReturnToReferrer(blank), Tier.WITHIN_14_DAYS)))
                .contains("Say why");
        assertThat(refusal(rule(new SendToHospital(blank), Tier.WITHIN_14_DAYS)))
                .contains("Say whom");
    }

    /** The legs of these referrals are limb-threatening. */
    @ParameterizedTest
    @ValueSource(strings = {"Fine.", "Fine - fine", "ok ... !"})
    void loweringWhileALegIsThreatenedTakesASentence(String words) {
        assertThat(refusal(rule(new Change(Tier.WITHIN_6_WEEKS, Map.of(), words), Tier.WITHIN_14_DAYS)))
                .contains("Give the reason in a sentence");
        assertThat(rule(new Change(Tier.WITHIN_6_WEEKS, Map.of(), "The wound has healed."), Tier.WITHIN_14_DAYS))
                .isInstanceOf(Ruling.Stands.class);
    }

    @Test
    void raisingTakesAWord() {
        assertThat(rule(new Change(Tier.WITHIN_5_DAYS, Map.of(), "Worse"), Tier.WITHIN_14_DAYS))
                .isInstanceOf(Ruling.Stands.class);
    }

    @Test
    void sendingToHospitalIsTodayWhateverWasProposed() {
        var stands = (Ruling.Stands) rule(new SendToHospital("Tarn Edge, by phone"), Tier.WITHIN_18_WEEKS);

        assertThat(stands.tier()).isEqualTo(Tier.SAME_DAY);
        assertThat(stands.targetDate()).contains(TODAY);
        assertThat(stands.leadsTo()).isEqualTo(ReferralState.SENT_TO_HOSPITAL);
    }

    @Test
    void askingAndReturningLeaveTheProposalAsItIs() {
        for (var decision : List.of(new AskForInformation("Toe pressure?"), new ReturnToReferrer("Veins."))) {
            var stands = (Ruling.Stands) rule(decision, Tier.WITHIN_14_DAYS);
            assertThat(stands.tier()).isEqualTo(Tier.WITHIN_14_DAYS);
            assertThat(stands.targetDate()).contains(LocalDate.of(2026, 3, 16));
        }
    }

    private static String refusal(Ruling ruling) {
        return ((Ruling.Refused) ruling).why();
    }

    private static Ruling rule(Decision decision, Tier proposed) {
        var leg = new LegResult(
                Optional.empty(),
                Optional.empty(),
                new FontaineGrade(Fontaine.IV, List.of(Fontaine.IV)),
                new RutherfordGrade(Rutherford.CHRONIC_5, List.of(Rutherford.CHRONIC_5)),
                Optional.of(new Wifi(1, 2, 0, 3, Benefit.HIGH, List.of(3))),
                Answer.YES,
                List.of(Answer.YES),
                proposed);
        var policy = Policy.standard();
        return Ruling.on(
                decision,
                new TriageResult(
                        Optional.empty(),
                        TODAY,
                        policy.id(),
                        "0123456789abcdef",
                        TriageResult.NOTICE,
                        new LegResults(leg, leg),
                        List.of(),
                        new Urgency(
                                proposed,
                                List.of(proposed),
                                policy.targetDate(proposed, RECEIVED),
                                RECEIVED,
                                FhirPriority.URGENT,
                                "Because."),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        Optional.empty(),
                        List.of()),
                policy,
                RECEIVED);
    }
}
