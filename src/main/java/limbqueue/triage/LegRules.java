package limbqueue.triage;

import java.util.List;
import java.util.stream.IntStream;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.grade.AcuteClass;
import limbqueue.triage.grade.ChronicGrade;
import limbqueue.triage.grade.ChronicGrade.Category;
import limbqueue.triage.grade.InfectionGrade;
import limbqueue.triage.grade.InfectionGrade.Infection;
import limbqueue.triage.grade.LimbThreat;
import limbqueue.triage.grade.WoundGrade;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Diagram;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;
import limbqueue.triage.urgency.LegUrgency;

/**
 * The rules about one leg, drawn.
 *
 * @param tier as {@code urgency}, whichever rule calls for it
 * @param infectionBySigns the grade of infection, by how many systemic signs make it severe
 */
record LegRules(
        Diagram<LegUrgency.Rule> urgency,
        Diagram<Tier> tier,
        Diagram<Category> rutherford,
        Diagram<Fontaine> fontaine,
        Diagram<Boolean> threat,
        Diagram<Integer> wound,
        List<Diagram<Infection>> infectionBySigns) {

    private static final class Drawn {
        static final LegRules RULES = draw();
    }

    /** As {@link #draw}, drawn once. */
    static LegRules drawn() {
        return Drawn.RULES;
    }

    /** Runs every rule for every way of answering what it asks. */
    static LegRules draw() {
        var urgency = Diagram.of(LegUrgency::of);
        return new LegRules(
                urgency,
                urgency.map(LegUrgency.Rule::tier),
                Diagram.of(LegRules::category),
                Diagram.of(ChronicGrade::fontaine),
                Diagram.of(LimbThreat::of),
                Diagram.of(WoundGrade::of),
                IntStream.rangeClosed(0, InfectionGrade.SYSTEMIC_SIGNS)
                        .mapToObj(InfectionGrade::rules)
                        .toList());
    }

    private static Category category(Answers answers) {
        return AcuteClass.present(answers) ? Category.of(AcuteClass.of(answers)) : ChronicGrade.rutherford(answers);
    }

    Diagram<Infection> infection(Limits limits) {
        return infectionBySigns.get(limits.whole(Limit.SYSTEMIC_SIGNS_AT_LEAST));
    }
}
