package limbqueue.triage.workup;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import limbqueue.triage.TriageResult.Who;
import limbqueue.triage.rule.Firings;

/** Everything that a work-up can hold: who does it, and what waits for it (common practice, no source). */
public enum Item {
    FOOT_SERVICE_CALL(Who.COORDINATOR),
    WOUND_ASSESSMENT(Who.WOUND_CARE, "access-plan"),
    KIDNEY_FUNCTION(Who.LABORATORY, "cta-or-mra", "kidney-protection", "metformin", "anticoagulant", "procedure"),
    KIDNEY_PROTECTION(Who.PHYSICIAN, "procedure"),
    KIDNEY_DRUGS(Who.PRESCRIBER, "procedure"),
    BLOOD_COUNT(Who.LABORATORY, "procedure"),
    POTASSIUM(Who.LABORATORY, "procedure"),
    INR(Who.LABORATORY, "procedure"),
    BLEEDING_VALUES(Who.PHYSICIAN, "procedure"),
    HBA1C(Who.LABORATORY),
    THYROID_FUNCTION(Who.LABORATORY, "cta-or-mra", "procedure"),
    PREGNANCY_TEST(Who.PHYSICIAN, "cta-or-mra", "procedure"),
    DUPLEX(Who.VASCULAR_LABORATORY, "cta-or-mra", "vein-mapping", "access-plan"),
    CTA_OR_MRA(Who.RADIOLOGY, "access-plan"),
    TOE_PRESSURE(Who.VASCULAR_LABORATORY),
    EXERCISE_ABI(Who.VASCULAR_LABORATORY),
    COVERED_STENT_STOCK(Who.PROCEDURE_ROOM, "procedure"),
    OUTSIDE_REPORT(Who.COORDINATOR, "access-plan"),
    OUTSIDE_IMAGES(Who.COORDINATOR, "access-plan"),
    OPERATOR_CONVERSATION(Who.PHYSICIAN, "access-plan"),
    METFORMIN(Who.PRESCRIBER, "procedure"),
    SGLT2_INHIBITOR(Who.PRESCRIBER, "procedure"),
    FASTING(Who.PRESCRIBER),
    CONTRAST_ALLERGY(Who.PHYSICIAN, "cta-or-mra", "procedure"),
    ANTICOAGULANT(Who.PRESCRIBER, "procedure"),
    ANTIPLATELET_CONTINUES(Who.PRESCRIBER),
    CARDIAC_RISK(Who.PHYSICIAN, "procedure"),
    VEIN_MAPPING(Who.VASCULAR_LABORATORY),
    CONSENT_RISKS(Who.PHYSICIAN, "procedure"),
    EXERCISE_THERAPY(Who.EXERCISE_PROGRAMME, "procedure"),
    ANTIPLATELET(Who.PRESCRIBER),
    STATIN(Who.PRESCRIBER),
    SMOKING(Who.REFERRING_DOCTOR);

    /** What waits for each, in lists that nobody can change. */
    private static final Map<Item, List<String>> UNLOCKS = new EnumMap<>(Item.class);

    static {
        for (var item : values()) {
            UNLOCKS.put(item, item.unlocks.isEmpty() ? List.of() : List.of(item.unlocks.split(" ", -1)));
        }
    }

    private final Who who;
    private final String code;
    private final String rule;
    /** Parted by blanks, since a constant holds nothing that could be changed. */
    private final String unlocks;

    Item(Who who, String... unlocks) {
        this.who = who;
        this.code = name().toLowerCase(Locale.ROOT).replace('_', '-');
        this.rule = Firings.WORK_UP + code;
        this.unlocks = String.join(" ", unlocks);
    }

    /** As results name it. */
    public String code() {
        return code;
    }

    /** Id of the rule of the book that asks for it. */
    String rule() {
        return rule;
    }

    public Who who() {
        return who;
    }

    /** Codes of the items that wait for this one; {@code access-plan} and {@code procedure} for plan and case. */
    public List<String> unlocks() {
        return UNLOCKS.getOrDefault(this, List.of());
    }
}
