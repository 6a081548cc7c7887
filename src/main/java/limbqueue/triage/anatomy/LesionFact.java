package limbqueue.triage.anatomy;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.question.Topic;

/**
 * One thing about a lesion that is known or could be asked.
 *
 * @param path the field of the referral that an answer fills
 * @param known the answer, where the referral gives it
 * @param actOn what to act on while it is unknown
 * @param choices answers that stand for all answers: one from each range that the rule tells apart
 * @param ask the question, as it can be asked on the phone; empty where nobody can be asked
 */
public record LesionFact<T>(String path, Optional<T> known, T actOn, List<T> choices, String ask) {

    /** What to act on, known or not. */
    public T acting() {
        return known.orElse(actOn);
    }

    Topic<T> topic() {
        return Topic.ofOne(path, choices);
    }
}
