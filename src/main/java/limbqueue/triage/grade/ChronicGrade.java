package limbqueue.triage.grade;

import java.util.EnumSet;
import java.util.Set;
import limbqueue.triage.Quantity;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.question.Answers;
import limbqueue.triage.threshold.Limit;

/**
 * Rutherford category and Fontaine stage of a leg, of which the symptom decides; pressures confirm or contradict it.
 *
 * <p>Source: rutherford-1997, fontaine-1954. A referral seldom has a treadmill test, which Rutherford 1 to 3 are defined
 * by; the walking distances that stand in for it are common practice, not part of the published definition.
 */
public final class ChronicGrade {

    private ChronicGrade() {}

    /** A category to act on, and those that a treadmill test could still show. */
    public record Category(Rutherford actOn, Set<Rutherford> possible) {

        public static Category of(Rutherford category) {
            return new Category(category, Set.of(category));
        }
    }

    public static Category rutherford(LegFacts facts, Answers answers) {
        var gangrene = answers.of(facts.gangrene());
        if (gangrene == Gangrene.EXTENSIVE) {
            return Category.of(Rutherford.CHRONIC_6);
        }
        var ulcer = answers.of(facts.ulcer());
        if (ulcer == Ulcer.EXTENSIVE) {
            var site = answers.of(facts.woundSite());
            var above = site == WoundSite.MIDFOOT || site == WoundSite.HEEL;
            return Category.of(above ? Rutherford.CHRONIC_6 : Rutherford.CHRONIC_5);
        }
        if (gangrene != Gangrene.NONE || ulcer != Ulcer.NONE) {
            return Category.of(Rutherford.CHRONIC_5);
        }
        if (answers.of(facts.restPain())) {
            return Category.of(Rutherford.CHRONIC_4);
        }
        return answers.of(facts.claudication()) ? claudication(facts, answers) : Category.of(Rutherford.CHRONIC_0);
    }

    private static Category claudication(LegFacts facts, Answers answers) {
        var distance = answers.of(facts.distance()).value();
        if (distance < facts.limits().of(Limit.CLAUDICATION_SHORT_LESS_THAN)) {
            return Category.of(Rutherford.CHRONIC_3);
        }
        var afterExercise = facts.leg().pressures().ankleAfterExercise().map(Quantity::value);
        var severe = facts.limits().of(Limit.EXERCISE_SEVERE_ANKLE_LESS_THAN);
        if (distance <= facts.limits().of(Limit.FONTAINE_IIB_AT_MOST)) {
            return afterExercise
                    .map(pressure -> Category.of(pressure < severe ? Rutherford.CHRONIC_3 : Rutherford.CHRONIC_2))
                    .orElseGet(() ->
                            new Category(Rutherford.CHRONIC_2, EnumSet.of(Rutherford.CHRONIC_2, Rutherford.CHRONIC_3)));
        }
        if (afterExercise.map(pressure -> pressure < severe).orElse(false)) {
            return Category.of(Rutherford.CHRONIC_2);
        }
        var limiting = answers.of(facts.limitsLife());
        return new Category(
                limiting ? Rutherford.CHRONIC_2 : Rutherford.CHRONIC_1,
                EnumSet.of(Rutherford.CHRONIC_1, Rutherford.CHRONIC_2));
    }

    public static Fontaine fontaine(LegFacts facts, Answers answers) {
        if (WoundGrade.tissueLoss(facts, answers)) {
            return Fontaine.IV;
        }
        if (answers.of(facts.restPain())) {
            return Fontaine.III;
        }
        if (!answers.of(facts.claudication())) {
            return Fontaine.I;
        }
        var far = answers.of(facts.distance()).value() > facts.limits().of(Limit.FONTAINE_IIB_AT_MOST);
        return far ? Fontaine.IIA : Fontaine.IIB;
    }
}
