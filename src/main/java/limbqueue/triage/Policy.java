package limbqueue.triage;

import java.time.LocalDate;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * What a practice may set for itself. The order of the tiers is not among it.
 *
 * @param id name of this version of the policy, printed with every result
 * @param days days from the start of the clock to the target date of each tier; {@link Tier#ADVICE_ONLY} has none
 * @param validity how long results may be used
 * @param metformin the text by which metformin goes about contrast into an artery
 */
public record Policy(String id, Map<Tier, Integer> days, Validity validity, Metformin metformin) {

    /** Two texts that differ on metformin and contrast into an artery. */
    public enum Metformin {
        /** The drug label: held from the procedure on, whatever the kidneys. */
        DRUG_LABEL,
        /** The manual on contrast media: held at low kidney function or where emboli may reach the kidneys. */
        CONTRAST_MANUAL
    }

    private static final Policy STANDARD = new Policy(
            "standard-1",
            Map.of(
                    Tier.SAME_DAY, 0,
                    Tier.WITHIN_5_DAYS, 5,
                    Tier.WITHIN_14_DAYS, 14,
                    Tier.WITHIN_6_WEEKS, 42,
                    Tier.WITHIN_18_WEEKS, 126),
            new Validity(30, 7, 30, 1, 6));

    /**
     * How long results may be used, in days.
     *
     * @param creatinine ordinary validity of a creatinine
     * @param creatinineWhenImpaired validity when the eGFR is below 45
     * @param bloodCount validity of haemoglobin and platelets
     * @param inr validity of an INR
     * @param imagingMonths validity of imaging, in months
     */
    public record Validity(int creatinine, int creatinineWhenImpaired, int bloodCount, int inr, int imagingMonths) {}

    /** A policy under which metformin goes by the drug label. */
    public Policy(String id, Map<Tier, Integer> days, Validity validity) {
        this(id, days, validity, Metformin.DRUG_LABEL);
    }

    public Policy {
        if (id.isBlank()) {
            throw new IllegalArgumentException("a policy needs an id");
        }
        var ordered = new EnumMap<Tier, Integer>(Tier.class);
        ordered.putAll(days);
        var previous = -1;
        for (var tier : Tier.values()) {
            if (tier == Tier.ADVICE_ONLY) {
                continue;
            }
            var tierDays = ordered.get(tier);
            if (tierDays == null) {
                throw new IllegalArgumentException("the policy gives no days for the tier " + tier);
            }
            if (tierDays <= previous) {
                throw new IllegalArgumentException(
                        "the policy must give more days to a less urgent tier; " + tier + " has " + tierDays);
            }
            previous = tierDays;
        }
        days = Map.copyOf(ordered);
    }

    /** The policy the product starts with: the tiers of the published pathways and of common practice. */
    public static Policy standard() {
        return STANDARD;
    }

    /** The day by which a referral of {@code tier} should be dealt with, counted from {@code start}. */
    public Optional<LocalDate> targetDate(Tier tier, LocalDate start) {
        return Optional.ofNullable(days.get(tier)).map(start::plusDays);
    }
}
