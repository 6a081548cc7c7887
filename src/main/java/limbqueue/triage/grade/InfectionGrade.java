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

    private InfectionGrade() {}

    public static int of(LegFacts facts, Answers answers) {
        var deep = answers.of(facts.deepInfection());
        if (!deep && !answers.of(facts.locallyInfected())) {
            return 0;
        }
        if (systemic(facts, answers)) {
            return 3;
        }
        return deep || answers.of(facts.widelyRed()) ? 2 : 1;
    }

    /** Whether the infection is deep: abscess, bone, joint or fascia. */
    public static boolean deep(LegFacts facts, Answers answers) {
        return answers.of(facts.deepInfection());
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
