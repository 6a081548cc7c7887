package limbqueue.governance.ui;

import java.util.Locale;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.triage.Tier;

/** Words of the report: tiers as the policy phrases them, rules by their ids. */
record GovernanceWords(PracticeSettings settings) {

    String tier(Tier tier) {
        return sentence(TierPhrase.of(tier, settings.policy()));
    }

    /** The id of a rule as words. */
    static String name(String rule) {
        return sentence(rule.replace('-', ' '));
    }

    static String sentence(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }
}
