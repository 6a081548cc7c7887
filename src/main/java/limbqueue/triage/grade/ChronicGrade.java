package limbqueue.triage.grade;

import java.util.EnumSet;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.grade.LegTopics.AfterExercise;
import limbqueue.triage.grade.LegTopics.Walking;
import limbqueue.triage.question.Answers;

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

    public static Category rutherford(Answers answers) {
        var gangrene = answers.of(LegTopics.GANGRENE);
        if (gangrene == Gangrene.EXTENSIVE) {
            return Category.of(Rutherford.CHRONIC_6);
        }
        var ulcer = answers.of(LegTopics.ULCER);
        if (ulcer == Ulcer.EXTENSIVE) {
            var site = answers.of(LegTopics.WOUND_SITE);
            var above = site == WoundSite.MIDFOOT || site == WoundSite.HEEL;
            return Category.of(above ? Rutherford.CHRONIC_6 : Rutherford.CHRONIC_5);
        }
        if (gangrene != Gangrene.NONE || ulcer != Ulcer.NONE) {
            return Category.of(Rutherford.CHRONIC_5);
        }
        if (answers.of(LegTopics.REST_PAIN)) {
            return Category.of(Rutherford.CHRONIC_4);
        }
        return answers.of(LegTopics.CLAUDICATION) ? claudication(answers) : Category.of(Rutherford.CHRONIC_0);
    }

    private static Category claudication(Answers answers) {
        var walking = answers.of(LegTopics.WALKING);
        if (walking == Walking.SHORT) {
            return Category.of(Rutherford.CHRONIC_3);
        }
        var afterExercise = answers.of(LegTopics.AFTER_EXERCISE);
        if (walking == Walking.FONTAINE_IIB) {
            return switch (afterExercise) {
                case SEVERE -> Category.of(Rutherford.CHRONIC_3);
                case NOT_SEVERE -> Category.of(Rutherford.CHRONIC_2);
                case NOT_MEASURED ->
                    new Category(Rutherford.CHRONIC_2, EnumSet.of(Rutherford.CHRONIC_2, Rutherford.CHRONIC_3));
            };
        }
        if (afterExercise == AfterExercise.SEVERE) {
            return Category.of(Rutherford.CHRONIC_2);
        }
        return new Category(
                answers.of(LegTopics.LIMITS_LIFE) ? Rutherford.CHRONIC_2 : Rutherford.CHRONIC_1,
                EnumSet.of(Rutherford.CHRONIC_1, Rutherford.CHRONIC_2));
    }

    public static Fontaine fontaine(Answers answers) {
        if (WoundGrade.tissueLoss(answers)) {
            return Fontaine.IV;
        }
        if (answers.of(LegTopics.REST_PAIN)) {
            return Fontaine.III;
        }
        if (!answers.of(LegTopics.CLAUDICATION)) {
            return Fontaine.I;
        }
        return answers.of(LegTopics.WALKING) == Walking.FONTAINE_IIA ? Fontaine.IIA : Fontaine.IIB;
    }
}
