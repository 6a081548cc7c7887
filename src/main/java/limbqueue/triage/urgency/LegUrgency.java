package limbqueue.triage.urgency;

import java.util.Locale;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.Tier;
import limbqueue.triage.grade.AcuteClass;
import limbqueue.triage.grade.LegTopics;
import limbqueue.triage.grade.LegTopics.Walking;
import limbqueue.triage.grade.WifiTable;
import limbqueue.triage.grade.WoundGrade;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Sentence;

/** The tier that one leg calls for, and the rule that calls for it: the first of these that holds. */
public final class LegUrgency {

    private LegUrgency() {}

    /** A rule that sets a tier. The sentence says why, with the leg's words put in for {@code %s}. */
    public enum Rule {
        ACUTE_ISCHAEMIA(Tier.SAME_DAY, "Sudden loss of blood flow to the %s within two weeks."),
        SYSTEMIC_INFECTION(Tier.SAME_DAY, "Foot infection of the %s with a response of the whole body."),
        WET_GANGRENE(Tier.SAME_DAY, "Wet or spreading gangrene of the %s."),
        DEEP_INFECTION(Tier.SAME_DAY, "Deep foot infection of the %s with poor blood flow."),
        THREATENED_WITH_INFECTION(Tier.WITHIN_5_DAYS, "Foot infection of the %s that is deep or wide."),
        THREATENED_AND_SPREADING(Tier.WITHIN_5_DAYS, "Wound of the %s that is spreading."),
        THREATENED_STAGE_4(Tier.WITHIN_5_DAYS, "Limb-threatening ischaemia of the %s, WIfI stage 4."),
        TISSUE_LOSS(Tier.WITHIN_14_DAYS, "Tissue loss of the %s with poor blood flow, shown or not ruled out."),
        LATE_AFTER_SUDDEN_ONSET(
                Tier.WITHIN_14_DAYS,
                "Sudden loss of blood flow to the %s longer than two weeks ago: threatened until shown otherwise."),
        REST_PAIN(Tier.WITHIN_14_DAYS, "Ischaemic rest pain of the %s, shown or suspected."),
        INFECTION_WITH_ISCHAEMIA(
                Tier.WITHIN_14_DAYS, "Local foot infection of the %s with poor blood flow, shown or not ruled out."),
        WOUND_WITHOUT_ISCHAEMIA(
                Tier.WITHIN_6_WEEKS,
                "Wound or local infection of the %s with good pressures: wound care, and a second look at the flow."),
        POPLITEAL_ANEURYSM(Tier.WITHIN_6_WEEKS, "Popliteal aneurysm of the %s, large or of unknown size."),
        EARLIER_REPAIR_OCCLUDED(
                Tier.WITHIN_6_WEEKS,
                "Claudication of the %s with an earlier stent or bypass that is occluded, shown or not ruled out."),
        ABANDONED_PROCEDURE(Tier.WITHIN_6_WEEKS, "Symptoms of the %s after a procedure that was abandoned or failed."),
        CLAUDICATION_WORSENING(Tier.WITHIN_6_WEEKS, "Claudication of the %s that is getting worse."),
        CLAUDICATION_SHORT(Tier.WITHIN_6_WEEKS, "Claudication of the %s at a short distance, shown or not ruled out."),
        CLAUDICATION_LOW_PRESSURE(
                Tier.WITHIN_6_WEEKS, "Claudication of the %s with a low ankle pressure, shown or not ruled out."),
        CLAUDICATION_LIMITING(Tier.WITHIN_18_WEEKS, "Claudication of the %s that limits life."),
        CLAUDICATION_MILD(
                Tier.ADVICE_ONLY,
                "Claudication of the %s that is not said to limit life: medicines and supervised exercise."),
        NO_SYMPTOM(Tier.ADVICE_ONLY, "No symptom stated for the %s.");

        private final Tier tier;
        private final String sentence;
        private final String id;

        Rule(Tier tier, String sentence) {
            this.tier = tier;
            this.sentence = sentence;
            this.id = "urgency-" + name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        public Tier tier() {
            return tier;
        }

        public String sentence(String legWords) {
            return Sentence.of(sentence, legWords);
        }

        /** As results and the rule book name it, for example {@code urgency-rest-pain}. */
        public String id() {
            return id;
        }
    }

