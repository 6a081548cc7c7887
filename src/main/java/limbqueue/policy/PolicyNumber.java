package limbqueue.policy;

import limbqueue.document.PolicyFormat;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** A number that the practice chooses. Its range and unit are those of the public format. */
public enum PolicyNumber {
    WITHIN_5_DAYS("days.within5Days", Tier.WITHIN_5_DAYS.words()),
    WITHIN_14_DAYS("days.within14Days", Tier.WITHIN_14_DAYS.words()),
    WITHIN_6_WEEKS("days.within6Weeks", Tier.WITHIN_6_WEEKS.words()),
    WITHIN_18_WEEKS("days.within18Weeks", Tier.WITHIN_18_WEEKS.words()),
    CREATININE("validity.creatinine", "Creatinine"),
    CREATININE_WHEN_IMPAIRED("validity.creatinineWhenImpaired", "Creatinine, eGFR below 45"),
    BLOOD_COUNT("validity.bloodCount", "Haemoglobin and platelets"),
    INR("validity.inr", "INR"),
    IMAGING("validity.imagingMonths", "Imaging");

    private final String path;
    private final String label;

    PolicyNumber(String path, String label) {
        this.path = path;
        this.label = label;
    }

    /** Its path in the public format. */
    public String path() {
        return path;
    }

    public String label() {
        return label;
    }

    /** Whether it is the days of a tier; else it is how long a result may be used. */
    public boolean ofTier() {
        return path.startsWith("days.");
    }

    public int of(Policy policy) {
        var node = PolicyFormat.write(policy);
        for (var name : path.split("\\.", -1)) {
            node = node.get(name);
        }
        return node.intValue();
    }

    public PolicyFormat.Range range() {
        return PolicyFormat.range(path);
    }
}
