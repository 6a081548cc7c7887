package limbqueue.chasing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The days are worked out by hand from the rule: common practice, no source. */
class SafetyCallsTest {

    private static final LocalDate RECEIVED = LocalDate.of(2026, 3, 2);
    private static final ChasingDays DAYS =
            new ChasingDays(7, 4, 3, Map.of(Tier.WITHIN_5_DAYS, 1, Tier.WITHIN_14_DAYS, 3), 5);

    @ParameterizedTest
    @CsvSource({"WITHIN_5_DAYS,2026-03-03", "WITHIN_14_DAYS,2026-03-05"})
    void theFirstCallIsCountedFromTheDayOfReceipt(Tier tier, LocalDate due) {
        assertThat(SafetyCalls.due(DAYS, tier, RECEIVED, List.of())).contains(due);
    }

    @Test
    void aTierWithoutAnIntervalIsNotCalled() {
        assertThat(SafetyCalls.due(DAYS, Tier.WITHIN_18_WEEKS, RECEIVED, List.of()))
                .isEmpty();
    }

    @Test
    void theNextCallIsCountedFromTheLastOneThatReachedThePatient() {
        var calls = List.of(call(2, 8, Outcome.UNCHANGED), call(1, 5, Outcome.WORSE));

        assertThat(SafetyCalls.due(DAYS, Tier.WITHIN_14_DAYS, RECEIVED, calls)).contains(LocalDate.of(2026, 3, 11));
    }

    @Test
    void whoWasNotReachedIsCalledTheNextDay() {
        var calls = List.of(call(1, 5, Outcome.UNCHANGED), call(2, 8, Outcome.NOT_REACHED));

        assertThat(SafetyCalls.due(DAYS, Tier.WITHIN_14_DAYS, RECEIVED, calls)).contains(LocalDate.of(2026, 3, 9));
    }

    @Test
    void reachedLaterTheSameDayThePatientIsCalledAtTheUsualTime() {
        var calls = List.of(call(3, 8, Outcome.NOT_REACHED), call(4, 8, Outcome.UNCHANGED));

        assertThat(SafetyCalls.due(DAYS, Tier.WITHIN_14_DAYS, RECEIVED, calls)).contains(LocalDate.of(2026, 3, 11));
    }

    @Test
    void callsAboutSomethingElseDoNotCount() {
        var call = new PhoneCall(
                1,
                1,
                Kind.OTHER,
                Optional.empty(),
                Optional.empty(),
                LocalDate.of(2026, 3, 8),
                "the surgery",
                "Asked for the letter.",
                Optional.empty(),
                "Wren Halloway",
                Instant.EPOCH);

        assertThat(SafetyCalls.due(DAYS, Tier.WITHIN_14_DAYS, RECEIVED, List.of(call)))
                .contains(LocalDate.of(2026, 3, 5));
    }

    /** Category 4, rest pain, threatens the limb (rutherford-1997, gvg-2019); claudication does not. */
    @Test
    void restPainAndSuddenIschaemiaThreatenALegAndClaudicationDoesNot() {
        assertThat(SafetyCalls.threatened(proposal(Arriving.REST_PAIN))).isTrue();
        assertThat(SafetyCalls.threatened(proposal(Arriving.SUDDEN))).isTrue();
        assertThat(SafetyCalls.threatened(proposal("""
                {"legs": {"left": {"claudication": {"present": true, "distanceMetres": 150}}}}"""))).isFalse();
    }

    @Test
    void daysOutOfRangeAreRefused() {
        assertThatThrownBy(() -> new ChasingDays(0, 4, 3, Map.of(), 5)).hasMessage("Days are a number from 1 to 90.");
        assertThatThrownBy(() -> new ChasingDays(7, 4, 91, Map.of(), 5)).hasMessage("Days are a number from 1 to 90.");
        assertThatThrownBy(() -> new ChasingDays(7, 4, 3, Map.of(), -1)).hasMessage("Days are a number from 0 to 90.");
        assertThatThrownBy(() -> new ChasingDays(7, 4, 3, Map.of(Tier.SAME_DAY, 1), 5))
                .hasMessageContaining("hospital today");
    }

    private static TriageResult proposal(String document) {
        return Triage.triage(
                Draft.of(document).read(RECEIVED).document(), Policy.standard(), RuleBook.shipped(), RECEIVED);
    }

    private static PhoneCall call(long id, int day, Outcome outcome) {
        return new PhoneCall(
                id,
                1,
                Kind.SAFETY,
                Optional.empty(),
                Optional.of(outcome),
                LocalDate.of(2026, 3, day),
                "the patient",
                "As before.",
                Optional.empty(),
                "Wren Halloway",
                Instant.EPOCH);
    }
}
