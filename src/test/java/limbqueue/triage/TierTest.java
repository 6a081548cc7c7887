package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The tiers are the product's own; so are their names. */
class TierTest {

    @ParameterizedTest
    @CsvSource({
        "SAME_DAY, Same day",
        "WITHIN_5_DAYS, Within 5 days",
        "WITHIN_14_DAYS, Within 14 days",
        "WITHIN_6_WEEKS, Within 6 weeks",
        "WITHIN_18_WEEKS, Within 18 weeks",
        "ADVICE_ONLY, Advice only"
    })
    void aTierIsCalledByHowSoonItIs(Tier tier, String words) {
        assertThat(tier.words()).isEqualTo(words);
    }
}
