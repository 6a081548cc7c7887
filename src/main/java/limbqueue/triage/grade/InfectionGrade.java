package limbqueue.triage.grade;

import java.util.List;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Fact;
import limbqueue.triage.threshold.Limit;

/**
 * WIfI foot infection grade, 0 to 3.
 *
 * <p>Source: wifi-2014 and idsa-2012 (partly values from memory). Redness that reaches further than a moderate infection's
 * counts as infection whatever the other signs.
 */
public final class InfectionGrade {

    /**
     * What is concluded of an infection.
     *
     * @param grade 0 to 3
     * @param deep abscess, bone, joint or fascia
     */
    public record Infection(int grade, boolean deep) {}

    private InfectionGrade() {}

    static Infection of(LegFacts facts, Answers answers) {
        var deep = answers.of(facts.deepInfection());
        if (!deep && !answers.of(facts.locallyInfected())) {
            return new Infection(0, false);
        }
        if (systemic(facts, answers)) {
            return new Infection(3, deep);
        }
        return new Infection(deep || answers.of(facts.widelyRed()) ? 2 : 1, deep);
    }

    private static boolean systemic(LegFacts facts, Answers answers) {
        var wanted = facts.limits().whole(Limit.SYSTEMIC_SIGNS_AT_LEAST);
        List<Fact<Boolean>> signs =
                List.of(facts.temperatureOff(), facts.heartRateHigh(), facts.breathingFast(), facts.whiteCellsOff());
        var found = 0;
        for (var i = 0; i < signs.size() && found < wanted && found + signs.size() - i >= wanted; i++) {
            if (answers.of(signs.get(i))) {
                found++;
            }
        }
        return found >= wanted;
    }
}
