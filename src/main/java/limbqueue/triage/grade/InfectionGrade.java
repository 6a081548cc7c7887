package limbqueue.triage.grade;

import java.util.List;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Diagram;
import limbqueue.triage.question.Topic;

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
    public record Infection(int grade, boolean deep) {

        static final List<Infection> ALL = List.of(
                new Infection(0, false),
                new Infection(1, false),
                new Infection(2, false),
                new Infection(2, true),
                new Infection(3, false),
                new Infection(3, true));
    }

    private static final List<Topic<Boolean>> SIGNS = List.of(
            LegTopics.TEMPERATURE_OFF, LegTopics.HEART_RATE_HIGH, LegTopics.BREATHING_FAST, LegTopics.WHITE_CELLS_OFF);

    /** How many systemic signs there are. */
    public static final int SYSTEMIC_SIGNS = SIGNS.size();

    private InfectionGrade() {}

    /** @param systemicSignsWanted how many of the systemic signs make an infection severe */
    public static Diagram<Infection> rules(int systemicSignsWanted) {
        return Diagram.of(answers -> of(answers, systemicSignsWanted), Infection.ALL);
    }

    private static Infection of(Answers answers, int systemicSignsWanted) {
        var deep = answers.of(LegTopics.DEEP_INFECTION);
        if (!deep && !answers.of(LegTopics.LOCALLY_INFECTED)) {
            return new Infection(0, false);
        }
        if (systemic(answers, systemicSignsWanted)) {
            return new Infection(3, deep);
        }
        return new Infection(deep || answers.of(LegTopics.WIDELY_RED) ? 2 : 1, deep);
    }

    private static boolean systemic(Answers answers, int wanted) {
        var found = 0;
        for (var i = 0; i < SIGNS.size() && found < wanted && found + SIGNS.size() - i >= wanted; i++) {
            if (answers.of(SIGNS.get(i))) {
                found++;
            }
        }
        return found >= wanted;
    }
}