    /** The rule that calls for the tier. */
    public static Rule of(Answers answers) {
        if (AcuteClass.present(answers)) {
            return Rule.ACUTE_ISCHAEMIA;
        }
        var infection = answers.of(LegTopics.INFECTION);
        if (infection.grade() == 3) {
            return Rule.SYSTEMIC_INFECTION;
        }
        var gangrene = answers.of(LegTopics.GANGRENE);
        if (gangrene != Gangrene.NONE && (infection.grade() >= 1 || answers.of(LegTopics.SPREADING))) {
            return Rule.WET_GANGRENE;
        }
        if (infection.grade() >= 2) {
            return infection.deep() && answers.of(LegTopics.SUPPLY_OF_TISSUE).ischaemia() >= 1
                    ? Rule.DEEP_INFECTION
                    : Rule.THREATENED_WITH_INFECTION;
        }
        if (gangrene != Gangrene.NONE || answers.of(LegTopics.ULCER) != Ulcer.NONE) {
            return tissueLoss(gangrene, infection.grade(), answers);
        }
        if (answers.of(LegTopics.REST_PAIN)) {
            // No stage of a leg without wound and with at most mild infection reaches 4.
            return Rule.REST_PAIN;
        }
        if (answers.of(LegTopics.LATE_AFTER_SUDDEN_ONSET)) {
            return Rule.LATE_AFTER_SUDDEN_ONSET;
        }
        if (infection.grade() == 1) {
            return answers.of(LegTopics.SUPPLY_OF_TISSUE).ischaemia() >= 1
                    ? Rule.INFECTION_WITH_ISCHAEMIA
                    : Rule.WOUND_WITHOUT_ISCHAEMIA;
        }
        return claudicationOrLess(answers);
    }

    private static Rule tissueLoss(Gangrene gangrene, int infection, Answers answers) {
        if (answers.of(LegTopics.SPREADING)) {
            return Rule.THREATENED_AND_SPREADING;
        }
        var supply = answers.of(LegTopics.SUPPLY_OF_TISSUE);
        var ischaemia = supply.ischaemia();
        if (ischaemia >= 1 && WifiTable.stage(WoundGrade.of(answers), ischaemia, infection) == 4) {
            return Rule.THREATENED_STAGE_4;
        }
        // Ankle figures can be falsely good; only a toe pressure clears a wound of ischaemia.
        if (ischaemia >= 1 || gangrene != Gangrene.NONE || !supply.distal()) {
            return Rule.TISSUE_LOSS;
        }
        if (answers.of(LegTopics.REST_PAIN)) {
            return Rule.REST_PAIN;
        }
        return answers.of(LegTopics.LATE_AFTER_SUDDEN_ONSET)
                ? Rule.LATE_AFTER_SUDDEN_ONSET
                : Rule.WOUND_WITHOUT_ISCHAEMIA;
    }

    private static Rule claudicationOrLess(Answers answers) {
        if (answers.of(LegTopics.LARGE_POPLITEAL_ANEURYSM)) {
            return Rule.POPLITEAL_ANEURYSM;
        }
        if (!answers.of(LegTopics.CLAUDICATION)) {
            return Rule.NO_SYMPTOM;
        }
        if (answers.of(LegTopics.EARLIER_REPAIR_OCCLUDED)) {
            return Rule.EARLIER_REPAIR_OCCLUDED;
        }
        if (answers.of(LegTopics.ABANDONED_PROCEDURE)) {
            return Rule.ABANDONED_PROCEDURE;
        }
        if (answers.of(LegTopics.WORSENING)) {
            return Rule.CLAUDICATION_WORSENING;
        }
        if (answers.of(LegTopics.WALKING) == Walking.SHORT) {
            return Rule.CLAUDICATION_SHORT;
        }
        if (answers.of(LegTopics.LOW_AT_ANKLE)) {
            return Rule.CLAUDICATION_LOW_PRESSURE;
        }
        return answers.of(LegTopics.LIMITS_LIFE) ? Rule.CLAUDICATION_LIMITING : Rule.CLAUDICATION_MILD;
    }
}
